import { PHASES_PER_PITCH } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import { FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { buildOracle, type PointGrid } from '../oracle/bruteForce.ts';
import type { Random } from './random.ts';

/** Pinion angles per pitch; a divisor of PHASES_PER_PITCH so that both programs look at the same phases. */
const PINION_ANGLES = 16;
const MICROMETRES = 1000;

/** Worst disagreement found, µm, away from flank borders and where the first touch is on one. */
export interface Agreement {
  separation: number;
  separationCompared: number;
  separationAtBorder: number;
  separationBorderCompared: number;
  /** how far the true least of a rolling pass lies below the separation of docs/model.md §7 (a property of the definition) */
  rollingShortfall: number;
  backlash: number;
  backlashCompared: number;
  backlashAtBorder: number;
  backlashBorderCompared: number;
}

export const emptyAgreement = (): Agreement => ({
  separation: 0,
  separationCompared: 0,
  separationAtBorder: 0,
  separationBorderCompared: 0,
  rollingShortfall: 0,
  backlash: 0,
  backlashCompared: 0,
  backlashAtBorder: 0,
  backlashBorderCompared: 0,
});

/** Poses of the comparison: housing errors too, within the ±0.25 mm for which the agreement is promised. */
export const drawPose = (random: Random): Pose => ({
  pinionIn: random.between(-0.25, 0.25),
  ringAway: random.between(-0.25, 0.25),
  offsetError: random.between(-0.15, 0.15),
  shaftAngleError: random.between(-0.08, 0.08),
});

/** How finely to compare. */
export interface OracleSampling {
  readonly points: PointGrid;
  /** nodes per flank and pose */
  readonly nodes: number;
  /** mm, how near to touching a node must be to be compared */
  readonly near?: number;
  /** also measure `rollingShortfall` */
  readonly rolling?: boolean;
}

/**
 * Compares the explicit solver with the brute-force contact search in the given poses: separation at random
 * nodes within `near` mm of touching, and the rocked ring at equal pinion angles.
 */
export const compareWithOracle = (
  definition: GearSetDefinition,
  poses: readonly Pose[],
  random: Random,
  { points, nodes, near = 0.04, rolling = false }: OracleSampling,
  into: Agreement = emptyAgreement(),
): Agreement => {
  const solver = new MeshSolver(buildGearMesh(definition));
  const solution = solver.createSolution();
  const oracle = buildOracle(definition);
  const { columns, rows } = solver.size;
  for (const pose of poses) {
    solver.solve(pose, 0.00635, solution);
    const mesh = oracle.mesh(pose, { points, pinionAngles: PINION_ANGLES });

    const rocked = mesh.backlash();
    const drive = mesh.touches('drive');
    const coast = mesh.touches('coast');
    rocked.ringAngles.forEach((angle, k) => {
      const play = solution.freePlay[(k * PHASES_PER_PITCH) / PINION_ANGLES];
      const miss = Math.abs(angle - play) * solver.dialLever * MICROMETRES;
      if (drive[k]?.border || coast[k]?.border) {
        into.backlashBorderCompared++;
        into.backlashAtBorder = Math.max(into.backlashAtBorder, miss);
      } else {
        into.backlashCompared++;
        into.backlash = Math.max(into.backlash, miss);
      }
    });

    for (const flank of FLANKS) {
      const { separation, tipClearance } = solution[flank];
      let taken = 0;
      for (let draw = 0; taken < nodes && draw < 60 * nodes; draw++) {
        const i = random.whole(0, columns - 1);
        const j = random.whole(0, rows - 1);
        const node = j * columns + i;
        if (tipClearance[node] < 0 || separation[node] > near) continue;
        taken++;
        const [u, v] = [-1 + (2 * i) / (columns - 1), -1 + (2 * j) / (rows - 1)];
        const held = mesh.heldGap(flank, u, v, solution[flank].phase[node]);
        if (!held) continue;
        const miss = Math.abs(held.separation - separation[node]) * MICROMETRES;
        if (held.heldBy.border) {
          into.separationBorderCompared++;
          into.separationAtBorder = Math.max(into.separationAtBorder, miss);
          continue;
        }
        into.separationCompared++;
        into.separation = Math.max(into.separation, miss);
        if (!rolling) continue;
        const rolled = mesh.rolledGap(flank, u, v);
        if (!rolled?.stationary || rolled.heldBy.border) continue;
        const shortfall = (separation[node] - rolled.separation) * MICROMETRES;
        into.rollingShortfall = Math.max(into.rollingShortfall, shortfall);
      }
    }
  }
  return into;
};
