import { describe, expect, it } from 'vitest';
import { parseGearSet } from '../../models/schema.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { type CaliperReading, startFromCaliper } from '../../sim/gearset/caliper.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { type Random, seededRandom } from '../support/random.ts';

const drawReading = (random: Random, depth: CaliperReading['depth']): CaliperReading => {
  const ringOuterDiameter = random.between(120, 450);
  const pinionTeeth = random.whole(6, 17);
  const ringTeeth = Math.min(60, Math.max(25, Math.round(pinionTeeth * random.between(2.5, 6))));
  return {
    pinionTeeth,
    ringTeeth,
    ringOuterDiameter,
    faceWidth: ringOuterDiameter * random.between(0.12, 0.165),
    offset: ringOuterDiameter * random.between(0.06, 0.2) * random.pick([1, -1]),
    depth,
  };
};

describe.each(['tapered', 'uniform'] as const)('a caliper on a set of %s depth', (depth) => {
  it('gives a set that can be made, of the schema, with marks on both flanks (seed 191)', () => {
    const random = seededRandom(191);
    const count = 12;
    let makeable = 0;
    for (let i = 0; i < count; i++) {
      const reading = drawReading(random, depth);
      const start = startFromCaliper(reading);
      if (!start.makeable) continue;
      makeable++;
      const { definition } = start;
      expect(parseGearSet(definition)).toMatchObject({ ok: true });
      const { depth: _, ...measured } = reading;
      expect(definition).toMatchObject(measured);
      const solver = new MeshSolver(buildGearMesh(definition), { columns: 31, rows: 15 });
      const solution = solver.createSolution();
      solver.solve(DESIGN_POSE, 0.012, solution);
      for (const flank of FLANKS) {
        const { patch } = solution[flank];
        expect(Math.abs(patch.toeHeel)).toBeLessThan(0.3);
        expect(Math.abs(patch.rootFace)).toBeLessThan(0.4);
        expect(patch.length).toBeGreaterThan(0.3);
      }
    }
    expect(makeable / count).toBeGreaterThan(0.9);
  });

  it('leaves the defaults alone where they will do, and says which gave way where not', () => {
    const plain = startFromCaliper({
      pinionTeeth: 13,
      ringTeeth: 46,
      ringOuterDiameter: 210,
      faceWidth: 30,
      offset: 30,
      depth,
    });
    expect(plain).toMatchObject({ makeable: true, altered: [] });
    expect(plain.definition.cut.method).toBe(depth === 'tapered' ? 'face-milled' : 'face-hobbed');
    expect(plain.definition.tooth.depthTaper === 0).toBe(depth === 'uniform');
    const few = startFromCaliper({
      pinionTeeth: 6,
      ringTeeth: 27,
      ringOuterDiameter: 210,
      faceWidth: 34,
      offset: 14,
      depth,
    });
    expect(few).toMatchObject({ makeable: true });
    expect(few.makeable && few.altered).toContain('tooth.depthFactor');
  });
});

it('the practice axles measured with a caliper can be made, near enough in their marks', () => {
  for (const { definition } of SHIPPED_SETS) {
    const { pinionTeeth, ringTeeth, ringOuterDiameter, faceWidth, offset, cut } = definition;
    const depth = cut.method === 'face-milled' ? 'tapered' : 'uniform';
    const start = startFromCaliper({ pinionTeeth, ringTeeth, ringOuterDiameter, faceWidth, offset, depth });
    expect(start).toMatchObject({ makeable: true, altered: [] });
    expect(Math.abs(start.definition.cut.cutterRadius / cut.cutterRadius - 1)).toBeLessThan(0.1);
    expect(Math.abs(start.definition.pinionSpiralAngle - definition.pinionSpiralAngle)).toBeLessThan(3);
  }
});

it('what no default can mend is refused with the field', () => {
  const reading = {
    pinionTeeth: 13,
    ringTeeth: 46,
    ringOuterDiameter: 210,
    faceWidth: 30,
    depth: 'tapered',
  } as const;
  const none = startFromCaliper({ ...reading, offset: 0 });
  expect(none).toMatchObject({ makeable: false, error: { field: 'offset' } });
  const few = startFromCaliper({ ...reading, offset: 30, ringTeeth: 12 });
  expect(few).toMatchObject({ makeable: false, error: { code: 'bad-value', field: 'ringTeeth' } });
});
