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

/** Disagreements found, µm: every one away from flank borders, and apart those where the first touch is on one. */
export interface Misses {
  readonly separation: number[];
  readonly separationAtBorder: number[];
  /** how far the true least of a rolling pass lies below the separation of docs/model.md §7 (a property of the definition) */
  readonly rollingShortfall: number[];
  readonly backlash: number[];
  readonly backlashAtBorder: number[];
}

export const noMisses = (): Misses => ({
  separation: [],
  separationAtBorder: [],
  rollingShortfall: [],
  backlash: [],
  backlashAtBorder: [],
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
  into: Misses = noMisses(),
): Misses => {
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
        into.backlashAtBorder.push(miss);
      } else {
        into.backlash.push(miss);
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
          into.separationAtBorder.push(miss);
          continue;
        }
        into.separation.push(miss);
        if (!rolling) continue;
        const rolled = mesh.rolledGap(flank, u, v);
        if (!rolled?.stationary || rolled.heldBy.border) continue;
        into.rollingShortfall.push((separation[node] - rolled.separation) * MICROMETRES);
      }
    }
  }
  return into;
};
