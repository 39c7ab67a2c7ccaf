import { minimize } from '../math/roots.ts';
import type { Blank, HeightLine } from './blank.ts';
import type { PitchPoint } from './pitchPoint.ts';

/** Half-range of l over which a ring cone may cut the pinion blank, in face widths (docs/model.md §6). */
const SWEEP = 0.9;

/**
 * Least distance, mm, from the design pinion axis to the cone that the ring's height line sweeps about the ring
 * axis, at axial place x (mm) and on the offset's side. NaN where the cone does not reach x.
 */
const coneReach = (pitch: PitchPoint, blank: Blank, line: HeightLine, x: number): number => {
  const sin = Math.sin(pitch.ringPitchAngle);
  const cos = Math.cos(pitch.ringPitchAngle);
  const distance = (l: number): number => {
    const d = line.d0 + l * line.slope;
    const radius = pitch.ringRadius + l * sin + d * cos;
    const z = pitch.point[2] - l * cos + d * sin;
    const inside = radius * radius - x * x;
    if (radius <= 0 || inside < 0) return UNREACHED;
    return Math.hypot(Math.sqrt(inside) - pitch.offset, z);
  };
  const reach = SWEEP * blank.faceWidth;
  // A walk finds the right valley, golden section its floor.
  const step = (2 * reach) / WALK;
  let best = 0;
  let least = UNREACHED;
  for (let i = 0; i <= WALK; i++) {
    const value = distance(-reach + i * step);
    if (value < least) {
      least = value;
      best = i;
    }
  }
  if (least >= UNREACHED) return Number.NaN;
  const low = Math.max(-reach, -reach + (best - 1) * step);
  const high = Math.min(reach, -reach + (best + 1) * step);
  return Math.min(distance(minimize(distance, low, high, 48)), least);
};

const WALK = 36;
const UNREACHED = 1e9;

/** ρ_tip(x), mm: the ring's working-root cone limits the pinion's tip (docs/model.md §6). */
export const pinionTipRadius = (pitch: PitchPoint, blank: Blank, x: number): number =>
  coneReach(pitch, blank, { d0: -blank.pinionAddendum, slope: -blank.workingRootSlope }, x);

/** Radius of the pinion's root at x, mm: clear of the ring's face cone by the root clearance. */
export const pinionRootRadius = (pitch: PitchPoint, blank: Blank, x: number): number => {
  const clearance = blank.ringDedendum - blank.pinionAddendum;
  return coneReach(pitch, blank, { d0: blank.ringAddendum, slope: blank.faceSlope }, x) - clearance;
};
