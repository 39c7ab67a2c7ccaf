import { describe, expect, it } from 'vitest';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { EDGES, reportBacklash, reportPatch } from '../../sim/contact/report.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { reportGeometry } from '../../sim/gearset/geometryReport.ts';
import { REFERENCE_FILM, referenceSet, workedNumbers } from '../support/referenceSets.ts';

/** Tolerances of docs/model.md §8. */
const TOLERANCE = { toeHeel: 0.02, rootFace: 0.02, length: 0.03, height: 0.03, area: 0.015 } as const;
const ANGLE = 0.01;
const LENGTH = 0.01;

describe.each(['a', 'b'] as const)('worked numbers of set %s', (name) => {
  const mesh = buildGearMesh(referenceSet(name));
  const worked = workedNumbers(name);

  it('has the geometry', () => {
    const geometry = reportGeometry(mesh) as unknown as Record<string, number | readonly number[]>;
    for (const [field, expected] of Object.entries(worked.geometry)) {
      const tolerance = field.endsWith('Angle') ? ANGLE : LENGTH;
      const [actual, wanted] = [geometry[field], expected].map((x) => [x].flat());
      wanted.forEach((number, i) => {
        expect(Math.abs(Number(actual[i]) - Number(number)), `${field}[${i}]`).toBeLessThan(tolerance);
      });
    }
  });

  const solver = new MeshSolver(mesh);
  const solution = solver.createSolution();
  it.each(worked.poses.map((entry) => [JSON.stringify(entry.pose), entry] as const))(
    'pose %s',
    (_, entry) => {
      solver.solve({ ...DESIGN_POSE, ...entry.pose }, REFERENCE_FILM, solution);
      for (const flank of FLANKS) {
        const patch = reportPatch(solution, flank);
        const wanted = entry[flank];
        for (const [field, tolerance] of Object.entries(TOLERANCE)) {
          const key = field as keyof typeof TOLERANCE;
          expect(Math.abs((patch[key] ?? Number.NaN) - wanted[key]), `${flank}.${field}`).toBeLessThan(
            tolerance,
          );
        }
        const error = Math.abs((patch.transmissionError ?? Number.NaN) - wanted.transmissionError);
        expect(error, `${flank}.transmissionError`).toBeLessThan(
          Math.max(6, 0.05 * wanted.transmissionError),
        );
        expect([...patch.edges], `${flank}.edges`).toEqual(
          EDGES.filter((edge) => wanted.edges.includes(edge)),
        );
      }
      const backlash = reportBacklash(solution);
      for (const field of ['normal', 'normalMean', 'normalRange', 'tangential'] as const) {
        expect(Math.abs((backlash[field] ?? Number.NaN) - entry.backlash[field]), field).toBeLessThan(0.002);
      }
      expect(Math.abs((backlash.angle ?? Number.NaN) - entry.backlash.angle)).toBeLessThan(0.01);
    },
  );
});
