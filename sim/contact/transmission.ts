import { NOT_MEETING, PHASES_PER_PITCH } from './grid.ts';
import type { PosedFlank } from './posedFlank.ts';

/** Transmission error of one flank over a ring pitch; caller-owned. */
export interface TransmissionTable {
  /** TE_all at PHASES_PER_PITCH phases from 0, rad of pinion; +Infinity where no pair is in contact */
  readonly values: Float64Array;
  /** least and greatest phase of contact found, rad of ring; equal when there is none */
  phaseLow: number;
  phaseHigh: number;
}

const PHASE_MASK = PHASES_PER_PITCH - 1;
/** The meeting of a contact line with the pinion tip is tracked per column. */
const NO_TIP = NOT_MEETING;

/**
 * TE_all(φ): least gap over the contact lines of all tooth pairs (docs/model.md §7). Every grid row, the toe
 * and heel columns and the line of the pinion tip are cut where they cross a tabulated phase.
 */
export const tabulateTransmission = (
  flank: PosedFlank,
  columns: number,
  rows: number,
  pitch: number,
  out: TransmissionTable,
): void => {
  out.values.fill(Number.POSITIVE_INFINITY);
  out.phaseLow = Number.POSITIVE_INFINITY;
  out.phaseHigh = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < rows; j++) {
    const start = j * columns;
    for (let i = 0; i < columns - 1; i++) cutCell(flank, start + i, start + i + 1, pitch, out);
  }
  for (let j = 0; j < rows - 1; j++) {
    cutCell(flank, j * columns, (j + 1) * columns, pitch, out);
    cutCell(flank, (j + 1) * columns - 1, (j + 2) * columns - 1, pitch, out);
  }
  cutTipLine(flank, columns, rows, pitch, out);
};

/** One step between neighbouring nodes, shortened where it crosses the pinion tip. */
const cutCell = (flank: PosedFlank, a: number, b: number, pitch: number, out: TransmissionTable): void => {
  const ca = flank.tipClearance[a];
  const cb = flank.tipClearance[b];
  if (ca < 0 && cb < 0) return;
  let pa = flank.phase[a];
  let pb = flank.phase[b];
  let ga = flank.gap[a];
  let gb = flank.gap[b];
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
  cutSegment(pa, ga, pb, gb, pitch, out);
};

const cutSegment = (
  pa: number,
  ga: number,
  pb: number,
  gb: number,
  pitch: number,
  out: TransmissionTable,
): void => {
  const low = Math.min(pa, pb);
  const high = Math.max(pa, pb);
  if (low < out.phaseLow) out.phaseLow = low;
  if (high > out.phaseHigh) out.phaseHigh = high;
  const perPhase = PHASES_PER_PITCH / pitch;
  const first = Math.ceil(low * perPhase);
  const last = Math.floor(high * perPhase);
  if (first > last) return;
  const slope = pb === pa ? 0 : (gb - ga) / (pb - pa);
  const { values } = out;
  const step = slope / perPhase;
  let g = ga + slope * (first / perPhase - pa);
  for (let k = first; k <= last; k++) {
    const index = k & PHASE_MASK;
    if (g < values[index]) values[index] = g;
    g += step;
  }
};

const cutTipLine = (
  flank: PosedFlank,
  columns: number,
  rows: number,
  pitch: number,
  out: TransmissionTable,
): void => {
  const { phase, gap, tipClearance } = flank;
  let lastPhase = NO_TIP;
  let lastGap = 0;
  for (let i = 0; i < columns; i++) {
    let tipPhase = NO_TIP;
    let tipGap = 0;
    for (let j = 0; j < rows - 1; j++) {
      const above = i + (j + 1) * columns;
      if (tipClearance[above] < 0) continue;
      const below = above - columns;
      const cb = tipClearance[below];
      if (cb < 0 && phase[below] !== NOT_MEETING && phase[above] !== NOT_MEETING) {
        const s = cb / (cb - tipClearance[above]);
        tipPhase = phase[below] + s * (phase[above] - phase[below]);
        tipGap = gap[below] + s * (gap[above] - gap[below]);
      }
      break;
    }
    // Only two neighbouring tip points make a segment.
    if (tipPhase !== NO_TIP && lastPhase !== NO_TIP) {
      cutSegment(lastPhase, lastGap, tipPhase, tipGap, pitch, out);
    }
    lastPhase = tipPhase;
    lastGap = tipGap;
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
