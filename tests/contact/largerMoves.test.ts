import { describe, expect, it } from 'vitest';
import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { findLargerMoves, largerPose } from '../../sim/contact/largerMoves.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

const MOST = 20;
/** mm */
const SPARE = 0.02;
/** mm that a picture ever draws a member away from the design position */
const REACH = 2;
/** mm by which the coarse grid's reading may differ from the display grid's that far out */
const GRIDS = 0.003;

describe.each(SHIPPED_SETS)('larger moves of $label', ({ definition }) => {
  const mesh = buildGearMesh(definition);
  const coarse = new MeshSolver(mesh, SEARCH_GRID);
  const scratch = coarse.createSolution();
  const fine = new MeshSolver(mesh);
  const check = fine.createSolution();
  const dialAt = (pose: Pose, factor: number): number => {
    fine.solve(largerPose(pose, factor), 0, check);
    return check.backlash.normal;
  };

  it('end where the teeth all but touch, and nowhere before (seed 311)', () => {
    const random = seededRandom(311);
    const ends = { teeth: 0, most: 0 };
    for (let trial = 0; trial < 12; trial++) {
      const pose = {
        pinionIn: random.between(-0.3, 0.3),
        ringAway: random.between(-0.2, 0.2),
        offsetError: random.between(-0.05, 0.05),
        shaftAngleError: random.between(-0.03, 0.03),
      };
      const most = REACH / Math.max(Math.abs(pose.pinionIn), Math.abs(pose.ringAway));
      const found = findLargerMoves(coarse, pose, most, SPARE, scratch);
      ends[found.endedBy] += 1;
      const own = dialAt(pose, 1);
      for (let i = 0; i <= 40; i++) {
        expect(dialAt(pose, (found.largest * i) / 40)).toBeGreaterThan(-GRIDS);
      }
      if (found.endedBy === 'most') expect(found.largest).toBe(most);
      else {
        expect(dialAt(pose, found.largest)).toBeLessThan(SPARE + GRIDS);
        expect(dialAt(pose, found.largest * 1.05)).toBeLessThan(dialAt(pose, found.largest));
        // true to size is always allowed unless the teeth bind there
        if (own > GRIDS) expect(found.largest).toBeGreaterThan(1);
        if (own < -GRIDS) expect(found.largest).toBeLessThan(1);
      }
      found.factors.forEach((factor, i) => {
        expect(found.dial[i]).toBeGreaterThan(dialAt(pose, factor) - GRIDS);
        expect(found.freePlay[i]).toBeGreaterThan(-1e-9);
      });
    }
    expect(ends.teeth).toBeGreaterThan(0);
    expect(ends.most).toBeGreaterThan(0);
  });

  it('a housing so far out that the teeth bind at the design position allows no move at all', () => {
    const bent = [-0.3, 0.3].flatMap((offsetError) =>
      [-0.25, 0.25].map((shaftAngleError) => ({
        ...DESIGN_POSE,
        offsetError,
        shaftAngleError,
        pinionIn: 0.1,
      })),
    );
    const binding = bent.filter((pose) => dialAt(pose, 0) < -GRIDS);
    expect(binding.length).toBeGreaterThan(0);
    for (const pose of binding) {
      const found = findLargerMoves(coarse, pose, MOST, SPARE, scratch);
      expect(found).toMatchObject({ largest: 0, endedBy: 'teeth' });
      expect(found.factors.every((factor) => factor === 0)).toBe(true);
    }
  });

  it('nothing moved, nothing touches: any factor is allowed', () => {
    const found = findLargerMoves(coarse, DESIGN_POSE, MOST, SPARE, scratch);
    expect(found.largest).toBe(MOST);
    expect(found.endedBy).toBe('most');
  });
});

it('the second worker answers as the solver does, and names a field it cannot take', () => {
  const [{ definition }] = SHIPPED_SETS;
  const core = new LongCore();
  const pose = { ...DESIGN_POSE, pinionIn: 0.12, ringAway: -0.02 };
  const request = { kind: 'largerMoves', gearSetId: 'set', definition, pose, most: 9, spare: SPARE } as const;
  const answer = core.largerMoves(request);
  const solver = new MeshSolver(buildGearMesh(definition), SEARCH_GRID);
  const direct = findLargerMoves(solver, pose, 9, SPARE, solver.createSolution());
  if (!answer.ok) throw new Error(JSON.stringify(answer.failure));
  expect(answer.value.largest).toBeCloseTo(direct.largest, 6);
  expect(answer.value.endedBy).toBe(direct.endedBy);
  for (const most of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(core.largerMoves({ ...request, most })).toMatchObject({
      ok: false,
      failure: { kind: 'bad-argument', field: 'most' },
    });
  }
  expect(core.largerMoves({ ...request, spare: -0.01 })).toMatchObject({
    ok: false,
    failure: { kind: 'bad-argument', field: 'spare' },
  });
});
