import type { Pose } from '../contact/pose.ts';
import type { AxleHardware, Fitment } from './hardware.ts';
import { pinionInFromShim } from './pinionDepth.ts';
import { ringAwayFromSides } from './sides.ts';

/** The pose (docs/model.md §2) that shims and adjusters give in a true housing. */
export const poseOfFitment = (hardware: AxleHardware, fitment: Fitment): Pose => ({
  pinionIn: pinionInFromShim(hardware.pinionShim, fitment.pinionShim),
  ringAway: ringAwayFromSides(hardware.sides, fitment),
  offsetError: 0,
  shaftAngleError: 0,
});
