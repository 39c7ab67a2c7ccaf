import { TURN } from '../math/angles.ts';
import type { MeshSolution, MeshSolver } from './meshSolver.ts';
import type { Pose } from './pose.ts';
import { poseWithRunout, type RingRunout, type RunoutFrame } from './runout.ts';

/** A dial reading at one place of the ring: least over the pitch that stands there, mm; NaN without contact. */
export interface RingReading {
  /** rad the ring is turned */
  readonly turned: number;
  readonly pose: Pose;
  readonly square: number;
  readonly tangential: number;
  /** degrees of ring angle */
  readonly angle: number;
}

/** Readings at places evenly round the ring. */
export interface RingReadings {
  readonly places: readonly RingReading[];
  /** mm, most less least of the readings; NaN when a place has none */
  readonly variation: { readonly square: number; readonly tangential: number };
}

export const frameOfSolver = ({ mesh }: MeshSolver): RunoutFrame => ({
  meanPoint: mesh.pitch.point,
  offset: mesh.pitch.offset,
  backFaceRadius: mesh.definition.ringOuterDiameter / 2,
  mirrored: mesh.mirrored,
});

const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/**
 * Rocks the ring at `places` places round the turn, the first one unturned (docs/model.md §7). One solve per place;
 * `scratch` is overwritten.
 * @throws RangeError when `places` is not a whole number of 1 or more
 */
export const readRoundRing = (
  solver: MeshSolver,
  pose: Pose,
  runout: RingRunout,
  places: number,
  scratch: MeshSolution,
): RingReadings => {
  if (!Number.isInteger(places) || places < 1) {
    throw new RangeError(`places: ${places}; a whole number of 1 or more is allowed`);
  }
  const frame = frameOfSolver(solver);
  const read = (turned: number): RingReading => {
    const here = poseWithRunout(frame, pose, runout, turned);
    // The reading does not depend on the film.
    solver.solve(here, 0, scratch);
    const { normal, tangential, angle } = scratch.backlash;
    return { turned, pose: here, square: normal, tangential, angle };
  };
  const readings = Array.from({ length: places }, (_, place) => read((TURN * place) / places));
  return {
    places: readings,
    variation: {
      square: spread(readings.map(({ square }) => square)),
      tangential: spread(readings.map(({ tangential }) => tangential)),
    },
  };
};
