import type { Pose } from '../contact/pose.ts';

/** The pose as an array: pinionIn mm, ringAway mm, offsetError mm, shaftAngleError degrees. */
export const POSE_FIELDS = ['pinionIn', 'ringAway', 'offsetError', 'shaftAngleError'] as const;
export const POSE_COUNT = POSE_FIELDS.length;

/** Half widths of the range over which node surfaces are fitted: two standard deviations of the prior, and any housing fault. */
export const FIT_RANGE: readonly number[] = [0.6, 0.5, 0.35, 0.3];

/** Terms of a full quadratic in four variables. */
export const BASIS_TERMS = 15;

/** 1, the four scaled variables, and their ten products; `pose` holds four numbers from `at` on. */
export const fillBasis = (pose: ArrayLike<number>, at: number, out: Float64Array): void => {
  const a = pose[at] / FIT_RANGE[0];
  const b = pose[at + 1] / FIT_RANGE[1];
  const c = pose[at + 2] / FIT_RANGE[2];
  const d = pose[at + 3] / FIT_RANGE[3];
  out[0] = 1;
  out[1] = a;
  out[2] = b;
  out[3] = c;
  out[4] = d;
  out[5] = a * a;
  out[6] = a * b;
  out[7] = a * c;
  out[8] = a * d;
  out[9] = b * b;
  out[10] = b * c;
  out[11] = b * d;
  out[12] = c * c;
  out[13] = c * d;
  out[14] = d * d;
};

export const poseAt = (values: ArrayLike<number>, at = 0): Pose => ({
  pinionIn: values[at],
  ringAway: values[at + 1],
  offsetError: values[at + 2],
  shaftAngleError: values[at + 3],
});
