import { create } from 'zustand';
import type { Pose } from '../../sim/contact/pose.ts';
import { poseOfFitment } from '../../sim/worker/assembly.ts';
import type { MeshClient } from '../../sim/worker/client.ts';
import type { LoadedGearSet, Outcome, SolveResult, WorkerFailure } from '../../sim/worker/protocol.ts';
import { axleOf } from './axles.ts';
import { type Setup, useSetup } from './setup.ts';
import { showLiveSetup } from './shownSetup.ts';

/** A solved mesh with the gear set it belongs to; replaced whole, so that the two never disagree. */
export interface ShownMesh {
  readonly axleId: string;
  readonly loaded: LoadedGearSet;
  readonly result: SolveResult;
}

export interface MeshStore {
  /** the last good picture; null until the first one */
  readonly shown: ShownMesh | null;
  /** an answer to the present set-up is on its way */
  readonly pending: boolean;
  /** why the present set-up has no answer; the last good picture stays */
  readonly failure: WorkerFailure | null;
  /** counts the times the present set-up was asked for again after a failure */
  readonly attempt: number;
  readonly retry: () => void;
  readonly reset: () => void;
}

const NOTHING_YET = { shown: null, pending: false, failure: null } as const;

export const useMesh = create<MeshStore>()((set) => ({
  ...NOTHING_YET,
  attempt: 0,
  retry: () => set((state) => ({ attempt: state.attempt + 1 })),
  reset: () => set(NOTHING_YET),
}));

/** Where pinion and ring stand with this set-up. */
export function poseOfSetup(setup: Setup): Pose {
  const { axle } = axleOf(setup.axleId);
  const { offsetError, shaftAngleError } = setup;
  return { ...poseOfFitment(axle, setup.fitment), offsetError, shaftAngleError };
}

/** What the store needs of the core's client. */
export type MeshSource = Pick<MeshClient, 'load' | 'solveLatest'>;

/**
 * Keeps the mesh store at the answer to the live set-up; set-ups that are no longer wanted when their turn comes are
 * never computed. Returns a function that ends it.
 */
export function followSetup(source: MeshSource): () => void {
  const loads = new Map<string, Promise<Outcome<LoadedGearSet>>>();
  let wanted: Setup | null = null;
  let ended = false;

  const load = (axleId: string): Promise<Outcome<LoadedGearSet>> => {
    const started = loads.get(axleId) ?? source.load(axleId, axleOf(axleId).axle.gearset);
    loads.set(axleId, started);
    return started;
  };

  const answer = async (setup: Setup): Promise<void> => {
    wanted = setup;
    if (!useMesh.getState().pending) useMesh.setState({ pending: true });
    const gearSet = await load(setup.axleId);
    if (ended || wanted !== setup) return;
    if (!gearSet.ok) {
      // a second choice of the same axle tries again
      loads.delete(setup.axleId);
      useMesh.setState({ failure: gearSet.failure, pending: false });
      return;
    }
    const solved = await source.solveLatest(setup.axleId, poseOfSetup(setup), setup.film);
    if (ended || solved === null) return;
    const pending = wanted !== setup;
    if (!solved.ok) {
      // the core keeps a few sets only; the next try builds it again
      if (solved.failure.kind === 'not-loaded') loads.delete(setup.axleId);
      useMesh.setState({ failure: solved.failure, pending });
      return;
    }
    const shown: ShownMesh = { axleId: setup.axleId, loaded: gearSet.value, result: solved.value };
    useMesh.setState({ shown, failure: null, pending });
    showLiveSetup();
  };

  const unsubscribe = useSetup.subscribe((state, before) => {
    if (state.live !== before.live) void answer(state.live);
  });
  const unsubscribeRetry = useMesh.subscribe((state, before) => {
    if (state.attempt !== before.attempt) void answer(useSetup.getState().live);
  });
  void answer(useSetup.getState().live);
  return () => {
    ended = true;
    unsubscribe();
    unsubscribeRetry();
  };
}
