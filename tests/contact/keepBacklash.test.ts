import { describe, expect, it } from 'vitest';
import { keepBacklash, RING_AWAY_REACH } from '../../sim/contact/keepBacklash.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { falsePosition } from '../../sim/math/roots.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

/** mm, issue: the reading is held this well over ±0.2 mm of depth */
const HELD = 0.002;

describe.each(SHIPPED_SETS)('keep backlash on $label', ({ definition, film }) => {
  const solver = new MeshSolver(buildGearMesh(definition));
  const scratch = solver.createSolution();
  const check = solver.createSolution();
  const readingAt = (pose: Pose): number => {
    solver.solve(pose, film, check);
    return check.backlash.normal;
  };

  it('holds the reading over ±0.2 mm of depth; deeper asks for the ring farther away', () => {
    let last = Number.NEGATIVE_INFINITY;
    for (let i = -10; i <= 10; i++) {
      const pose = { ...DESIGN_POSE, pinionIn: i * 0.02 };
      const kept = keepBacklash(solver, pose, definition.backlash, scratch);
      expect(kept.converged).toBe(true);
      expect(kept.iterations).toBeLessThanOrEqual(12);
      const reading = readingAt({ ...pose, ringAway: kept.ringAway });
      expect(Math.abs(reading - definition.backlash)).toBeLessThan(HELD);
      expect(reading - definition.backlash).toBeCloseTo(kept.residual, 12);
      expect(kept.ringAway).toBeGreaterThan(last);
      last = kept.ringAway;
    }
    // The lock has something to do: without it the reading leaves the wanted one by far more.
    expect(definition.backlash - readingAt({ ...DESIGN_POSE, pinionIn: 0.2 })).toBeGreaterThan(10 * HELD);
  });

  it('from any start, with housing errors, to any reading in the trade (seed 77)', () => {
    const random = seededRandom(77);
    for (let i = 0; i < 12; i++) {
      const pose = {
        pinionIn: random.between(-0.2, 0.2),
        ringAway: random.between(-0.3, 0.3),
        offsetError: random.between(-0.1, 0.1),
        shaftAngleError: random.between(-0.05, 0.05),
      };
      const wanted = random.between(0.05, 0.35);
      const kept = keepBacklash(solver, pose, wanted, scratch);
      expect(kept.converged).toBe(true);
      expect(Math.abs(readingAt({ ...pose, ringAway: kept.ringAway }) - wanted)).toBeLessThan(HELD);
    }
  });

  it('stays where the reading is right already', () => {
    const kept = keepBacklash(solver, DESIGN_POSE, definition.backlash, scratch);
    expect(kept.converged).toBe(true);
    expect(Math.abs(kept.ringAway)).toBeLessThan(1e-5);
  });

  it('says so when there is no such place within reach', () => {
    const wide = keepBacklash(solver, DESIGN_POSE, 5, scratch);
    expect(wide.converged).toBe(false);
    expect(Math.abs(wide.ringAway)).toBeLessThanOrEqual(RING_AWAY_REACH);
    expect(wide.residual).toBeLessThan(-1);
    expect(wide.residual).toBeCloseTo(readingAt({ ...DESIGN_POSE, ringAway: wide.ringAway }) - 5, 12);
    const apart = keepBacklash(solver, { ...DESIGN_POSE, pinionIn: -200 }, 0.2, scratch);
    expect(apart).toEqual({ converged: false, ringAway: 0, residual: Number.NaN, iterations: 1 });
  });

  it('names a reading that is no number', () => {
    expect(() => keepBacklash(solver, DESIGN_POSE, Number.NaN, scratch)).toThrow(/wanted: NaN/);
  });
});

describe('false position', () => {
  const seen = (f: (x: number) => number, x: number) => ({ x, value: f(x) });

  it('finds the root of a bent function within the bracket', () => {
    const f = (x: number) => x ** 9 - 0.5;
    const found = falsePosition(f, seen(f, 0), seen(f, 1), 1e-12);
    expect(found.converged).toBe(true);
    expect(found.root).toBeCloseTo(0.5 ** (1 / 9), 10);
  });

  it('a jump over zero, a NaN and a missing change of sign are not roots', () => {
    const jump = (x: number) => (x < 0.3 ? -1 : 1);
    expect(falsePosition(jump, seen(jump, 0), seen(jump, 1), 1e-9).converged).toBe(false);
    const hole = (x: number) => (x === 0 || x === 1 ? x - 0.4 : Number.NaN);
    expect(falsePosition(hole, seen(hole, 0), seen(hole, 1), 1e-9)).toEqual({
      converged: false,
      root: 0,
      iterations: 1,
      residual: -0.4,
    });
    const above = (x: number) => x + 1;
    expect(falsePosition(above, seen(above, 0), seen(above, 1), 1e-9)).toEqual({
      converged: false,
      root: 0,
      iterations: 0,
      residual: 1,
    });
  });
});
