import { create } from 'zustand';
import type { AxleDefinition } from '../../../../models/axle.ts';
import { createMeshService, type MeshClient } from '../../../../sim/worker/client.ts';
import type { LoadedGearSet, SolveResult, WorkerFailure } from '../../../../sim/worker/protocol.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { rested } from '../../../state/rested.ts';
import { type Judged, judgeDraft } from './judgeDraft.ts';

/** A set that could be made, and its pattern at the design position. */
export interface MadeSet {
  readonly axle: AxleDefinition;
  readonly loaded: LoadedGearSet;
  readonly result: SolveResult;
}

export interface DraftMeshStore {
  readonly judged: Judged;
  /** the last set that could be made; null until the first */
  readonly made: MadeSet | null;
  /** the answer to the present fields is on its way */
  readonly building: boolean;
  /** why the present fields make no set */
  readonly failure: WorkerFailure | null;
}

const NOTHING: DraftMeshStore = {
  judged: { axle: null, problems: new Map() },
  made: null,
  building: false,
  failure: null,
};

/** What the draft in the editor makes. */
export const useDraftMesh = create<DraftMeshStore>()(() => NOTHING);

/** Is what is shown made of the fields as they are? */
export const isMade = ({ judged, made, building, failure }: DraftMeshStore): boolean =>
  judged.axle !== null && made?.axle === judged.axle && !building && failure === null;

const DESIGN_POSITION = { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 } as const;
const DRAFT_SET = 'draft';

/** ms without a change before the teeth are cut: a number being typed is not cut digit by digit */
const REST_MS = 180;

/**
 * Keeps the store at what the open draft makes, in a worker of its own: the bench never waits for it. Returns a function
 * that ends both.
 */
export function followDraft(client: MeshClient = createMeshService()): () => void {
  let ended = false;
  let asked: AxleDefinition | null = null;
  let loadedFor = '';
  let loaded: LoadedGearSet | null = null;

  const answer = async (axle: AxleDefinition): Promise<void> => {
    const stale = () => ended || asked !== axle;
    const definition = JSON.stringify(axle.gearset);
    if (loaded === null || loadedFor !== definition) {
      const outcome = await client.load(DRAFT_SET, axle.gearset);
      if (ended) return;
      loaded = outcome.ok ? outcome.value : null;
      loadedFor = definition;
      if (stale()) return;
      if (!outcome.ok) {
        useDraftMesh.setState({ failure: outcome.failure, building: false });
        return;
      }
    }
    const set = loaded;
    const solved = await client.solve(DRAFT_SET, DESIGN_POSITION, axle.film_mm);
    if (stale() || set === null) return;
    if (solved.ok) {
      useDraftMesh.setState({
        made: { axle, loaded: set, result: solved.value },
        failure: null,
        building: false,
      });
    } else useDraftMesh.setState({ failure: solved.failure, building: false });
  };

  const waiting = rested<AxleDefinition>(
    (axle) => {
      if (!ended && asked === axle) void answer(axle);
    },
    REST_MS,
    { now: () => performance.now(), later: (callback, ms) => setTimeout(callback, ms) },
  );
  const judge = () => {
    const draft = openDraft(useAxleDrafts.getState());
    if (draft === null) return;
    const judged = judgeDraft(draft.entries);
    asked = judged.axle;
    if (judged.axle === null) useDraftMesh.setState({ judged, building: false, failure: null });
    else {
      useDraftMesh.setState({ judged, building: true });
      waiting.put(judged.axle);
    }
  };
  const unsubscribe = useAxleDrafts.subscribe((state, before) => {
    if (openDraft(state)?.entries !== openDraft(before)?.entries) judge();
  });
  useDraftMesh.setState(NOTHING);
  judge();
  return () => {
    ended = true;
    unsubscribe();
    client.dispose();
    useDraftMesh.setState(NOTHING);
  };
}
