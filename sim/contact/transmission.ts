import { NOT_MEETING, PHASES_PER_PITCH } from './grid.ts';
import type { PosedFlank } from './posedFlank.ts';

/*
 * Numbers pass between the functions below through typed arrays: a double handed to a function that is not inlined
 * would be put on the heap, thousands of times per solve.
 */

/** Transmission error of one flank over a ring pitch; caller-owned. */
export interface TransmissionTable {
  /** TE_all at PHASES_PER_PITCH phases from 0, rad of pinion; +Infinity where no pair is in contact */
  readonly values: Float64Array;
  /** least and greatest phase of contact found, in tabulated phases; +Infinity, −Infinity when there is none */
  readonly range: Float64Array;
  /** tabulated phases per rad of ring angle */
  readonly phasesPerRad: Float64Array;
  /** scratch: phase (in tabulated phases) and gap at both ends of the piece being cut */
  readonly piece: Float64Array;
  /** at least the greatest of `values`, so what lies nowhere below it cannot lower them; finite: none of them is +Infinity */
  readonly most: Float64Array;
}

/** Brings a phase index into the pitch that is tabulated. */
export const PHASE_MASK = PHASES_PER_PITCH - 1;

export const createTransmissionTable = (ringPitch: number): TransmissionTable => ({
  values: new Float64Array(PHASES_PER_PITCH).fill(Number.POSITIVE_INFINITY),
  range: Float64Array.of(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
  phasesPerRad: Float64Array.of(PHASES_PER_PITCH / ringPitch),
  piece: new Float64Array(4),
  most: new Float64Array(1),
});

/**
 * TE_all(φ): least gap over the contact lines of all tooth pairs (docs/model.md §7). Every grid row, the toe
 * and heel columns and the line of the pinion tip are cut where they cross a tabulated phase. `withRange` false: the
 * range is left unfinished, for whoever does not read it: most steps then need not even be looked at.
 */
export const tabulateTransmission = (
  flank: PosedFlank,
  columns: number,
  rows: number,
  withRange: boolean,
  out: TransmissionTable,
): void => {
  out.values.fill(Number.POSITIVE_INFINITY);
  out.range[0] = Number.POSITIVE_INFINITY;
  out.range[1] = Number.NEGATIVE_INFINITY;
  out.most[0] = Number.POSITIVE_INFINITY;
  // from the middle outward: contact is nearest there, and most of what lies farther out need not be cut any more
  for (let k = 0, j = rows >> 1; k < rows; k++) {
    cutRow(flank, j * columns, columns, withRange, out);
    // after 1, 2, 4 and 8 rows: later it hardly falls any more
    if ((k & (k + 1)) === 0) findMost(out);
    j += k % 2 === 0 ? -(k + 1) : k + 1;
  }
  for (let j = 0; j < rows - 1; j++) {
    cutCell(flank, j * columns, (j + 1) * columns, out);
    cutCell(flank, (j + 1) * columns - 1, (j + 2) * columns - 1, out);
  }
  cutTipLine(flank, columns, rows, out);
};

const findMost = ({ values, most }: TransmissionTable): void => {
  let highest = values[0];
  for (let k = 1; k < values.length; k++) if (values[k] > highest) highest = values[k];
  most[0] = highest;
};

/** The common case written out in one loop: neighbouring nodes of a row, both with a pinion tooth opposite. */
const cutRow = (
  flank: PosedFlank,
  start: number,
  columns: number,
  withRange: boolean,
  out: TransmissionTable,
): void => {
  const { phase, gap, tipClearance } = flank;
  const { values, range } = out;
  const scale = out.phasesPerRad[0];
  const most = out.most[0];
  let ga = gap[start];
  for (let node = start + 1; node < start + columns; node++) {
    const gb = gap[node];
    const isLow = ga < most || gb < most;
    if (isLow || withRange) {
      const clearA = tipClearance[node - 1] >= 0;
      const clearB = tipClearance[node] >= 0;
      if (clearA && clearB) {
        const pa = phase[node - 1] * scale;
        const pb = phase[node] * scale;
        const from = Math.min(pa, pb);
        const to = Math.max(pa, pb);
        if (withRange) {
          if (from < range[0]) range[0] = from;
          if (to > range[1]) range[1] = to;
        }
        const last = Math.floor(to);
        let k = Math.ceil(from);
        if (isLow && k <= last) {
          const slope = (gb - ga) / (pb - pa);
          let g = ga + slope * (k - pa);
          for (; k <= last; k++) {
            const index = k & PHASE_MASK;
            if (g < values[index]) values[index] = g;
            g += slope;
          }
        }
      } else if (clearA || clearB) {
        cutCell(flank, node - 1, node, out);
      }
    }
    ga = gb;
  }
};

/** One step between neighbouring nodes, shortened where it crosses the pinion tip. */
const cutCell = (flank: PosedFlank, a: number, b: number, out: TransmissionTable): void => {
  const { phase, gap, tipClearance } = flank;
  const ca = tipClearance[a];
  const cb = tipClearance[b];
  if (ca < 0 && cb < 0) return;
  let pa = phase[a];
  let pb = phase[b];
  let ga = gap[a];
  let gb = gap[b];
  if (pa === NOT_MEETING || pb === NOT_MEETING) return;
  if (ca < 0) {
    const s = ca / (ca - cb);
    pa += s * (pb - pa);
    ga += s * (gb - ga);
  } else if (cb < 0) {
    const s = cb / (cb - ca);
    pb += s * (pa - pb);
    gb += s * (ga - gb);
  }
  const { piece } = out;
  const scale = out.phasesPerRad[0];
  piece[0] = pa * scale;
  piece[1] = ga;
  piece[2] = pb * scale;
  piece[3] = gb;
  cutPiece(out);
};

/** Lowers the table where `out.piece` crosses a tabulated phase. */
const cutPiece = ({ values, range, piece, most }: TransmissionTable): void => {
  const pa = piece[0];
  const ga = piece[1];
  const pb = piece[2];
  const from = Math.min(pa, pb);
  const to = Math.max(pa, pb);
  if (from < range[0]) range[0] = from;
  if (to > range[1]) range[1] = to;
  if (ga >= most[0] && piece[3] >= most[0]) return;
  const last = Math.floor(to);
  let k = Math.ceil(from);
  if (k > last) return;
  const slope = pb === pa ? 0 : (piece[3] - ga) / (pb - pa);
  let g = ga + slope * (k - pa);
  for (; k <= last; k++) {
    const index = k & PHASE_MASK;
    if (g < values[index]) values[index] = g;
    g += slope;
  }
};

/** The line along which the pinion tip ends the contact, piece by piece from column to column. */
const cutTipLine = (flank: PosedFlank, columns: number, rows: number, out: TransmissionTable): void => {
  const { phase, gap, tipClearance } = flank;
  const { piece } = out;
  const scale = out.phasesPerRad[0];
  let hasLast = false;
  for (let i = 0; i < columns; i++) {
    let above = i;
    while (above < columns * rows && tipClearance[above] < 0) above += columns;
    const below = above - columns;
    const crossed =
      below >= 0 && above < columns * rows && phase[below] !== NOT_MEETING && phase[above] !== NOT_MEETING;
    if (crossed) {
      const s = tipClearance[below] / (tipClearance[below] - tipClearance[above]);
      piece[2] = (phase[below] + s * (phase[above] - phase[below])) * scale;
      piece[3] = gap[below] + s * (gap[above] - gap[below]);
      // Only two neighbouring tip points make a piece.
      if (hasLast) cutPiece(out);
      piece[0] = piece[2];
      piece[1] = piece[3];
    }
    hasLast = crossed;
  }
};

/** TE_all at a phase by linear interpolation over the periodic table; the finite neighbour where one has no contact. */
export const transmissionAt = (values: Float64Array, phaseInSteps: number): number => {
  const k = Math.floor(phaseInSteps);
  const a = values[k & PHASE_MASK];
  const b = values[(k + 1) & PHASE_MASK];
  if (b === Number.POSITIVE_INFINITY) return a;
  if (a === Number.POSITIVE_INFINITY) return b;
  return a + (phaseInSteps - k) * (b - a);
};
