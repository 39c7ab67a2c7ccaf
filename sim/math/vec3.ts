/** Point or direction in 3-space; mm for points. */
export type Vec3 = readonly [number, number, number];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
export const addScaled = (a: Vec3, b: Vec3, s: number): Vec3 => [
  a[0] + b[0] * s,
  a[1] + b[1] * s,
  a[2] + b[2] * s,
];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.sqrt(dot(a, a));

/** Unit vector along `a`; `a` must not be zero. */
export const unit = (a: Vec3): Vec3 => scale(a, 1 / length(a));

/** Turns `a` by `angle` (rad) about +z. */
export const turnAboutZ = (a: Vec3, angle: number): Vec3 => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [a[0] * c - a[1] * s, a[0] * s + a[1] * c, a[2]];
};

/** Turns `a` by `angle` (rad) about the unit `axis` through the origin (Rodrigues). */
export const turnAbout = (a: Vec3, axis: Vec3, angle: number): Vec3 => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const along = dot(a, axis) * (1 - c);
  const side = cross(axis, a);
  return [
    a[0] * c + side[0] * s + axis[0] * along,
    a[1] * c + side[1] * s + axis[1] * along,
    a[2] * c + side[2] * s + axis[2] * along,
  ];
};
