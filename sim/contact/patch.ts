import { NOT_MEETING, PHASES_PER_PITCH } from './grid.ts';
import { NODE, NODE_STRIDE, type NodeTable } from './nodeTable.ts';
import type { PosedFlank } from './posedFlank.ts';
import { type TransmissionTable, transmissionAt } from './transmission.ts';

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
  table: NodeTable,
  flank: PosedFlank,
  transmission: TransmissionTable,
  pitch: number,
  ratio: number,
  separation: Float64Array,
): void => {
  const { data } = table;
  const { phase, gap } = flank;
  const perPhase = PHASES_PER_PITCH / pitch;
  const leverScale = table.closing / ratio;
  const { values } = transmission;
  for (let node = 0, at = NODE.mz; node < separation.length; node++, at += NODE_STRIDE) {
    const p = phase[node];
    if (p === NOT_MEETING) {
      separation[node] = NOT_MEETING;
      continue;
    }
    const error = transmissionAt(values, p * perPhase);
    separation[node] =
      error === Number.POSITIVE_INFINITY ? NOT_MEETING : (gap[node] - error) * data[at] * leverScale;
  }
};

/** Fraction of the way from an unmarked node (sep0, clear0) to a marked one at which the mark begins. */
const markBegins = (sep0: number, clear0: number, sep1: number, clear1: number, film: number): number => {
  let s = 0;
  if (sep0 > film) s = (sep0 - film) / (sep0 - sep1);
  if (clear0 < 0) s = Math.max(s, clear0 / (clear0 - clear1));
  return s;
};

/**
 * Descriptors of the mark where separation ≤ film and a pinion tooth is opposite (docs/model.md §7).
 * Borders are placed within grid steps by linear interpolation. `rootMargin` (mm) is how near the pinion tip
 * counts as reaching the root.
 */
export const describePatch = (
  separation: Float64Array,
  tipClearance: Float64Array,
  columns: number,
  rows: number,
  film: number,
  rootMargin: number,
  out: Patch,
): void => {
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
          const s = markBegins(
            separation[below],
            tipClearance[below],
            separation[node],
            tipClearance[node],
            film,
          );
          const v = -1 + (j - 1 + s) * dv;
          if (v < vLow) vLow = v;
        }
        if (j === rows - 1) {
          edges |= EDGE_BIT.face;
          vHigh = 1;
        } else if (!(separation[node + columns] <= film && tipClearance[node + columns] >= 0)) {
          const above = node + columns;
          const s = markBegins(
            separation[above],
            tipClearance[above],
            separation[node],
            tipClearance[node],
            film,
          );
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
        const s = markBegins(
          separation[before],
          tipClearance[before],
          separation[node],
          tipClearance[node],
          film,
        );
        const from = u - (1 - s) * du;
        rowMass += u - from;
        rowMoment += 0.5 * (u * u - from * from);
        if (from < uLow) uLow = from;
      } else if (wasInside) {
        const s = markBegins(
          separation[node],
          tipClearance[node],
          separation[before],
          tipClearance[before],
          film,
        );
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
  if (reachesTip(separation, tipClearance, columns, rows, film, rootMargin)) edges |= EDGE_BIT.root;
  out.area = mass / 4;
  out.toeHeel = mass > 0 ? momentU / mass : Number.NaN;
  out.rootFace = mass > 0 ? momentV / mass : Number.NaN;
  out.length = uHigh > uLow ? 0.5 * (uHigh - uLow) : 0;
  out.height = vHigh > vLow ? 0.5 * (vHigh - vLow) : 0;
  out.edges = edges;
};

/** Is there a mark within `margin` mm of the pinion tip? Looks along each column where the tip crosses it. */
const reachesTip = (
  separation: Float64Array,
  tipClearance: Float64Array,
  columns: number,
  rows: number,
  film: number,
  margin: number,
): boolean => {
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
