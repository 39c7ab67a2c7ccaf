import { DEG_PER_RAD } from '../math/angles.ts';
import { transmissionAt } from './transmission.ts';

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

/** TE is a micrometre-sized shift of the argument: its own fixed point settles at once. */
const SHIFTS = 2;

/**
 * TE of one flank when the pinion stands where phase `k` would have it without any error. A flank in contact at ring
 * phase φ has the pinion off m·φ by its TE and by its half of the thinning (`set`, rad of pinion), so the table is
 * read a little to the side; `toPhases` turns rad of pinion into tabulated phases on that side.
 */
const atPinionAngle = (values: Float64Array, k: number, set: number, toPhases: number): number => {
  let error = values[k];
  for (let i = 0; i < SHIFTS && error !== Number.POSITIVE_INFINITY; i++) {
    error = transmissionAt(values, k + (error + set) * toPhases);
  }
  return error;
};

/** What turns a pair of TE tables into dial readings. */
export interface DialSetting {
  /** m, and one ring pitch in rad */
  readonly ratio: number;
  readonly pitch: number;
  /** rad of ring that the pinion's thinning adds to the play of both TE */
  readonly constantPlay: number;
  /** |v_n|: mm of normal motion at the heel per rad of ring; radius there, mm */
  readonly dialLever: number;
  readonly dialRadius: number;
}

/**
 * Ring free play at equal pinion angle, j = constantPlay + (TE_drive + TE_coast)/m, rad of ring, written to `out` at
 * the tabulated phases; NaN where a flank has no contact. Tables in rad of pinion. Returns the least, or NaN.
 */
export const tabulateFreePlay = (
  drive: Float64Array,
  coast: Float64Array,
  { ratio, pitch, constantPlay }: Pick<DialSetting, 'ratio' | 'pitch' | 'constantPlay'>,
  out: Float64Array,
): number => {
  const phasesPerRad = out.length / (pitch * ratio);
  const set = 0.5 * constantPlay * ratio;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < out.length; k++) {
    // Turning the pinion on closes the drive flank and opens the coast flank.
    const play = atPinionAngle(drive, k, set, -phasesPerRad) + atPinionAngle(coast, k, set, phasesPerRad);
    out[k] = play === Number.POSITIVE_INFINITY ? Number.NaN : constantPlay + play / ratio;
    if (out[k] < least) least = out[k];
  }
  return least === Number.POSITIVE_INFINITY ? Number.NaN : least;
};

/** Free play over a pitch and what a dial reads of it. */
export const measureBacklash = (
  drive: Float64Array,
  coast: Float64Array,
  setting: DialSetting,
  freePlay: Float64Array,
  out: Backlash,
): void => {
  const { dialLever, dialRadius } = setting;
  const least = tabulateFreePlay(drive, coast, setting, freePlay);
  let most = least;
  let sum = 0;
  let count = 0;
  for (let k = 0; k < freePlay.length; k++) {
    const j = freePlay[k];
    if (Number.isNaN(j)) continue;
    if (j > most) most = j;
    sum += j;
    count++;
  }
  const mean = sum / count;
  out.normal = least * dialLever;
  out.normalMean = mean * dialLever;
  out.normalRange = (most - least) * dialLever;
  out.tangential = least * dialRadius;
  out.tangentialMean = mean * dialRadius;
  out.angle = least * DEG_PER_RAD;
};
