import type { Pose } from '../../../../sim/contact/pose.ts';

/** A state of the axle whose pattern can be picked, by how far pinion and ring stand off. */
export interface PatternState {
  /** mm, positive = too deep */
  readonly pinionIn: number;
  /** mm, positive = too far away */
  readonly ringAway: number;
}

const PINION = [0.14, 0, -0.14] as const;
const RING = [-0.1, 0, 0.14] as const;

/** Too deep, right and too shallow against too near, right and too far away: what a set-up meets most. */
export const PATTERN_STATES: readonly PatternState[] = PINION.flatMap((pinionIn) =>
  RING.map((ringAway) => ({ pinionIn, ringAway })),
);

export const poseOfState = ({ pinionIn, ringAway }: PatternState): Pose => ({
  pinionIn,
  ringAway,
  offsetError: 0,
  shaftAngleError: 0,
});
