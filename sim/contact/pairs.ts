import { type GridSize, NOT_MEETING, PHASES_PER_PITCH } from './grid.ts';

/** Fields of one flank of a solved pose; grid arrays as in FlankResult. */
export interface PairFields {
  /** rad of ring angle; NOT_MEETING where a point never meets */
  readonly phase: ArrayLike<number>;
  /** mm between the flanks where each point would meet */
  readonly separation: ArrayLike<number>;
  /** mm, negative = no pinion tooth opposite */
  readonly tipClearance: ArrayLike<number>;
}

/**
 * The way of one tooth pair through the mesh on one flank (docs/model.md §7). Every pair goes the same way, one ring
 * pitch after its neighbour: at place p of a pitch, pair n is at p + n of this way.
 */
export interface PairPassage {
  /** pitches from phase 0: where the pair's first and last contact line lies; NaN when the flanks never meet */
  readonly start: number;
  readonly end: number;
  /** number of the first phase in `separation`, in PHASES_PER_PITCH per pitch */
  readonly first: number;
  /** mm, least along the contact line of each phase from `first` on: about 0 where this pair carries */
  readonly separation: Float64Array;
}

const NEVER: PairPassage = {
  start: Number.NaN,
  end: Number.NaN,
  first: 0,
  separation: new Float64Array(0),
};

/** Calls back with both ends (phase in pitches, separation in mm) of every grid step that has a pinion tooth opposite, cut at the tip. */
const forEachStep = (
  { phase, separation, tipClearance }: PairFields,
  { columns, rows }: GridSize,
  perPitch: number,
  visit: (pa: number, sa: number, pb: number, sb: number) => void,
): void => {
  const step = (a: number, b: number): void => {
    if (phase[a] === NOT_MEETING || phase[b] === NOT_MEETING) return;
    if (separation[a] === NOT_MEETING || separation[b] === NOT_MEETING) return;
    const clearA = tipClearance[a];
    const clearB = tipClearance[b];
    if (clearA < 0 && clearB < 0) return;
    // share of the step, from either end, that lies beyond the pinion tip
    const cutA = clearA < 0 ? clearA / (clearA - clearB) : 0;
    const cutB = clearB < 0 ? clearB / (clearB - clearA) : 0;
    const along = (values: ArrayLike<number>, share: number): number =>
      values[a] + share * (values[b] - values[a]);
    visit(
      along(phase, cutA) * perPitch,
      along(separation, cutA),
      along(phase, 1 - cutB) * perPitch,
      along(separation, 1 - cutB),
    );
  };
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const node = j * columns + i;
      if (i + 1 < columns) step(node, node + 1);
      if (j + 1 < rows) step(node, node + columns);
    }
  }
};

/**
 * Where a tooth pair is in contact and how near its flanks are along the way. Not for hot loops: it looks at every step
 * of the grid twice and allocates its answer.
 */
export const followPair = (fields: PairFields, grid: GridSize, ringTeeth: number): PairPassage => {
  const perPitch = ringTeeth / (2 * Math.PI);
  let start = Number.POSITIVE_INFINITY;
  let end = Number.NEGATIVE_INFINITY;
  forEachStep(fields, grid, perPitch, (pa, _sa, pb) => {
    start = Math.min(start, pa, pb);
    end = Math.max(end, pa, pb);
  });
  if (!(end > start)) return NEVER;
  const first = Math.ceil(start * PHASES_PER_PITCH);
  const last = Math.floor(end * PHASES_PER_PITCH);
  const separation = new Float64Array(Math.max(0, last - first + 1)).fill(Number.POSITIVE_INFINITY);
  forEachStep(fields, grid, perPitch * PHASES_PER_PITCH, (pa, sa, pb, sb) => {
    const slope = pb === pa ? 0 : (sb - sa) / (pb - pa);
    const to = Math.floor(Math.max(pa, pb));
    for (let k = Math.ceil(Math.min(pa, pb)); k <= to; k++) {
      const here = sa + slope * (k - pa);
      if (here < separation[k - first]) separation[k - first] = here;
    }
  });
  return { start, end, first, separation };
};

/** mm between the flanks of pair `n` at phase `k` of the pitch; +Infinity where that pair has no contact line. */
export const pairSeparation = ({ first, separation }: PairPassage, n: number, k: number): number =>
  separation[k + n * PHASES_PER_PITCH - first] ?? Number.POSITIVE_INFINITY;

/** Numbers of the pairs that meet at some place of the pitch, ascending. */
export const pairNumbers = ({ start, end }: PairPassage): readonly number[] => {
  if (!(end > start)) return [];
  const first = Math.floor(start);
  return Array.from({ length: Math.ceil(end) - first }, (_, index) => first + index);
};

/** The pair that carries at phase `k` of the pitch: the one whose flanks are nearest; null where none meets. */
export const carryingPair = (passage: PairPassage, k: number): number | null => {
  let nearest: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const n of pairNumbers(passage)) {
    const here = pairSeparation(passage, n, k);
    if (here < least) {
      least = here;
      nearest = n;
    }
  }
  return nearest;
};
