import { describe, expect, it } from 'vitest';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { type UnmakeableCode, UnmakeableError } from '../../sim/gearset/errors.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { seededRandom } from '../support/random.ts';
import { drawGearSet } from '../support/randomGearSet.ts';
import { referenceSet } from '../support/referenceSets.ts';

const setA = referenceSet('a');
const setB = referenceSet('b');
const withTooth = (
  base: GearSetDefinition,
  tooth: Partial<GearSetDefinition['tooth']>,
): GearSetDefinition => ({
  ...base,
  tooth: { ...base.tooth, ...tooth },
});
const withDrive = (drive: Partial<GearSetDefinition['easeOff']['drive']>): GearSetDefinition => ({
  ...setA,
  easeOff: { ...setA.easeOff, drive: { ...setA.easeOff.drive, ...drive } },
});

const refusal = (definition: GearSetDefinition): UnmakeableError => {
  try {
    new MeshSolver(buildGearMesh(definition));
  } catch (error) {
    if (error instanceof UnmakeableError) return error;
    throw error;
  }
  throw new Error('accepted');
};

const CASES: ReadonlyArray<readonly [string, GearSetDefinition, UnmakeableCode, string]> = [
  ['no offset', { ...setA, offset: 0 }, 'no-pitch-point', 'offset'],
  ['offset outside the ring', { ...setA, offset: 120 }, 'no-pitch-point', 'offset'],
  [
    'cutter that gives no pitch angle',
    { ...setA, cut: { method: 'face-milled', cutterRadius: 20 } },
    'no-pitch-angle-for-cutter',
    'cut.cutterRadius',
  ],
  ['blade angle too small', withTooth(setA, { pressureAngle: 9 }), 'blade-angle', 'tooth.pressureAngle'],
  ['blade angle too large', withTooth(setA, { pressureAngle: 38 }), 'blade-angle', 'tooth.pressureAngle'],
  ['no point width', withTooth(setA, { slotFactor: 0.4 }), 'point-width', 'tooth.slotFactor'],
  ['pointed ring tooth', withTooth(setA, { slotFactor: 0.93 }), 'top-land-ring', 'tooth.slotFactor'],
  ['pointed pinion tooth', withTooth(setB, { depthFactor: 2 }), 'top-land-pinion', 'tooth.depthFactor'],
  ['undercut pinion', withTooth(setA, { ringAddendumFactor: 0.6 }), 'undercut', 'tooth.depthFactor'],
  ['flank that never meets', { ...setA, faceWidth: 70 }, 'no-contact-root', 'tooth.pressureAngle'],
  ['flat lengthwise', withDrive({ lengthwise: 0 }), 'ease-off-not-a-hill', 'easeOff.drive.lengthwise'],
  ['pit in profile', withDrive({ profile: -5 }), 'ease-off-not-a-hill', 'easeOff.drive.profile'],
  ['saddle', withDrive({ bias: 60 }), 'ease-off-not-a-hill', 'easeOff.drive.bias'],
  ['tapered face-hobbed tooth', withTooth(setB, { depthTaper: 0.5 }), 'bad-value', 'tooth.depthTaper'],
  ['not a number', { ...setA, faceWidth: Number.NaN }, 'bad-value', 'faceWidth'],
  ['half a tooth', { ...setA, ringTeeth: 43.5 }, 'bad-value', 'ringTeeth'],
  ['more pinion than ring', { ...setA, pinionTeeth: 50 }, 'bad-value', 'ringTeeth'],
];

describe('makeability', () => {
  it.each(CASES)('%s is refused by field', (_, definition, code, field) => {
    const error = refusal(definition);
    expect(error.code).toBe(code);
    expect(error.field).toBe(field);
    expect(error.value).not.toBe('');
    expect(error.allowed).toMatch(/use|blade angles|at least|must/);
  });

  it('the way out it names for a blade angle is a way out', () => {
    const { allowed } = refusal(withTooth(setA, { pressureAngle: 9 }));
    const lowest = Number(/use ([\d.]+)°/.exec(allowed)?.[1]);
    expect(() =>
      buildGearMesh(withTooth(setA, { pressureAngle: lowest + 0.1, slotFactor: 0.58 })),
    ).not.toThrow(/blade angle/);
  });

  it('the cutter radii it names do give a pitch angle', () => {
    const { allowed } = refusal({ ...setA, cut: { method: 'face-milled', cutterRadius: 20 } });
    const [low] = (/use ([\d.]+)/.exec(allowed) ?? []).slice(1).map(Number);
    expect(low).toBeGreaterThan(20);
    const retry = { ...setA, cut: { method: 'face-milled' as const, cutterRadius: low + 1 } };
    try {
      buildGearMesh(retry);
    } catch (error) {
      expect((error as UnmakeableError).code).not.toBe('no-pitch-angle-for-cutter');
    }
  });

  it.each(['face-milled', 'face-hobbed'] as const)(
    'any %s set is either refused by field or solved finite (seed 5150)',
    (method) => {
      const random = seededRandom(5150);
      const codes = new Set<string>();
      for (let i = 0; i < 120; i++) {
        const base = drawGearSet(random, method);
        const wild: GearSetDefinition = {
          ...base,
          offset: base.offset * random.between(-2.5, 2.5),
          pinionSpiralAngle: random.between(20, 70),
          faceWidth: base.faceWidth * random.between(0.5, 2),
          tooth: {
            ...base.tooth,
            pressureAngle: random.between(10, 32),
            depthFactor: random.between(1, 2.6),
            slotFactor: random.between(0.3, 0.9),
          },
        };
        try {
          const solver = new MeshSolver(buildGearMesh(wild));
          const solution = solver.createSolution();
          solver.solve(
            { pinionIn: 0.05, ringAway: -0.03, offsetError: 0, shaftAngleError: 0 },
            0.00635,
            solution,
          );
          expect(Number.isFinite(solution.backlash.normal)).toBe(true);
          expect(Number.isFinite(solution.drive.patch.toeHeel)).toBe(true);
        } catch (error) {
          if (!(error instanceof UnmakeableError)) throw error;
          codes.add(error.code);
          expect(error.field).not.toBe('');
        }
      }
      expect(codes.size).toBeGreaterThan(2);
    },
  );
});
