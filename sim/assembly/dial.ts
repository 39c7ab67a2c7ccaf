/**
 * A dial on the heel reads the ring's free play either square to the tooth flank or along the turning direction
 * (docs/model.md §7, backlash). Both come from one free angle of the ring.
 */
export type DialDirection = 'square' | 'tangential';

export interface HeelLevers {
  /** mm moved square to the flank per radian of the ring, at the heel */
  readonly square: number;
  /** mm moved along the turning direction per radian: the heel radius */
  readonly tangential: number;
}

/** mm on the dial for a free angle (rad). */
export const readingOfAngle = (levers: HeelLevers, direction: DialDirection, angle: number): number =>
  angle * levers[direction];

/** rad of free play for a dial reading in mm. */
export const angleOfReading = (levers: HeelLevers, direction: DialDirection, reading: number): number =>
  reading / levers[direction];

/** mm on a dial held the other way. */
export const convertReading = (
  levers: HeelLevers,
  reading: number,
  from: DialDirection,
  to: DialDirection,
): number => (from === to ? reading : readingOfAngle(levers, to, angleOfReading(levers, from, reading)));

/**
 * Levers from any solved backlash (`angle` in degrees): only their ratio matters for converting, and it is the same in every pose.
 * Null without contact and too near to binding, where the quotient of two tiny numbers says nothing.
 */
export function leversOfBacklash(backlash: {
  readonly normal: number | null;
  readonly tangential: number | null;
  readonly angle: number | null;
}): HeelLevers | null {
  const { normal, tangential, angle: angleDeg } = backlash;
  if (normal === null || tangential === null || angleDeg === null) return null;
  const angle = (angleDeg * Math.PI) / 180;
  if (!(Math.abs(angle) > 1e-7)) return null;
  return { square: normal / angle, tangential: tangential / angle };
}
