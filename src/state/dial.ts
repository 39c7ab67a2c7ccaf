import { create } from 'zustand';
import type { DialDirection } from '../../sim/assembly/dial.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import type { MeshClient } from '../../sim/worker/client.ts';
import type { SolveResult, WorkerFailure } from '../../sim/worker/protocol.ts';
import { awayAtMesh, poseWithRunout, runoutFrame } from '../../sim/worker/runout.ts';
import { axleOf } from './axles.ts';
import { type ShownMesh, useMesh } from './mesh.ts';
import type { Range } from './ranges.ts';
import { useView } from './view.ts';

/** places round the ring at which the dial is read */
export const PLACES_RANGE: Range = { least: 3, most: 12 };
/** mm, full indicator reading at the ring's back face */
export const RUNOUT_RANGE: Range = { least: 0, most: 0.25 };
/** degrees round the ring from tooth 1, in the sense of the tooth numbers */
export const RUNOUT_AT_RANGE: Range = { least: 0, most: 355 };

/** A ring that does not run true sits tilted on its carrier. */
export interface DialRunout {
  /** mm, full indicator reading at the back face */
  readonly full: number;
  /** degrees from tooth 1 to where the ring stands farthest from the pinion */
  readonly farthestAt: number;
}

/** The mesh as it is where the dial is read. */
export interface DialPlace {
  /** number of the ring tooth in mesh, from 0 */
  readonly tooth: number;
  /** degrees round the ring from tooth 1 */
  readonly angle: number;
  /** mm the ring stands farther from the pinion here; minus: nearer */
  readonly away: number;
  readonly result: SolveResult;
}

/** Readings that belong together: of one mesh, one runout. */
export interface DialRound {
  readonly mesh: ShownMesh;
  readonly runout: DialRunout;
  readonly places: readonly DialPlace[];
}

export interface DialStore {
  /** how the dial is held; null: as this axle's limits are read */
  readonly direction: DialDirection | null;
  readonly count: number;
  readonly runout: DialRunout;
  /** index of the place looked at; null: the ring as if it ran true */
  readonly place: number | null;
  /** the last round that was worked out */
  readonly round: DialRound | null;
  readonly failure: WorkerFailure | null;
  readonly hold: (direction: DialDirection) => void;
  readonly setCount: (count: number) => void;
  readonly setRunout: (change: Partial<DialRunout>) => void;
  readonly goTo: (place: number | null) => void;
  readonly reset: () => void;
}

const START = {
  direction: null,
  count: 6,
  runout: { full: 0, farthestAt: 0 },
  place: null,
  round: null,
  failure: null,
} as const;

export const useDial = create<DialStore>()((set, get) => ({
  ...START,
  hold: (direction) => set({ direction }),
  setCount: (count) => {
    if (count !== get().count) set({ count, place: null });
  },
  setRunout: (change) => set({ runout: { ...get().runout, ...change } }),
  goTo: (place) => set({ place }),
  reset: () => set(START),
}));

/** The tooth nearest to each of `count` places equally far apart. */
export const teethAt = (count: number, ringTeeth: number): readonly number[] =>
  Array.from({ length: count }, (_, index) => Math.round((index * ringTeeth) / count) % ringTeeth);

/** The place looked at, once it is worked out for the mesh that is shown. */
export function placeShown({ round, place }: DialStore, shown: ShownMesh | null): DialPlace | null {
  if (round === null || place === null || round.mesh.axleId !== shown?.axleId) return null;
  return round.places[place] ?? null;
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** What the store needs of the core's client. */
export type DialSource = Pick<MeshClient, 'load' | 'solve'>;

/**
 * While the dial is looked at, keeps its readings at the mesh that is shown: a solve for every place, in the
 * pose the tilted ring has there. Returns a function that ends it.
 */
export function followDial(source: DialSource): () => void {
  let ended = false;
  let busy = false;
  let again = false;

  const solve = async (mesh: ShownMesh, moved: Pose) => {
    const { pose, film } = mesh.result;
    // a ring that runs true stands everywhere as it is shown
    if (moved === pose) return { ok: true, value: mesh.result } as const;
    const first = await source.solve(mesh.axleId, moved, film);
    if (first.ok || first.failure.kind !== 'not-loaded') return first;
    // the core keeps a few sets only
    const loaded = await source.load(mesh.axleId, axleOf(mesh.axleId).axle.gearset);
    return loaded.ok ? source.solve(mesh.axleId, moved, film) : loaded;
  };

  const readRound = async (mesh: ShownMesh): Promise<void> => {
    const { count, runout } = useDial.getState();
    const { gearset } = axleOf(mesh.axleId).axle;
    const frame = runoutFrame(gearset, mesh.loaded.geometry.meanPoint);
    const tilt = { amplitude: runout.full / 2, highAt: -radians(runout.farthestAt) };
    const places: DialPlace[] = [];
    for (const tooth of teethAt(count, gearset.ringTeeth)) {
      const angle = (tooth * 360) / gearset.ringTeeth;
      // turned against the tooth numbers, a higher tooth comes to the mesh
      const turned = -radians(angle);
      const solved = await solve(mesh, poseWithRunout(frame, mesh.result.pose, tilt, turned));
      if (ended) return;
      if (!solved.ok) {
        useDial.setState({ failure: solved.failure });
        return;
      }
      places.push({ tooth, angle, away: awayAtMesh(frame, tilt, turned), result: solved.value });
    }
    useDial.setState({ round: { mesh, runout, places }, failure: null });
  };

  /** One round at a time; the newest wish waits behind it, so that readings keep up with a control that is dragged. */
  const follow = async (): Promise<void> => {
    again = true;
    if (busy) return;
    busy = true;
    while (again && !ended) {
      again = false;
      const { shown } = useMesh.getState();
      if (shown !== null && useView.getState().picture === 'dial') await readRound(shown);
    }
    busy = false;
  };

  const endings = [
    useMesh.subscribe((state, before) => {
      if (state.shown === before.shown) return;
      // another axle has other teeth
      if (state.shown?.axleId !== before.shown?.axleId) useDial.setState({ place: null });
      void follow();
    }),
    useView.subscribe((state, before) => {
      if (state.picture !== before.picture) void follow();
    }),
    useDial.subscribe((state, before) => {
      if (state.count !== before.count || state.runout !== before.runout) void follow();
    }),
  ];
  void follow();
  return () => {
    ended = true;
    for (const end of endings) end();
  };
}
