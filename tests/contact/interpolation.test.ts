import { describe, expect, it } from 'vitest';
import { DISPLAY_GRID, type GridSize, SEARCH_GRID } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { conjugateContact } from '../../sim/gearset/conjugate.ts';
import { FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { RAD_PER_DEG, wrapAngle } from '../../sim/math/angles.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';

const METHODS: ReadonlyArray<GearSetDefinition['cut']['method']> = ['face-milled', 'face-hobbed'];
const GRIDS: ReadonlyArray<readonly [string, GridSize]> = [
  ['display grid', DISPLAY_GRID],
  ['search grid', SEARCH_GRID],
];

/** Worst error of the tabulated gap against the exact pinion flank, µm of normal gap. */
const worstError = (seed: number, method: GearSetDefinition['cut']['method'], size: GridSize): number => {
  const random = seededRandom(seed);
  let worst = 0;
  let compared = 0;
  for (let set = 0; set < 4; set++) {
    const mesh = drawMakeableMesh(random, method);
    const solver = new MeshSolver(mesh, size);
    const solution = solver.createSolution();
    for (let trial = 0; trial < 6; trial++) {
      const pose = {
        pinionIn: random.between(-0.35, 0.35),
        ringAway: random.between(-0.35, 0.35),
        offsetError: random.between(-0.35, 0.35),
        shaftAngleError: random.between(-0.2, 0.2),
      };
      solver.solve(pose, 0.00635, solution);
      const sigma = pose.shaftAngleError * RAD_PER_DEG;
      const axis = {
        origin: [-pose.pinionIn, mesh.pitch.offset + pose.offsetError, pose.ringAway],
        direction: [Math.cos(sigma), 0, Math.sin(sigma)],
      } as const;
      for (const flank of FLANKS) {
        for (let k = 0; k < 25; k++) {
          const i = random.whole(0, size.columns - 1);
          const j = random.whole(0, size.rows - 1);
          const node = j * size.columns + i;
          if (solution[flank].tipClearance[node] < 0) continue;
          const u = -1 + (2 * i) / (size.columns - 1);
          const v = -1 + (2 * j) / (size.rows - 1);
          const { ring, pinion } = mesh.flanks[flank];
          const near = pinion.partner(u, v)?.phase ?? 0;
          const contact = conjugateContact(ring.at(u, v), mesh.pitch.ratio, axis, near);
          expect(contact).not.toBeNull();
          if (!contact) continue;
          const exact = pinion.lookUp(contact.axial, contact.radius, u, v);
          expect(exact.converged).toBe(true);
          const gap = Math.sign(contact.lever) * wrapAngle(exact.polar - contact.polar);
          expect(Math.abs(solution[flank].phase[node] - contact.phase)).toBeLessThan(1e-9);
          worst = Math.max(worst, Math.abs(gap - solution[flank].gap[node]) * Math.abs(contact.lever) * 1000);
          compared++;
        }
      }
    }
  }
  expect(compared).toBeGreaterThan(800);
  return worst;
};

describe.each(METHODS)('tabulated pinion flank, %s', (method) => {
  it.each(GRIDS)('is within 0.5 µm of the exact one on the %s (seed 2301)', (_, size) => {
    expect(worstError(2301, method, size)).toBeLessThan(0.5);
  });
});
