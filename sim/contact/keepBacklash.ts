import { falsePosition } from '../math/roots.ts';
import type { MeshSolution, MeshSolver } from './meshSolver.ts';
import type { Pose } from './pose.ts';

/** mm, how far to either side of the design position the ring is sought. */
export const RING_AWAY_REACH = 1;
/** mm, a reading this near the wanted one is the wanted one: far below any dial. */
const TOLERANCE = 1e-6;
/** mm of reading per mm of ring that no set falls below (docs/model.md §8): the first stride goes past the root. */
const LEAST_SLOPE = 0.5;
const LEAST_STRIDE = 1e-3;
const BRACKET_CAP = 12;

/** Outcome of the search; not converging is data. */
export interface KeptBacklash {
  readonly converged: boolean;
  /** mm, the ring's place with the wanted reading; unconverged: the place nearest to it that was seen */
  readonly ringAway: number;
  /** mm, reading there less the wanted one; NaN when the mesh gave no reading to begin with */
  readonly residual: number;
  /** solves used */
  readonly iterations: number;
}

interface Seen {
  readonly x: number;
  readonly value: number;
}

/**
 * The `ringAway` at which the least square reading over a pitch is `wanted` mm with everything else as in `pose`
 * (docs/model.md §9). Starts at the ring's place in `pose`, strides until the reading has passed the wanted one, then
 * narrows the bracket; stays within ±RING_AWAY_REACH. `scratch` is overwritten.
 * @throws RangeError when `wanted` is not a finite number
 */
export const keepBacklash = (
  solver: MeshSolver,
  pose: Pose,
  wanted: number,
  scratch: MeshSolution,
): KeptBacklash => {
  if (!Number.isFinite(wanted)) throw new RangeError(`wanted: ${wanted}; a finite reading in mm is allowed`);
  let iterations = 0;
  const look = (ringAway: number): Seen => {
    iterations++;
    // The reading does not depend on the film.
    solver.solve({ ...pose, ringAway }, 0, scratch);
    return { x: ringAway, value: scratch.backlash.normal - wanted };
  };
  const fail = ({ x, value }: Seen): KeptBacklash => ({
    converged: false,
    ringAway: x,
    residual: value,
    iterations,
  });

  let near = look(withinReach(pose.ringAway));
  if (Number.isNaN(near.value)) return fail(near);
  // Ring away opens the backlash.
  const sense = near.value > 0 ? -1 : 1;
  let stride = Math.max(Math.abs(near.value) / LEAST_SLOPE, LEAST_STRIDE);
  let far = near;
  while (Math.abs(near.value) > TOLERANCE && !(near.value * far.value < 0)) {
    const next = withinReach(near.x + sense * stride);
    if (next === near.x || iterations > BRACKET_CAP) return fail(near);
    far = look(next);
    if (Number.isNaN(far.value)) {
      // Past the last place where the flanks meet: a shorter stride may still do.
      far = near;
      stride *= 0.5;
    } else if (far.value * near.value > 0) {
      near = far;
      stride *= 2;
    }
  }
  const found = falsePosition((x) => look(x).value, near, far, TOLERANCE);
  return { converged: found.converged, ringAway: found.root, residual: found.residual, iterations };
};

const withinReach = (ringAway: number): number =>
  Math.min(RING_AWAY_REACH, Math.max(-RING_AWAY_REACH, ringAway));
