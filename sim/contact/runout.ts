import { DEG_PER_RAD, RAD_PER_DEG, TURN } from '../math/angles.ts';
import { add, subtract, turnAbout, turnAboutZ, type Vec3 } from '../math/vec3.ts';
import type { Pose } from './pose.ts';

/** How the ring sits tilted on its carrier (docs/model.md §2, runout). */
export interface RingRunout {
  /** mm, half of the full indicator reading on the ring's back face, at its outer edge */
  readonly amplitude: number;
  /** rad the ring is turned forward when its high place (the ring farthest from the pinion) stands at the mesh */
  readonly highAt: number;
}

/** What the tilt needs of a gear set: in the frame of a positive offset. */
export interface RunoutFrame {
  /** P, mm */
  readonly meanPoint: Vec3;
  /** a, mm, positive */
  readonly offset: number;
  /** mm, where the dial on the back face stands */
  readonly backFaceRadius: number;
  /** the set has a negative offset and is held as its mirror image */
  readonly mirrored: boolean;
}

/** From a gear set's definition and its mean point as the geometry report states it. */
export const runoutFrame = (
  { offset, ringOuterDiameter }: { readonly offset: number; readonly ringOuterDiameter: number },
  [x, y, z]: Vec3,
): RunoutFrame => ({
  meanPoint: [x, Math.abs(y), z],
  offset: Math.abs(offset),
  backFaceRadius: ringOuterDiameter / 2,
  mirrored: offset < 0,
});

/** rad the ring is turned when a tooth stands at the mesh; teeth are counted in the order in which they come there. */
export const turnedOfTooth = (tooth: number, ringTeeth: number): number => (TURN * tooth) / ringTeeth;

/** mm by which the ring stands farther from the pinion at the mesh when turned by `turned` rad. */
export const awayAtMesh = (frame: RunoutFrame, { amplitude, highAt }: RingRunout, turned: number): number => {
  const radius = Math.hypot(frame.meanPoint[0], frame.meanPoint[1]);
  return ((amplitude * radius) / frame.backFaceRadius) * Math.cos(turned - highAt);
};

/**
 * The pose of the tooth at the mesh with the ring turned by `turned` rad (docs/model.md §2, runout). The ring's teeth are
 * tilted rigidly about the middle of their circle at the height of the mean point; the answer is the pose in which the
 * ring, put straight again, sees the pinion as before.
 */
export const poseWithRunout = (
  frame: RunoutFrame,
  pose: Pose,
  { amplitude, highAt }: RingRunout,
  turned: number,
): Pose => {
  if (amplitude === 0) return pose;
  const { meanPoint, offset, backFaceRadius, mirrored } = frame;
  const hand = mirrored ? -1 : 1;
  const sigma = pose.shaftAngleError * RAD_PER_DEG;
  const origin: Vec3 = [-pose.pinionIn, offset + hand * pose.offsetError, pose.ringAway];
  const direction: Vec3 = [Math.cos(sigma), 0, Math.sin(sigma)];
  // The high place stands this far round; there the ring sinks, away from the pinion.
  const high = Math.atan2(meanPoint[1], meanPoint[0]) + turned - highAt;
  const tiltAxis: Vec3 = [-Math.sin(high), Math.cos(high), 0];
  const tilt = Math.atan(amplitude / backFaceRadius);
  const middle: Vec3 = [0, 0, meanPoint[2]];
  const seenOrigin = add(turnAbout(subtract(origin, middle), tiltAxis, -tilt), middle);
  const seenDirection = turnAbout(direction, tiltAxis, -tilt);
  // A turn of the ring brings the pinion's axis back square to y.
  const turn = -Math.atan2(seenDirection[1], seenDirection[0]);
  const [ox, oy, oz] = turnAboutZ(seenOrigin, turn);
  const [ax, , az] = turnAboutZ(seenDirection, turn);
  return {
    pinionIn: -ox,
    ringAway: oz,
    offsetError: hand * (oy - offset),
    shaftAngleError: Math.atan2(az, ax) * DEG_PER_RAD,
  };
};
