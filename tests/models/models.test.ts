import { describe, expect, test } from 'vitest';
import { defaultsOf } from '../../models/field.ts';
import { GEAR_SET_FIELDS } from '../../models/gearSetFields.ts';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { parseGearSet } from '../../models/schema.ts';
import type { ShimStock } from '../../sim/assembly/hardware.ts';
import { nearestTotal } from '../../sim/assembly/stock.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { reportBacklash, reportPatch } from '../../sim/contact/report.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';

/** mm, docs/model.md §7 */
const REFERENCE_FILM = 0.00635;
/** mm of the direction table, docs/model.md §8 */
const MOVE = 0.1;
/** |move| per 0.1 mm below which the table says neutral */
const NEUTRAL = 0.05;

const solvers = new Map(
  AXLE_IDS.map((id) => [id, new MeshSolver(buildGearMesh(AXLES[id].gearset), { columns: 121, rows: 61 })]),
);

function solved(id: (typeof AXLE_IDS)[number], pose: Partial<Pose>, film: number) {
  const solver = solvers.get(id);
  if (solver === undefined) throw new Error(id);
  const solution = solver.createSolution();
  solver.solve({ ...DESIGN_POSE, ...pose }, film, solution);
  return {
    drive: reportPatch(solution, 'drive'),
    coast: reportPatch(solution, 'coast'),
    backlash: reportBacklash(solution),
  };
}

type Way = 'toe' | 'heel' | 'neutral';
const way = (move: number): Way => (Math.abs(move) < NEUTRAL ? 'neutral' : move < 0 ? 'toe' : 'heel');

describe.each(AXLE_IDS)('%s', (id) => {
  const { gearset, film_mm, limits, pinionShim, sides, spacer, fictional, description } = AXLES[id];

  test('says that it is invented', () => {
    expect(fictional).toBe(true);
    expect(description).toMatch(/no real axle has these numbers/);
  });

  test('is made without coming near a limit of makeability', () => {
    expect(solvers.get(id)?.mesh.warnings).toEqual([]);
    if (gearset.cut.method === 'face-milled') {
      expect(gearset.cut.cutterRadius).toBeGreaterThanOrEqual(0.4 * gearset.ringOuterDiameter);
    }
  });

  test.each(FLANKS)('%s pattern at the reference film is believable', (flank) => {
    const patch = solved(id, {}, REFERENCE_FILM)[flank];
    expect(patch.length).toBeGreaterThanOrEqual(0.45);
    expect(patch.length).toBeLessThanOrEqual(0.6);
    expect(patch.transmissionError).toBeGreaterThanOrEqual(20);
    expect(patch.transmissionError).toBeLessThanOrEqual(100);
    expect(patch.edges).toEqual([]);
    expect(Math.abs(patch.rootFace ?? 9)).toBeLessThan(0.25);
    if (flank === 'drive') {
      expect(patch.toeHeel).toBeLessThan(-0.03);
      expect(patch.toeHeel).toBeGreaterThan(-0.2);
    } else {
      expect(Math.abs(patch.toeHeel ?? 9)).toBeLessThan(0.15);
    }
    expect(patch.contactRatio).toBeGreaterThan(1);
    expect(patch.gapShare).toBe(0);
  });

  test.each(FLANKS)('%s pattern at the axle’s own film is clear of every edge', (flank) => {
    expect(film_mm).toBeGreaterThanOrEqual(0.01);
    expect(film_mm).toBeLessThanOrEqual(0.014);
    expect(solved(id, {}, film_mm)[flank].edges).toEqual([]);
  });

  test('moves as the direction table says', () => {
    for (const film of [REFERENCE_FILM, film_mm]) {
      const design = solved(id, {}, film);
      const move = (pose: Partial<Pose>, flank: 'drive' | 'coast') => {
        const moved = solved(id, pose, film)[flank];
        const of = (key: 'toeHeel' | 'rootFace') =>
          (moved[key] ?? Number.NaN) - (design[flank][key] ?? Number.NaN);
        return { along: way(of('toeHeel')), up: of('rootFace') };
      };
      const out = { drive: move({ pinionIn: -MOVE }, 'drive'), coast: move({ pinionIn: -MOVE }, 'coast') };
      const ringIn = { drive: move({ ringAway: -MOVE }, 'drive'), coast: move({ ringAway: -MOVE }, 'coast') };
      expect(out.drive.up).toBeGreaterThan(0);
      expect(out.coast.up).toBeGreaterThan(0);
      expect(ringIn.drive.up).toBeLessThan(0);
      expect(ringIn.coast.up).toBeLessThan(0);
      expect(ringIn.drive.along).toBe('toe');
      if (gearset.cut.method === 'face-milled') {
        expect(out.drive.along).toBe('heel');
        expect(out.coast.along).toBe('toe');
        expect(ringIn.coast.along).toBe('neutral');
      } else {
        expect(['toe', 'neutral']).toContain(out.drive.along);
        expect(out.coast.along).toBe('heel');
        expect(['heel', 'neutral']).toContain(ringIn.coast.along);
      }
    }
  });

  test('design backlash is in the middle part of the limits, read as they say', () => {
    const { normal, tangential } = solved(id, {}, REFERENCE_FILM).backlash;
    expect(normal).toBeCloseTo(gearset.backlash, 3);
    const reading = limits.backlash.reads === 'square' ? normal : tangential;
    const span = limits.backlash.max - limits.backlash.min;
    expect(reading).toBeGreaterThan(limits.backlash.min + 0.2 * span);
    expect(reading).toBeLessThan(limits.backlash.max - 0.2 * span);
  });

  test('what is fitted and what the design asks for can be made from the stock', () => {
    const makes = (stock: ShimStock, total: number) =>
      expect(nearestTotal(stock, total)).toBeCloseTo(total, 6);
    makes(pinionShim.stock, pinionShim.design);
    makes(pinionShim.stock, pinionShim.fitted);
    for (const side of [sides.ringSide, sides.oppositeSide]) {
      if (side.kind === 'adjuster') continue;
      makes(side.stock, side.design);
      makes(side.stock, side.fitted);
    }
    if (spacer.kind === 'solid-spacer') makes(spacer.stock, spacer.fitted);
  });
});

test('the five differ where a lesson needs it', () => {
  const all = AXLE_IDS.map((id) => AXLES[id]);
  expect(new Set(all.map((axle) => axle.pinionShim.place))).toEqual(
    new Set(['head-bearing', 'behind-cup', 'cartridge']),
  );
  expect(new Set(all.map((axle) => axle.gearset.cut.method)).size).toBe(2);
  expect(new Set(all.map((axle) => axle.hand)).size).toBe(2);
  expect(new Set(all.map((axle) => axle.spacer.kind)).size).toBe(2);
  expect(new Set(all.map((axle) => axle.limits.backlash.reads)).size).toBe(2);
  const sideKinds = all.flatMap(({ sides }) => [sides.ringSide.kind, sides.oppositeSide.kind]);
  expect(new Set(sideKinds)).toEqual(new Set(['outboard-shims', 'inboard-shims', 'adjuster']));
  expect(AXLES.dornet).toMatchObject({ hand: 'reverse-cut', pinionShim: { place: 'behind-cup' } });
  expect(AXLES.elspar.pinionShim.place).toBe('cartridge');
  expect(AXLES.borrin).toMatchObject({
    gearset: { cut: { method: 'face-milled' } },
    spacer: { kind: 'crush-sleeve' },
    sides: { ringSide: { kind: 'outboard-shims' }, oppositeSide: { kind: 'outboard-shims' } },
    pinionShim: { place: 'head-bearing' },
  });
  expect(AXLES.cavel).toMatchObject({
    gearset: { cut: { method: 'face-hobbed' } },
    spacer: { kind: 'solid-spacer' },
    sides: { ringSide: { kind: 'adjuster' }, oppositeSide: { kind: 'adjuster' } },
  });
});

test('the defaults of the descriptors are a makeable set', () => {
  const parsed = parseGearSet(defaultsOf(GEAR_SET_FIELDS));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  expect(buildGearMesh(parsed.value).warnings).toEqual([]);
});
