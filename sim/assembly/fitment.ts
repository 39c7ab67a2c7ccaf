import type { Pose } from '../contact/pose.ts';
import type { AxleHardware, Fitment } from './hardware.ts';
import { pinionInFromShim, shimForPinionIn, stockShimForPinionIn } from './pinionDepth.ts';
import { preloadChange, realSidesForRingAway, ringAwayFromSides, sidesForRingAway } from './sides.ts';

type ShimPose = Pick<Pose, 'pinionIn' | 'ringAway'>;

/** The pose (docs/model.md §2) that shims and adjusters give in a true housing. */
export const poseOfFitment = (hardware: AxleHardware, fitment: Fitment): Pose => ({
  pinionIn: pinionInFromShim(hardware.pinionShim, fitment.pinionShim),
  ringAway: ringAwayFromSides(hardware.sides, fitment),
  offsetError: 0,
  shaftAngleError: 0,
});

/** mm of squeeze on the carrier bearings over the design position. */
export const carrierPreloadChange = (hardware: AxleHardware, fitment: Fitment): number =>
  preloadChange(hardware.sides, fitment);

/** Exact shims for a pose, total squeeze over the design position kept at `preload` mm. For free fine adjustment. */
export const exactFitmentForPose = (hardware: AxleHardware, pose: ShimPose, preload: number): Fitment => ({
  pinionShim: shimForPinionIn(hardware.pinionShim, pose.pinionIn),
  ...sidesForRingAway(hardware.sides, pose.ringAway, preload),
});

/** The nearest to it that stock and lock positions allow. `poseOfFitment` of the result says what it really gives. */
export const realFitmentForPose = (hardware: AxleHardware, pose: ShimPose, preload: number): Fitment => ({
  pinionShim: stockShimForPinionIn(hardware.pinionShim, pose.pinionIn),
  ...realSidesForRingAway(hardware.sides, pose.ringAway, preload),
});
