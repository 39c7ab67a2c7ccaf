/** Three-vectors of the oracle. Deliberately not shared with the solver under test. */
export type Vec3 = readonly [number, number, number];

export const add = (p: Vec3, q: Vec3): Vec3 => [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
export const sub = (p: Vec3, q: Vec3): Vec3 => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
export const scale = (p: Vec3, factor: number): Vec3 => [p[0] * factor, p[1] * factor, p[2] * factor];
export const dot = (p: Vec3, q: Vec3): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
export const cross = (p: Vec3, q: Vec3): Vec3 => [
  p[1] * q[2] - p[2] * q[1],
  p[2] * q[0] - p[0] * q[2],
  p[0] * q[1] - p[1] * q[0],
];
export const norm = (p: Vec3): number => Math.hypot(p[0], p[1], p[2]);
export const unit = (p: Vec3): Vec3 => scale(p, 1 / norm(p));

/** p turned by `angle` (rad) about the z axis. */
export function turnAboutZ(p: Vec3, angle: number): Vec3 {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [p[0] * c - p[1] * s, p[0] * s + p[1] * c, p[2]];
}

/** Angle wrapped to (−π, π]. */
export function wrapAngle(angle: number): number {
  const turns = Math.ceil(angle / (2 * Math.PI) - 0.5);
  return angle - turns * 2 * Math.PI;
}
