import { create } from 'zustand';
import type { Pose } from '../../sim/contact/pose.ts';
import type { GearSolids } from '../../sim/gearset/solids.ts';
import { fittedAtDesign } from '../../sim/worker/assembly.ts';
import type { MeshClient } from '../../sim/worker/client.ts';
import type { LoadedGearSet, Outcome, SolveResult, WorkerFailure } from '../../sim/worker/protocol.ts';
import { axleOf } from './axles.ts';
import { poseOfSetup, type ShownMesh, useMesh } from './mesh.ts';
import { type Setup, setupAsFound, useSetup } from './setup.ts';
import { useView } from './view.ts';

/** found: the axle as it was found; design: where its gears were cut to run; alike: as far from there as the present one. */
export const LEFT_STANDS = ['found', 'design', 'alike'] as const;
export type LeftStand = (typeof LEFT_STANDS)[number];

/** What stands on the left of the present set-up. */
export type Left =
  | {
      readonly stand: LeftStand;
      /** null: whichever axle is on the bench */
      readonly axleId: string | null;
    }
  | { readonly stand: 'kept'; readonly setup: Setup };

export const DEFAULT_LEFT: Left = { stand: 'found', axleId: null };

/** What the core is asked about the left side. */
export interface LeftTarget {
  readonly axleId: string;
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  /** what is fitted; null where only the pose is taken over from another axle */
  readonly setup: Setup | null;
}

/** The left side as it stands beside `present`. */
export function leftTarget(left: Left, present: Setup): LeftTarget {
  const of = (setup: Setup): LeftTarget => ({
    axleId: setup.axleId,
    pose: poseOfSetup(setup),
    film: setup.film,
    setup,
  });
  if (left.stand === 'kept') return of(left.setup);
  const axleId = left.axleId ?? present.axleId;
  if (left.stand === 'found') return of(setupAsFound(axleId));
  if (left.stand === 'design') {
    const { axle } = axleOf(axleId);
    const film = axleId === present.axleId ? present.film : axle.film_mm;
    return of({ axleId, fitment: fittedAtDesign(axle), offsetError: 0, shaftAngleError: 0, film });
  }
  return { axleId, pose: poseOfSetup(present), film: present.film, setup: null };
}

/** Solids of one side, always of the reduced detail: two sets are drawn at once. */
export interface ComparedSolids {
  readonly axleId: string;
  readonly solids: GearSolids;
}

export interface CompareStore {
  readonly left: Left;
  /** the cameras of both pictures go together */
  readonly linked: boolean;
  /** the left side solved; the last good answer until a new one arrives */
  readonly shown: ShownMesh | null;
  /** what was asked for `shown` */
  readonly target: LeftTarget | null;
  readonly leftSolids: ComparedSolids | null;
  readonly rightSolids: ComparedSolids | null;
  /** why the left side has no answer */
  readonly failure: WorkerFailure | null;
  readonly choose: (left: Left) => void;
  /** The present set-up stays on the left while the right one goes on. */
  readonly keepPresent: () => void;
  readonly setLinked: (linked: boolean) => void;
  readonly reset: () => void;
}

const START = {
  left: DEFAULT_LEFT,
  linked: true,
  shown: null,
  target: null,
  leftSolids: null,
  rightSolids: null,
  failure: null,
} as const;

export const useCompare = create<CompareStore>()((set) => ({
  ...START,
  choose: (left) => set({ left }),
  keepPresent: () => set({ left: { stand: 'kept', setup: useSetup.getState().committed } }),
  setLinked: (linked) => set({ linked }),
  reset: () => set(START),
}));

/** What the store needs of the core's client. */
export type CompareSource = Pick<MeshClient, 'load' | 'solve' | 'solids'>;

/**
 * Keeps the left side at its answer, and the solids of both, while the two are looked at side by side; one request is
 * under way at a time and only the newest waits. Returns a function that ends it.
 */
export function followCompared(source: CompareSource): () => void {
  const loaded = new Map<string, LoadedGearSet>();
  let ended = false;
  let running = false;
  let stale = false;

  const load = async (axleId: string): Promise<Outcome<LoadedGearSet>> => {
    const answer = await source.load(axleId, axleOf(axleId).axle.gearset);
    if (answer.ok) loaded.set(axleId, answer.value);
    return answer;
  };

  /** The core forgets sets that were not used for long: what it says is not loaded is loaded and asked again. */
  const ask = async <T>(axleId: string, request: () => Promise<Outcome<T>>): Promise<Outcome<T>> => {
    const shown = useMesh.getState().shown;
    if (shown?.axleId === axleId) loaded.set(axleId, shown.loaded);
    if (!loaded.has(axleId)) {
      const ready = await load(axleId);
      if (!ready.ok) return ready;
    }
    const first = await request();
    if (first.ok || first.failure.kind !== 'not-loaded') return first;
    const again = await load(axleId);
    return again.ok ? request() : again;
  };

  const solids = async (axleId: string, side: 'leftSolids' | 'rightSolids'): Promise<void> => {
    const { leftSolids, rightSolids } = useCompare.getState();
    const has = [leftSolids, rightSolids].find((one) => one?.axleId === axleId);
    if (useCompare.getState()[side]?.axleId === axleId) return;
    if (has) return useCompare.setState({ [side]: has });
    const made = await ask(axleId, () => source.solids(axleId, 'reduced'));
    if (ended) return;
    if (made.ok) useCompare.setState({ [side]: { axleId, solids: made.value } });
    else useCompare.setState({ failure: made.failure });
  };

  const answer = async (): Promise<void> => {
    const target = leftTarget(useCompare.getState().left, useSetup.getState().live);
    const solved: Outcome<SolveResult> = await ask(target.axleId, () =>
      source.solve(target.axleId, target.pose, target.film),
    );
    if (ended) return;
    if (!solved.ok) {
      useCompare.setState({ failure: solved.failure });
      return;
    }
    const set = loaded.get(target.axleId);
    if (set === undefined) return;
    const shown: ShownMesh = { axleId: target.axleId, loaded: set, result: solved.value };
    useCompare.setState({ shown, target, failure: null });
    await solids(target.axleId, 'leftSolids');
    const right = useMesh.getState().shown?.axleId;
    if (right !== undefined) await solids(right, 'rightSolids');
  };

  const follow = async (): Promise<void> => {
    if (useView.getState().picture !== 'side-by-side') return;
    stale = true;
    if (running) return;
    running = true;
    while (stale && !ended) {
      stale = false;
      await answer();
    }
    running = false;
  };

  const endings = [
    useCompare.subscribe((state, before) => {
      if (state.left !== before.left) void follow();
    }),
    useSetup.subscribe((state, before) => {
      if (state.live === before.live) return;
      const { left } = useCompare.getState();
      // a kept one, and another axle as found, do not answer to the controls
      if (left.stand === 'kept' || (left.stand !== 'alike' && left.axleId !== null)) return;
      if (
        left.stand === 'alike' ||
        state.live.axleId !== before.live.axleId ||
        state.live.film !== before.live.film
      ) {
        void follow();
      }
    }),
    useMesh.subscribe((state, before) => {
      if (state.shown?.axleId !== before.shown?.axleId) void follow();
    }),
    useView.subscribe((state, before) => {
      if (state.picture !== before.picture) void follow();
    }),
  ];
  void follow();
  return () => {
    ended = true;
    for (const end of endings) end();
  };
}
