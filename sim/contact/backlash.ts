import { DEG_PER_RAD } from '../math/angles.ts';

/** Dial readings over one pitch (docs/model.md §7); caller-owned. NaN when the flanks share no phase of contact. */
export interface Backlash {
  /** mm at the heel square to the drive flank: least, mean and range over a pitch */
  normal: number;
  normalMean: number;
  normalRange: number;
  /** mm at the heel radius along the turning direction: least and mean */
  tangential: number;
  tangentialMean: number;
  /** degrees of ring angle, least */
  angle: number;
}

/**
 * Ring free play at equal pinion angle, j(φ) = constantPlay + (TE_drive + TE_coast)/m, and what a dial reads of it.
 * Tables in rad of pinion at equal phases, `constantPlay` and `freePlay` in rad of ring, levers in mm.
 */
export const measureBacklash = (
  drive: Float64Array,
  coast: Float64Array,
  constantPlay: number,
  ratio: number,
  dialLever: number,
  dialRadius: number,
  freePlay: Float64Array,
  out: Backlash,
): void => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let count = 0;
  for (let k = 0; k < freePlay.length; k++) {
    const play = drive[k] + coast[k];
    if (play === Number.POSITIVE_INFINITY) {
      freePlay[k] = Number.NaN;
      continue;
    }
    const j = constantPlay + play / ratio;
    freePlay[k] = j;
    if (j < low) low = j;
    if (j > high) high = j;
    sum += j;
    count++;
  }
  const least = count > 0 ? low : Number.NaN;
  const mean = count > 0 ? sum / count : Number.NaN;
  out.normal = least * dialLever;
  out.normalMean = mean * dialLever;
  out.normalRange = count > 0 ? (high - low) * dialLever : Number.NaN;
  out.tangential = least * dialRadius;
  out.tangentialMean = mean * dialRadius;
  out.angle = least * DEG_PER_RAD;
};
