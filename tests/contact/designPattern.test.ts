import { describe, expect, it } from 'vitest';
import {
  EASE_OFF_RANGE,
  PatternDesigner,
  type WantedPatch,
  WISH_TOLERANCE,
  WISHES,
} from '../../sim/contact/designPattern.ts';
import { markTilt } from '../../sim/contact/markTilt.ts';
import { type MeshSolution, MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { type EaseOffDefinition, FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import { buildGearMesh, withEaseOff } from '../../sim/gearset/gearMesh.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { type Random, seededRandom } from '../support/random.ts';

/** Issue: asked centre and length are reached this well, or there is a refusal. */
const CENTRE = 0.02;
const LENGTH = 0.03;

const drawEaseOff = (random: Random): EaseOffDefinition => {
  const lengthwise = Math.exp(random.between(1.5, 6));
  const profile = Math.exp(random.between(1.5, 6));
  return {
    lengthwise,
    profile,
    bias: random.between(-0.9, 0.9) * Math.sqrt(lengthwise * profile),
    centerToeHeel: random.between(-0.4, 0.3),
    centerRootFace: random.between(-0.3, 0.4),
  };
};

/** Any mark that would lie within the flank's borders; every other one with a slant of its own. */
const drawWish = (random: Random, slanted: boolean): WantedPatch => {
  const toeHeel = random.between(-0.35, 0.25);
  const rootFace = random.between(-0.1, 0.3);
  const length = random.between(0.35, Math.min(0.75, 0.97 - Math.abs(toeHeel)));
  const height = random.between(0.4, Math.min(0.85, 0.97 - rootFace));
  const tilt = random.between(-0.4, 0.4);
  return { toeHeel, rootFace, length, height, ...(slanted ? { tilt } : {}) };
};

describe('the slant of a mark', () => {
  const [columns, rows] = [61, 31];
  const fieldsOf = (separationAt: (u: number, v: number) => number, clearanceAt = (_: number) => 1) => {
    const nodes = Array.from({ length: columns * rows }, (_, node) => ({
      u: -1 + (2 * (node % columns)) / (columns - 1),
      v: -1 + (2 * Math.floor(node / columns)) / (rows - 1),
    }));
    return {
      separation: Float64Array.from(nodes, ({ u, v }) => separationAt(u, v)),
      tipClearance: Float64Array.from(nodes, ({ v }) => clearanceAt(v)),
    };
  };

  it.each([0, 0.3, -0.8])('an ellipse leaning by %f has that slope', (slope) => {
    // With cov/var(u) = slope: Q⁻¹ ∝ [[1, slope], [slope, slope² + 0.2]]
    const fields = fieldsOf((u, v) => u * u + (v - slope * u) ** 2 / 0.2);
    expect(markTilt(fields, columns, rows, 0.4)).toBeCloseTo(slope, 1);
  });

  it('a strip along the face has none, whatever the pinion tip cuts off; no mark, no slope', () => {
    const strip = fieldsOf(
      (_, v) => Math.abs(v - 0.2),
      (v) => v - 0.1,
    );
    expect(markTilt(strip, columns, rows, 0.3)).toBeCloseTo(0, 12);
    expect(
      markTilt(
        fieldsOf(() => 1),
        columns,
        rows,
        0.5,
      ),
    ).toBeNaN();
  });
});

describe.each(SHIPPED_SETS)('design pattern of $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const designer = new PatternDesigner(mesh);

  /** The mesh built anew, as it will be when the ease-off is kept. */
  const solveAnew = (easeOff: Readonly<Record<FlankName, EaseOffDefinition>>): MeshSolution => {
    const solver = new MeshSolver(withEaseOff(mesh, easeOff));
    const solution = solver.createSolution();
    solver.solve(DESIGN_POSE, film, solution);
    return solution;
  };

  it('the marks it searches with are those of the solver (seed 71)', () => {
    const random = seededRandom(71);
    for (let i = 0; i < 4; i++) {
      const easeOff = { drive: drawEaseOff(random), coast: drawEaseOff(random) };
      const patches = designer.patchesFor(easeOff, film);
      const solved = solveAnew(easeOff);
      for (const flank of FLANKS) {
        for (const name of ['toeHeel', 'rootFace', 'length', 'height'] as const) {
          expect(patches[flank][name]).toBeCloseTo(solved[flank].patch[name], 7);
        }
        const { separation, tipClearance } = solved[flank];
        expect(patches[flank].tilt).toBeCloseTo(markTilt({ separation, tipClearance }, 61, 31, film), 7);
      }
    }
  });

  it('a handle dragged about the present mark is always followed (seed 72)', () => {
    const random = seededRandom(72);
    const present = designer.patchesFor(definition.easeOff, film);
    for (let i = 0; i < 8; i++) {
      const wishFor = (flank: FlankName): WantedPatch => ({
        toeHeel: present[flank].toeHeel + random.between(-0.15, 0.15),
        rootFace: present[flank].rootFace + random.between(-0.06, 0.06),
        length: present[flank].length + random.between(-0.06, 0.1),
        height: present[flank].height + random.between(-0.08, 0.04),
        tilt: present[flank].tilt + random.between(-0.1, 0.1),
      });
      const wanted = { drive: wishFor('drive'), coast: wishFor('coast') };
      const found = designer.design(definition.easeOff, wanted, film);
      for (const flank of FLANKS) expect(found[flank]).toMatchObject({ converged: true, refusal: null });
    }
  });

  it('what is asked is reached, or refused naming the wish that fails (seed 73)', () => {
    const random = seededRandom(73);
    let reached = 0;
    const rounds = 10;
    for (let i = 0; i < rounds; i++) {
      const wanted = { drive: drawWish(random, i % 2 === 0), coast: drawWish(random, i % 2 === 0) };
      const found = designer.design(definition.easeOff, wanted, film);
      const { drive, coast } = found;
      if (!drive || !coast) throw new Error('both flanks were asked for');
      const solved = solveAnew({ drive: drive.easeOff, coast: coast.easeOff });
      if (drive.converged || coast.converged) {
        // One refused for its wish does not spoil the other; together they can be made.
        buildGearMesh({ ...definition, easeOff: { drive: drive.easeOff, coast: coast.easeOff } });
      }
      for (const flank of FLANKS) {
        const asked = wanted[flank];
        const { patch } = solved[flank];
        const answer = found[flank];
        if (answer?.converged) {
          reached++;
          expect(answer.refusal).toBeNull();
          expect(Math.abs(patch.toeHeel - (asked.toeHeel ?? 0))).toBeLessThanOrEqual(CENTRE + 1e-9);
          expect(Math.abs(patch.rootFace - (asked.rootFace ?? 0))).toBeLessThanOrEqual(CENTRE + 1e-9);
          expect(Math.abs(patch.length - (asked.length ?? 0))).toBeLessThanOrEqual(LENGTH + 1e-9);
          expect(Math.abs(patch.height - (asked.height ?? 0))).toBeLessThanOrEqual(LENGTH + 1e-9);
        } else {
          const refusal = answer?.refusal;
          const changed = { drive: drive.easeOff, coast: coast.easeOff };
          if (refusal?.kind === 'unmakeable') {
            expect(() => buildGearMesh({ ...definition, easeOff: changed })).toThrow(refusal.value);
            continue;
          }
          if (!refusal) throw new Error('not reached, and not refused');
          const { wish, asked: value, reachable } = refusal;
          expect(value).toBe(asked[wish]);
          expect(Math.abs(reachable - value)).toBeGreaterThan(WISH_TOLERANCE[wish]);
          if (wish !== 'tilt') expect(reachable).toBeCloseTo(patch[wish], 7);
        }
      }
    }
    expect(reached / (2 * rounds)).toBeGreaterThan(0.5);
  });

  it('no ease-off drawn at random does what was refused (seed 74)', () => {
    const random = seededRandom(74);
    let refused = 0;
    for (let i = 0; i < 8; i++) {
      const wanted = drawWish(random, true);
      const { drive } = designer.design(definition.easeOff, { drive: wanted }, film);
      if (drive?.converged !== false) continue;
      refused++;
      for (let k = 0; k < 100; k++) {
        const { drive: tried } = designer.patchesFor(
          { ...definition.easeOff, drive: drawEaseOff(random) },
          film,
        );
        const does = WISHES.every(
          (wish) => Math.abs(tried[wish] - (wanted[wish] ?? Number.NaN)) <= WISH_TOLERANCE[wish],
        );
        expect(does).toBe(false);
      }
    }
    expect(refused).toBeGreaterThan(0);
  });

  it('keeps what is not asked for, and the other flank is none of its business', () => {
    const present = designer.patchesFor(definition.easeOff, film);
    const wanted = { drive: { toeHeel: present.drive.toeHeel + 0.1 } };
    const found = designer.design(definition.easeOff, wanted, film);
    expect(found.coast).toBeUndefined();
    expect(found.drive?.patch.toeHeel).toBeCloseTo(present.drive.toeHeel + 0.1, 1);
    for (const wish of ['rootFace', 'length', 'height', 'tilt'] as const) {
      expect(Math.abs((found.drive?.patch[wish] ?? Number.NaN) - present.drive[wish])).toBeLessThan(0.03);
    }
    expect(designer.design(definition.easeOff, { coast: {} }, film).coast?.easeOff).toEqual({
      lengthwise: expect.closeTo(definition.easeOff.coast.lengthwise, 9),
      profile: expect.closeTo(definition.easeOff.coast.profile, 9),
      bias: expect.closeTo(definition.easeOff.coast.bias, 9),
      centerToeHeel: expect.closeTo(definition.easeOff.coast.centerToeHeel, 9),
      centerRootFace: expect.closeTo(definition.easeOff.coast.centerRootFace, 9),
    });
  });

  it('refuses the impossible with what is reachable, within the range of an ease-off', () => {
    const { drive } = designer.design(definition.easeOff, { drive: { toeHeel: 0.9, length: 0.8 } }, film);
    expect(drive?.converged).toBe(false);
    expect(drive?.refusal).toMatchObject({ kind: 'wish', wish: expect.stringMatching(/toeHeel|length/) });
    const { lengthwise, profile, bias, centerToeHeel } = drive?.easeOff ?? definition.easeOff.drive;
    for (const amount of [lengthwise, profile]) {
      expect(amount).toBeGreaterThan(EASE_OFF_RANGE.least - 1e-9);
      expect(amount).toBeLessThan(EASE_OFF_RANGE.most + 1e-9);
    }
    expect(lengthwise * profile).toBeGreaterThan(bias * bias);
    expect(Math.abs(centerToeHeel)).toBeLessThanOrEqual(EASE_OFF_RANGE.mostCenter);
  });

  it('names a wish that is no number', () => {
    const wanted = { coast: { height: Number.NaN } };
    expect(() => designer.design(definition.easeOff, wanted, film)).toThrow(/coast\.height: NaN/);
  });
});
