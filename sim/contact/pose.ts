/** Assembly errors of the mesh, all zero at the design position (docs/model.md §2). */
export interface Pose {
  /** mm, pinion moved toward the ring axis ("deeper") */
  readonly pinionIn: number;
  /** mm, ring moved along its axis away from the pinion (more backlash) */
  readonly ringAway: number;
  /** mm, housing bore offset error */
  readonly offsetError: number;
  /** degrees, pinion axis tipped about y */
  readonly shaftAngleError: number;
}

export const DESIGN_POSE: Pose = {
  pinionIn: 0,
  ringAway: 0,
  offsetError: 0,
  shaftAngleError: 0,
};
