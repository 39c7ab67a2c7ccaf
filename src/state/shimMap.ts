import { create } from 'zustand';
import type { LongService, ShimMap, ShimMapPlane, ShimMapStride } from '../../sim/worker/longProtocol.ts';
import { SHIM_MAP_AXIS } from '../../sim/worker/longProtocol.ts';
import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import { axleOf } from './axles.ts';
import { type Setup, useSetup } from './setup.ts';

/** Middles of both marks, flank coordinates. */
export interface MarkCentres {
  readonly drive: { readonly toeHeel: number; readonly rootFace: number };
  readonly coast: { readonly toeHeel: number; readonly rootFace: number };
}

/** What a map depends on. The shims are not among it: they are its two axes. */
export interface ShimMapSubject {
  readonly axleId: string;
  readonly offsetError: number;
  readonly shaftAngleError: number;
  readonly film: number;
}

/** A map as far as it is solved, with what it belongs to. */
export interface ShownShimMap {
  readonly subject: ShimMapSubject;
  readonly map: ShimMap;
  /** every `covered`-th row and column is solved, and the last ones */
  readonly covered: ShimMapStride;
  /** where the marks lie in the design position of a true housing, with the same film */
  readonly home: MarkCentres;
}

export interface ShimMapStore {
  /** always of the present axle, film and housing; null until its first pass is done */
  readonly shown: ShownShimMap | null;
  /** share solved, 0…1, while it is being worked out; null at rest */
  readonly progress: number | null;
  /** stopped by the user; a new subject starts again by itself */
  readonly stopped: boolean;
  readonly failure: WorkerFailure | null;
  /** counts the times it was asked for again */
  readonly attempt: number;
  readonly stop: () => void;
  readonly goOn: () => void;
  readonly reset: () => void;
}

/** Finished maps, newest first: going back to one of the last few subjects shows it at once. */
const finished: ShownShimMap[] = [];
const KEPT = 8;

const NOTHING_YET = { shown: null, progress: null, stopped: false, failure: null } as const;

export const useShimMap = create<ShimMapStore>()((set) => ({
  ...NOTHING_YET,
  attempt: 0,
  stop: () => set({ stopped: true, progress: null }),
  goOn: () => set((state) => ({ stopped: false, failure: null, attempt: state.attempt + 1 })),
  reset: () => {
    finished.length = 0;
    set(NOTHING_YET);
  },
}));

export type ShimMapSource = Pick<LongService, 'shimMap'>;

/**
 * ms of rest before a new map is begun: a slider under way changes the subject at every step, and what the last one
 * changed on the page is drawn by then, so that the map never works against the hand and that drawing at once.
 */
export const SUBJECT_REST_MS = 300;
/** ms between two reports of progress at least: a frame takes as much of a slow machine as a good part of the map. */
const REPORT_MS = 400;

const subjectOf = ({ axleId, offsetError, shaftAngleError, film }: Setup): ShimMapSubject => ({
  axleId,
  offsetError,
  shaftAngleError,
  film,
});

const SUBJECT_FIELDS = ['axleId', 'offsetError', 'shaftAngleError', 'film'] as const;

const same = (a: ShimMapSubject, b: ShimMapSubject): boolean =>
  SUBJECT_FIELDS.every((field) => a[field] === b[field]);

const planeOf = ({ offsetError, shaftAngleError, film }: ShimMapSubject): ShimMapPlane => ({
  pinionIn: SHIM_MAP_AXIS,
  ringAway: SHIM_MAP_AXIS,
  offsetError,
  shaftAngleError,
  film,
});

/** The smallest plane there is, with the design position in its first cell. */
const homePlane = (film: number): ShimMapPlane => ({
  pinionIn: { low: 0, high: 0.01, count: 2 },
  ringAway: { low: 0, high: 0.01, count: 2 },
  offsetError: 0,
  shaftAngleError: 0,
  film,
});

const centresOf = ({ drive, coast }: ShimMap, cell: number): MarkCentres => ({
  drive: { toeHeel: drive.toeHeel[cell], rootFace: drive.rootFace[cell] },
  coast: { toeHeel: coast.toeHeel[cell], rootFace: coast.rootFace[cell] },
});

/**
 * Keeps the shim map at the live axle, film and housing: coarse first, refined in place, kept for going back. A map of
 * another subject is never shown, however late it comes. Returns a function that ends it.
 */
export function followShimMap(source: ShimMapSource): () => void {
  let wanted = subjectOf(useSetup.getState().live);
  let abort = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;

  const work = async (subject: ShimMapSubject): Promise<void> => {
    abort.abort();
    abort = new AbortController();
    const { signal } = abort;
    useShimMap.setState({ progress: 0, failure: null });
    const fail = (failure: WorkerFailure): void => useShimMap.setState({ progress: null, failure });

    const { axleId, film } = subject;
    const { gearset } = axleOf(axleId).axle;
    const atHome = await source.shimMap(axleId, gearset, homePlane(film), { signal });
    if (signal.aborted || atHome === null) return;
    if (!atHome.ok) return fail(atHome.failure);
    const home = centresOf(atHome.value, 0);

    const show = (map: ShimMap, covered: ShimMapStride): ShownShimMap => {
      const { shown: before } = useShimMap.getState();
      const shown: ShownShimMap = { subject, map, covered, home };
      // what was there before a stop may be finer than the first passes of going on
      if (before === null || covered < before.covered) useShimMap.setState({ shown });
      return shown;
    };
    let told = performance.now();
    const answer = await source.shimMap(axleId, gearset, planeOf(subject), {
      signal,
      onProgress: ({ map, solvedCells, total, covered }) => {
        if (signal.aborted) return;
        const progress = solvedCells / total;
        if (performance.now() >= told + REPORT_MS) {
          told = performance.now();
          useShimMap.setState({ progress });
        }
        if (map !== null && covered !== null && covered > 1) show(map, covered);
      },
    });
    if (signal.aborted || answer === null) return;
    if (!answer.ok) return fail(answer.failure);
    finished.unshift(show(answer.value, 1));
    finished.splice(KEPT);
    useShimMap.setState({ progress: null });
  };

  const turnTo = (subject: ShimMapSubject, restMs: number): void => {
    wanted = subject;
    abort.abort();
    clearTimeout(timer);
    const kept = finished.find((shown) => same(shown.subject, subject)) ?? null;
    useShimMap.setState({ ...NOTHING_YET, shown: kept, progress: kept === null ? 0 : null });
    if (kept === null) timer = setTimeout(() => void work(subject), restMs);
  };

  const endings = [
    useSetup.subscribe((state, before) => {
      if (state.live === before.live) return;
      const subject = subjectOf(state.live);
      if (!same(subject, wanted)) turnTo(subject, SUBJECT_REST_MS);
    }),
    useShimMap.subscribe((state, before) => {
      if (state.stopped && !before.stopped) {
        clearTimeout(timer);
        abort.abort();
      } else if (state.attempt !== before.attempt) void work(wanted);
    }),
  ];
  turnTo(wanted, 0);
  return () => {
    abort.abort();
    clearTimeout(timer);
    for (const end of endings) end();
    useShimMap.setState(NOTHING_YET);
  };
}
