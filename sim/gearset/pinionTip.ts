import { minimize } from '../math/roots.ts';
import type { Blank } from './blank.ts';
import type { PitchPoint } from './pitchPoint.ts';

/** Half-range of l over which the working-root cone may cut the pinion's tip, in face widths (docs/model.md §6). */
const SWEEP = 0.9;

/**
 * ρ_tip(x), mm: least distance from the design pinion axis to the ring's working-root cone at axial place x (mm),
 * on the offset's side. NaN where the cone does not reach x.
 */
export const pinionTipRadius = (pitch: PitchPoint, blank: Blank, x: number): number => {
  const sin = Math.sin(pitch.ringPitchAngle);
  const cos = Math.cos(pitch.ringPitchAngle);
  const distance = (l: number): number => {
    const d = -blank.pinionAddendum - l * blank.workingRootSlope;
    const radius = pitch.ringRadius + l * sin + d * cos;
    const z = pitch.point[2] - l * cos + d * sin;
    const inside = radius * radius - x * x;
    if (radius <= 0 || inside < 0) return 1e9;
    return Math.hypot(Math.sqrt(inside) - pitch.offset, z);
  };
  const reach = SWEEP * blank.faceWidth;
  // A walk finds the right valley, golden section its floor.
  const steps = 36;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= steps; i++) {
    const value = distance(-reach + (2 * reach * i) / steps);
    if (value < least) {
      least = value;
      best = i;
    }
  }
  if (least >= 1e9) return Number.NaN;
  const step = (2 * reach) / steps;
  const at = minimize(
    distance,
    Math.max(-reach, -reach + (best - 1) * step),
    Math.min(reach, -reach + (best + 1) * step),
    48,
  );
  return Math.min(distance(at), least);
};
