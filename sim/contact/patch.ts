import { NOT_MEETING } from './grid.ts';
import type { NodeTable } from './nodeTable.ts';
import type { PosedFlank } from './posedFlank.ts';
import { PHASE_MASK, type TransmissionTable } from './transmission.ts';

/** Bits of `edges`. */
export const EDGE_BIT = { toe: 1, heel: 2, face: 4, root: 8 } as const;

/** The mark on one flank (docs/model.md §7); caller-owned. Flank coordinates; NaN centroid without a mark. */
export interface Patch {
  toeHeel: number;
  rootFace: number;
  length: number;
  height: number;
  area: number;
  /** sum of EDGE_BIT */
  edges: number;
}

/** separation = (g − TE_all(φ))·|λ|, mm, for every node; NOT_MEETING stays. */
export const separate = (
  { lever }: Pick<NodeTable, 'lever'>,
  flank: PosedFlank,
  transmission: TransmissionTable,
  separation: Float64Array,
): void => {
  const { phase, gap } = flank;
  const perPhase = transmission.phasesPerRad[0];
  const { values } = transmission;
  const whole = transmission.most[0] < Number.POSITIVE_INFINITY;
  for (let node = 0; node < separation.length; node++) {
    const p = phase[node];
    if (p === NOT_MEETING) {
      separation[node] = NOT_MEETING;
      continue;
    }
    // transmissionAt, written out for the same reason as in transmission.ts
    const place = p * perPhase;
    const k = Math.floor(place);
    const before = values[k & PHASE_MASK];
    const after = values[(k + 1) & PHASE_MASK];
    let error = before + (place - k) * (after - before);
    if (!whole) {
      if (after === Number.POSITIVE_INFINITY) error = before;
      else if (before === Number.POSITIVE_INFINITY) error = after;
      // Two stores, not one conditional value: that would mix kinds of number and put each on the heap.
      if (error === Number.POSITIVE_INFINITY) {
        separation[node] = NOT_MEETING;
        continue;
      }
    }
    separation[node] = (gap[node] - error) * lever[node];
  }
};

/** What counts as a mark, and scratch; numbers pass through it so that none is put on the heap (see transmission.ts). */
export interface MarkRule {
  /** film mm, root margin mm (how near the pinion tip counts as reaching the root), scratch */
  readonly numbers: Float64Array;
}

const FILM = 0;
const ROOT_MARGIN = 1;
const BEGIN = 2;

export const createMarkRule = (rootMargin: number): MarkRule => ({
  numbers: Float64Array.of(0, rootMargin, 0),
});

export const setFilm = ({ numbers }: MarkRule, film: number): void => {
  numbers[FILM] = film;
};

/** Sets `numbers[BEGIN]` to the fraction of the way from an unmarked node to a marked one at which the mark begins. */
const findBegin = (
  separation: Float64Array,
  tipClearance: Float64Array,
  unmarked: number,
  marked: number,
  numbers: Float64Array,
): void => {
  let s = 0;
  const film = numbers[FILM];
  const sep = separation[unmarked];
  if (sep > film) s = (sep - film) / (sep - separation[marked]);
  const clear = tipClearance[unmarked];
  if (clear < 0) s = Math.max(s, clear / (clear - tipClearance[marked]));
  numbers[BEGIN] = s;
};

/**
 * Descriptors of the mark where separation ≤ film and a pinion tooth is opposite (docs/model.md §7).
 * Borders are placed within grid steps by linear interpolation.
 */
export const describePatch = (
  separation: Float64Array,
  tipClearance: Float64Array,
  columns: number,
  rows: number,
  rule: MarkRule,
  out: Patch,
): void => {
  const { numbers } = rule;
  const film = numbers[FILM];
  const du = 2 / (columns - 1);
  const dv = 2 / (rows - 1);
  let mass = 0;
  let momentU = 0;
  let momentV = 0;
  let uLow = 2;
  let uHigh = -2;
  let vLow = 2;
  let vHigh = -2;
  let edges = 0;

  for (let j = 0; j < rows; j++) {
    const start = j * columns;
    let rowMass = 0;
    let rowMoment = 0;
    let inside = separation[start] <= film && tipClearance[start] >= 0;
    if (inside) {
      edges |= EDGE_BIT.toe;
      if (uLow > -1) uLow = -1;
    }
    for (let i = 0; i < columns; i++) {
      const node = start + i;
      const wasInside = inside;
      inside = separation[node] <= film && tipClearance[node] >= 0;
      if (inside) {
        if (j === 0) {
          edges |= EDGE_BIT.root;
          vLow = -1;
        } else if (!(separation[node - columns] <= film && tipClearance[node - columns] >= 0)) {
          const below = node - columns;
          findBegin(separation, tipClearance, below, node, numbers);
          const s = numbers[BEGIN];
          const v = -1 + (j - 1 + s) * dv;
          if (v < vLow) vLow = v;
        }
        if (j === rows - 1) {
          edges |= EDGE_BIT.face;
          vHigh = 1;
        } else if (!(separation[node + columns] <= film && tipClearance[node + columns] >= 0)) {
          const above = node + columns;
          findBegin(separation, tipClearance, above, node, numbers);
          const s = numbers[BEGIN];
          const v = -1 + (j + 1 - s) * dv;
          if (v > vHigh) vHigh = v;
        }
      }
      if (i === 0) continue;
      const before = node - 1;
      const u = -1 + i * du;
      if (inside && wasInside) {
        rowMass += du;
        rowMoment += du * (u - 0.5 * du);
      } else if (inside) {
        findBegin(separation, tipClearance, before, node, numbers);
        const s = numbers[BEGIN];
        const from = u - (1 - s) * du;
        rowMass += u - from;
        rowMoment += 0.5 * (u * u - from * from);
        if (from < uLow) uLow = from;
      } else if (wasInside) {
        findBegin(separation, tipClearance, node, before, numbers);
        const s = numbers[BEGIN];
        const from = u - du;
        const to = u - s * du;
        rowMass += to - from;
        rowMoment += 0.5 * (to * to - from * from);
        if (to > uHigh) uHigh = to;
      }
    }
    if (inside) {
      edges |= EDGE_BIT.heel;
      uHigh = 1;
    }
    const weight = j === 0 || j === rows - 1 ? 0.5 * dv : dv;
    mass += rowMass * weight;
    momentU += rowMoment * weight;
    momentV += rowMass * weight * (-1 + j * dv);
  }
  if (reachesTip(separation, tipClearance, columns, rows, numbers)) edges |= EDGE_BIT.root;
  out.area = mass / 4;
  out.toeHeel = mass > 0 ? momentU / mass : Number.NaN;
  out.rootFace = mass > 0 ? momentV / mass : Number.NaN;
  out.length = uHigh > uLow ? 0.5 * (uHigh - uLow) : 0;
  out.height = vHigh > vLow ? 0.5 * (vHigh - vLow) : 0;
  out.edges = edges;
};

/** Is there a mark within the root margin of the pinion tip? Looks along each column where the tip crosses it. */
const reachesTip = (
  separation: Float64Array,
  tipClearance: Float64Array,
  columns: number,
  rows: number,
  numbers: Float64Array,
): boolean => {
  const film = numbers[FILM];
  const margin = numbers[ROOT_MARGIN];
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < rows; j++) {
      const node = j * columns + i;
      const clear = tipClearance[node];
      if (clear < margin) continue;
      if (j === 0) break;
      const below = node - columns;
      if (separation[below] === NOT_MEETING) break;
      const s = (margin - tipClearance[below]) / (clear - tipClearance[below]);
      if (separation[below] + s * (separation[node] - separation[below]) <= film) return true;
      break;
    }
  }
  return false;
};
