import { wrapAngle } from '../math/angles.ts';
import { cross, turnAboutZ, type Vec3 } from '../math/vec3.ts';
import type { FlankPoint } from './ringFlank.ts';

/** Pinion axis in the fixed frame: a point o (mm) and unit direction A with A_y = 0 (docs/model.md §2). */
export interface PinionAxis {
  readonly origin: Vec3;
  readonly direction: Vec3;
}

/** Pinion axis in the design pose for offset a (mm). */
export const designAxis = (offset: number): PinionAxis => ({ origin: [0, offset, 0], direction: [1, 0, 0] });

/** Where a ring point meets the pinion (docs/model.md §5). mm, rad. */
export interface ConjugateContact {
  /** φ, ring angle of contact */
  readonly phase: number;
  /** ring point and normal turned to the contact, fixed frame */
  readonly point: Vec3;
  readonly normal: Vec3;
  /** pinion cylinder coordinates: axial x, radius ρ, polar angle ψ at pinion angle 0 (not wrapped) */
  readonly axial: number;
  readonly radius: number;
  readonly polar: number;
  /** λ, mm of normal gap per rad of pinion */
  readonly lever: number;
}

/**
 * Closed-form contact of a ring point in a pose; of the two roots the one nearest `nearPhase`.
 * Null when the point never meets (no real root).
 */
export const conjugateContact = (
  { point, normal }: FlankPoint,
  ratio: number,
  { origin, direction }: PinionAxis,
  nearPhase = 0,
): ConjugateContact | null => {
  const moment = cross(point, normal);
  const q = cross(direction, origin);
  const ac = direction[0] * moment[0] + direction[1] * moment[1] - (q[0] * normal[0] + q[1] * normal[1]);
  const as = -direction[0] * moment[1] + direction[1] * moment[0] + q[0] * normal[1] - q[1] * normal[0];
  const a0 = moment[2] / ratio - direction[2] * moment[2] + q[2] * normal[2];
  const amplitude = Math.hypot(ac, as);
  const cosine = a0 / amplitude;
  if (!(Math.abs(cosine) <= 1)) return null;
  const middle = Math.atan2(as, ac);
  const half = Math.acos(cosine);
  const first = nearPhase + wrapAngle(middle + half - nearPhase);
  const second = nearPhase + wrapAngle(middle - half - nearPhase);
  const phase = Math.abs(first - nearPhase) <= Math.abs(second - nearPhase) ? first : second;
  const turned = turnAboutZ(point, phase);
  const px = turned[0] - origin[0];
  const py = turned[1] - origin[1];
  const pz = turned[2] - origin[2];
  const axial = px * direction[0] + pz * direction[2];
  const side = -px * direction[2] + pz * direction[0];
  return {
    phase,
    point: turned,
    normal: turnAboutZ(normal, phase),
    axial,
    radius: Math.hypot(py, side),
    polar: Math.atan2(side, py) - ratio * phase,
    lever: moment[2] / ratio,
  };
};
