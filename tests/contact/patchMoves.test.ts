import { describe, expect, it } from 'vitest';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { findPatchMoves, type PoseStep, stepPose } from '../../sim/contact/patchMoves.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { agrees, DIRECTION_TABLE, findDirections, MOVES, type MoveName } from '../support/directions.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { type Random, seededRandom } from '../support/random.ts';
import { REFERENCE_FILM } from '../support/referenceSets.ts';

/** Share of the arrows' lengths that a step of 0.02 mm may be off a straight line. */
const LINEAR = 0.1;

const drawPose = (random: Random): Pose => ({
  pinionIn: random.between(-0.15, 0.15),
  ringAway: random.between(-0.1, 0.15),
  offsetError: random.between(-0.05, 0.05),
  shaftAngleError: random.between(-0.03, 0.03),
});

describe.each(SHIPPED_SETS)('patch moves of $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const solver = new MeshSolver(mesh);
  const scratch = solver.createSolution();
  const movesAt = (pose: Pose, step: PoseStep, ofFilm = film) =>
    findPatchMoves(solver, pose, ofFilm, step, scratch);
  const directions = findDirections(mesh);

  it.each(Object.keys(MOVES) as MoveName[])(
    '%s: half a step on, the arrow is the plain difference of two solves, with the signs of §8',
    (name) => {
      const step = MOVES[name];
      const moves = movesAt(stepPose(DESIGN_POSE, step, 0.5), step, REFERENCE_FILM);
      for (const flank of FLANKS) {
        const arrow = moves[flank];
        if (!arrow) throw new Error(`no mark on ${flank}`);
        expect(arrow.toeHeel).toBeCloseTo(directions.moves[name][flank].toeHeel, 9);
        expect(arrow.rootFace).toBeCloseTo(directions.moves[name][flank].rootFace, 9);
        expect(agrees(arrow, DIRECTION_TABLE[definition.cut.method][name][flank])).toBe(true);
      }
      const perMm = name === 'ring in' ? directions.dialPerRingAway : directions.dialPerPinionOut;
      const reading = solver.createSolution();
      solver.solve(stepPose(DESIGN_POSE, step, 1), REFERENCE_FILM, reading);
      const dial = reading.backlash.normal - definition.backlash;
      expect(moves.dial).toBeCloseTo(dial, 6);
      if (name === 'pinion out') expect(moves.dial).toBeCloseTo(perMm * 0.1, 9);
    },
  );

  it('about the design position the arrows point as §8 says', () => {
    for (const name of Object.keys(MOVES) as MoveName[]) {
      const moves = movesAt(DESIGN_POSE, MOVES[name], REFERENCE_FILM);
      for (const flank of FLANKS) {
        expect(
          moves[flank] && agrees(moves[flank], DIRECTION_TABLE[definition.cut.method][name][flank]),
        ).toBe(true);
      }
    }
  });

  it('small steps are linear: half a step moves half as far, two adjustments add up (seed 31)', () => {
    const random = seededRandom(31);
    for (let i = 0; i < 6; i++) {
      const pose = drawPose(random);
      const depth = { pinionIn: 0.02 };
      const transfer = { ringAway: -0.02 };
      const whole = movesAt(pose, depth);
      const half = movesAt(pose, { pinionIn: 0.01 });
      const other = movesAt(pose, transfer);
      const both = movesAt(pose, { ...depth, ...transfer });
      for (const flank of FLANKS) {
        const [a, h, b, ab] = [whole, half, other, both].map((moves) => moves[flank]);
        if (!a || !h || !b || !ab) throw new Error(`no mark on ${flank}`);
        const size = Math.hypot(a.toeHeel, a.rootFace) + Math.hypot(b.toeHeel, b.rootFace);
        for (const along of ['toeHeel', 'rootFace'] as const) {
          expect(Math.abs(2 * h[along] - a[along])).toBeLessThan(LINEAR * size);
          expect(Math.abs(a[along] + b[along] - ab[along])).toBeLessThan(LINEAR * size);
        }
      }
      // the least over a pitch may change its phase within a step
      const sum = (whole.dial ?? Number.NaN) + (other.dial ?? Number.NaN);
      expect(Math.abs(sum - (both.dial ?? Number.NaN))).toBeLessThan(0.0005);
    }
  });

  it('no mark, no arrow; no common phase of contact, no dial', () => {
    // a film below zero leaves nothing to squeeze away
    const bare = movesAt(DESIGN_POSE, { ringAway: 0.05 }, -1);
    expect(bare.drive).toBeNull();
    expect(bare.coast).toBeNull();
    expect(bare.dial).toBeGreaterThan(0.02);
    const apart = movesAt({ ...DESIGN_POSE, pinionIn: -200 }, { ringAway: 0.05 });
    expect(apart).toEqual({ drive: null, coast: null, dial: null });
  });
});
