import type { MeshSolution, MeshSolver } from './meshSolver.ts';
import type { Pose } from './pose.ts';

/** How far a pose's moves can be drawn larger before bodies touch, and where the teeth stand on the way. */
export interface LargerMoves {
  /** the largest factor on pinionIn and ringAway, 0 … `most`; below 1 where the pose itself binds */
  readonly largest: number;
  /** what ends it: the teeth touch, or the caller's `most` is reached */
  readonly endedBy: 'teeth' | 'most';
  /** factors, equally spaced from 0 to `largest` */
  readonly factors: Float64Array;
  /** rad of ring, free play at ring angle 0 for each factor */
  readonly freePlay: Float64Array;
  /** rad of ring, transmission error of the drive flank at ring angle 0 for each factor */
  readonly driveError: Float64Array;
  /** mm square to the flank, least over a pitch, for each factor */
  readonly dial: Float64Array;
}

/** Places along the way: the curves between them are all but straight. */
const PLACES = 17;
const HALVINGS = 24;

/** The pose with its moves of pinion and ring multiplied; errors of the housing stay as they are. */
export const largerPose = (pose: Pose, factor: number): Pose => ({
  ...pose,
  pinionIn: factor * pose.pinionIn + 0,
  ringAway: factor * pose.ringAway + 0,
});

/**
 * Walks from the design position through `pose` and on, up to `most` times as far, and stops where the least free play
 * over a pitch falls to `spare` mm, or, in a pose tighter than twice that, to half of its own play; in one that binds,
 * where the teeth first touch (docs/model.md §9). The spare is for the picture: flat triangles stand off the flanks they
 * are drawn for. `scratch` is overwritten.
 */
export const findLargerMoves = (
  solver: MeshSolver,
  pose: Pose,
  most: number,
  spare: number,
  scratch: MeshSolution,
): LargerMoves => {
  const dialAt = (factor: number): number => {
    // the reading does not depend on the film
    solver.solve(largerPose(pose, factor), 0, scratch);
    return scratch.backlash.normal;
  };
  const own = dialAt(Math.min(1, most));
  const wanted = own > 0 ? Math.min(spare, own / 2) : 0;
  const free = (factor: number): boolean => dialAt(factor) >= wanted;

  // the first stretch of the way whose far end is no longer free holds the end of it
  const strides = PLACES - 1;
  let low = 0;
  let high = 0;
  let touched = false;
  for (let i = 0; i <= strides && !touched; i++) {
    high = (most * i) / strides;
    touched = !free(high);
    if (!touched) low = high;
  }
  for (let i = 0; touched && i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (free(middle)) low = middle;
    else high = middle;
  }

  const row = () => new Float64Array(PLACES);
  const out = { factors: row(), freePlay: row(), driveError: row(), dial: row() };
  const { ratio } = solver.mesh.pitch;
  for (let i = 0; i < PLACES; i++) {
    out.factors[i] = (low * i) / strides;
    out.dial[i] = dialAt(out.factors[i]);
    out.freePlay[i] = scratch.freePlay[0];
    out.driveError[i] = scratch.drive.transmission.values[0] / ratio;
  }
  return { largest: low, endedBy: touched ? 'teeth' : 'most', ...out };
};
