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

/** What turns a pair of TE tables into dial readings. */
export interface DialSetting {
  /** m, and one ring pitch in rad */
  readonly ratio: number;
  readonly pitch: number;
  /** rad of ring that the pinion's thinning adds to the play of both TE */
  constantPlay: number;
  /** |v_n|: mm of normal motion at the heel per rad of ring; radius there, mm */
  readonly dialLever: number;
  readonly dialRadius: number;
}

/**
 * Adds to `out`, at every tabulated phase, the TE of one flank when the pinion stands where that phase would have it
 * without any error. A flank in contact at ring phase φ has the pinion off m·φ by its TE and by its half of the
 * thinning, so the table is read a little to the side: turning the pinion on closes the drive flank (`side` −1) and
 * opens the coast flank (+1).
 */
const addAtPinionAngle = (
  values: Float64Array,
  side: -1 | 1,
  { ratio, pitch, constantPlay }: DialSetting,
  out: Float64Array,
): void => {
  const phasesPerRad = (side * out.length) / (pitch * ratio);
  const set = 0.5 * constantPlay * ratio;
  for (let k = 0; k < out.length; k++) {
    let error = values[k];
    for (let i = 0; i < SHIFTS && error !== Number.POSITIVE_INFINITY; i++) {
      error = transmissionAt(values, k + (error + set) * phasesPerRad);
    }
    out[k] += error;
  }
};

/**
 * Ring free play at equal pinion angle, j = constantPlay + (TE_drive + TE_coast)/m, rad of ring, written to `out` at
 * the tabulated phases; NaN where a flank has no contact. Tables in rad of pinion.
 */
export const tabulateFreePlay = (
  drive: Float64Array,
  coast: Float64Array,
  setting: DialSetting,
  out: Float64Array,
): void => {
  out.fill(0);
  addAtPinionAngle(drive, -1, setting, out);
  addAtPinionAngle(coast, 1, setting, out);
  const { ratio, constantPlay } = setting;
  for (let k = 0; k < out.length; k++) {
    out[k] = out[k] === Number.POSITIVE_INFINITY ? Number.NaN : constantPlay + out[k] / ratio;
  }
};

/** Reads the dial off the free play over a pitch, rad of ring. */
export const readDial = (
  freePlay: Float64Array,
  { dialLever, dialRadius }: DialSetting,
  out: Backlash,
): void => {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let count = 0;
  for (let k = 0; k < freePlay.length; k++) {
    const j = freePlay[k];
    if (Number.isNaN(j)) continue;
    if (j < least) least = j;
    if (j > most) most = j;
    sum += j;
    count++;
  }
  if (count === 0) least = Number.NaN;
  const mean = sum / count;
  out.normal = least * dialLever;
  out.normalMean = mean * dialLever;
  out.normalRange = (most - least) * dialLever;
  out.tangential = least * dialRadius;
  out.tangentialMean = mean * dialRadius;
  out.angle = least * DEG_PER_RAD;
};
