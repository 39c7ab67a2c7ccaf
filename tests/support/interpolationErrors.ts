import type { GridSize } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import { conjugateContact } from '../../sim/gearset/conjugate.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import type { GearMesh } from '../../sim/gearset/gearMesh.ts';
import { RAD_PER_DEG, wrapAngle } from '../../sim/math/angles.ts';
import type { Random } from './random.ts';

const NODES_PER_FLANK = 25;

/** All four errors of assembly, to the ends of the range the interpolation is made for. */
export const drawWidePose = (random: Random): Pose => ({
  pinionIn: random.between(-0.35, 0.35),
  ringAway: random.between(-0.35, 0.35),
  offsetError: random.between(-0.35, 0.35),
  shaftAngleError: random.between(-0.2, 0.2),
});

/** Shim moves alone. */
export const drawShimPose = (random: Random): Pose => ({
  pinionIn: random.between(-0.35, 0.35),
  ringAway: random.between(-0.35, 0.35),
  offsetError: 0,
  shaftAngleError: 0,
});

/**
 * Errors of the tabulated gap against the exact pinion flank at random nodes, µm of normal gap, for a set with a
 * positive offset.
 * @throws Error where the exact flank is not found or the phase of contact differs.
 */
export const interpolationErrors = (
  mesh: GearMesh,
  size: GridSize,
  poses: readonly Pose[],
  random: Random,
): number[] => {
  const solver = new MeshSolver(mesh, size);
  const solution = solver.createSolution();
  const errors: number[] = [];
  for (const pose of poses) {
    solver.solve(pose, 0.00635, solution);
    const sigma = pose.shaftAngleError * RAD_PER_DEG;
    const axis = {
      origin: [-pose.pinionIn, mesh.pitch.offset + pose.offsetError, pose.ringAway],
      direction: [Math.cos(sigma), 0, Math.sin(sigma)],
    } as const;
    for (const flank of FLANKS) {
      const { ring, pinion } = mesh.flanks[flank];
      for (let k = 0; k < NODES_PER_FLANK; k++) {
        const i = random.whole(0, size.columns - 1);
        const j = random.whole(0, size.rows - 1);
        const node = j * size.columns + i;
        if (solution[flank].tipClearance[node] < 0) continue;
        const u = -1 + (2 * i) / (size.columns - 1);
        const v = -1 + (2 * j) / (size.rows - 1);
        const near = pinion.partner(u, v)?.phase ?? 0;
        const contact = conjugateContact(ring.at(u, v), mesh.pitch.ratio, axis, near);
        if (!contact) throw new Error(`no contact at (${u}, ${v})`);
        const exact = pinion.lookUp(contact.axial, contact.radius, u, v);
        if (!exact.converged) throw new Error(`exact pinion flank not found at (${u}, ${v})`);
        if (!(Math.abs(solution[flank].phase[node] - contact.phase) < 1e-9))
          throw new Error(`phase of contact differs at (${u}, ${v})`);
        const gap = Math.sign(contact.lever) * wrapAngle(exact.polar - contact.polar);
        errors.push(Math.abs(gap - solution[flank].gap[node]) * Math.abs(contact.lever) * 1000);
      }
    }
  }
  return errors;
};
