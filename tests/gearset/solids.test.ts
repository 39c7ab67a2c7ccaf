import { describe, expect, it } from 'vitest';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { buildGearSolids } from '../../sim/gearset/buildSolids.ts';
import { FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { type MemberSolid, SURFACE_KINDS, type TriangleMesh } from '../../sim/gearset/solids.ts';
import { wrapAngle } from '../../sim/math/angles.ts';
import { cross, dot, subtract, type Vec3 } from '../../sim/math/vec3.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import { referenceSet } from '../support/referenceSets.ts';

const SETS: ReadonlyArray<readonly [string, GearSetDefinition]> = [
  ['set a', referenceSet('a')],
  ['set b', referenceSet('b')],
  ['a random face-milled set (seed 60)', drawMakeableMesh(seededRandom(60), 'face-milled').definition],
  ['a random face-hobbed set (seed 61)', drawMakeableMesh(seededRandom(61), 'face-hobbed').definition],
];

const pointOf = (array: Float32Array, vertex: number): Vec3 => [
  array[3 * vertex],
  array[3 * vertex + 1],
  array[3 * vertex + 2],
];

const triangles = (solid: MemberSolid): number =>
  (solid.sector.indices.length / 3) * solid.count + solid.body.indices.length / 3;

/** Share of triangles whose winding agrees with their vertices' normals. */
const windingAgreement = ({ positions, normals, indices }: TriangleMesh): number => {
  let agree = 0;
  let counted = 0;
  for (let k = 0; k < indices.length; k += 3) {
    const [a, b, c] = [0, 1, 2].map((i) => pointOf(positions, indices[k + i]));
    const face = cross(subtract(b, a), subtract(c, a));
    if (dot(face, face) < 1e-12) continue;
    counted++;
    if (dot(face, pointOf(normals, indices[k])) > 0) agree++;
  }
  return agree / counted;
};

describe.each(SETS)('drawable solids of %s', (_, definition) => {
  const mesh = buildGearMesh(definition);
  const solver = new MeshSolver(mesh);
  const full = buildGearSolids(mesh, solver.pinionThinning, 'full');
  const reduced = buildGearSolids(mesh, solver.pinionThinning, 'reduced');

  it('has every tooth and stays within the budgets of both detail levels', () => {
    expect(full.ring.count).toBe(definition.ringTeeth);
    expect(full.pinion.count).toBe(definition.pinionTeeth);
    expect(triangles(full.ring) + triangles(full.pinion)).toBeLessThanOrEqual(118_000);
    expect(triangles(reduced.ring) + triangles(reduced.pinion)).toBeLessThanOrEqual(34_000);
  });

  it('has finite unit normals and consistent winding everywhere', () => {
    for (const member of [full.ring, full.pinion, reduced.ring, reduced.pinion]) {
      for (const part of [member.sector, member.body]) {
        expect(part.positions.every(Number.isFinite)).toBe(true);
        for (let i = 0; i < part.surfaceKind.length; i++) {
          const normal = pointOf(part.normals, i);
          expect(Math.abs(dot(normal, normal) - 1)).toBeLessThan(1e-4);
        }
        expect(windingAgreement(part)).toBeGreaterThan(0.99);
      }
    }
  });

  it.each(FLANKS)('ring %s: drawn vertices lie on the solver flank they claim', (flank) => {
    const { sector } = full.ring;
    const { ring } = mesh.flanks[flank];
    const kind = SURFACE_KINDS.indexOf(flank);
    const pitch = (2 * Math.PI) / definition.ringTeeth;
    let seen = 0;
    for (let i = 0; i < sector.surfaceKind.length; i++) {
      if (sector.surfaceKind[i] !== kind) continue;
      seen++;
      const drawn = pointOf(sector.positions, i);
      const { point, normal } = ring.at(sector.flankUv[2 * i], sector.flankUv[2 * i + 1]);
      expect(Math.hypot(drawn[0], drawn[1])).toBeCloseTo(Math.hypot(point[0], point[1]), 3);
      expect(drawn[2]).toBeCloseTo(point[2], 3);
      const turn = wrapAngle(Math.atan2(drawn[1], drawn[0]) - Math.atan2(point[1], point[0]));
      // The coast side of the tooth is the coast flank of the next slot.
      const turns = turn / pitch;
      expect(Math.abs(turns - Math.round(turns))).toBeLessThan(1e-4);
      const seenNormal = pointOf(sector.normals, i);
      const c = Math.cos(turn);
      const s = Math.sin(turn);
      const turned: Vec3 = [normal[0] * c - normal[1] * s, normal[0] * s + normal[1] * c, normal[2]];
      expect(dot(turned, seenNormal)).toBeGreaterThan(0.97);
    }
    expect(seen).toBeGreaterThan(50);
  });

  it.each(FLANKS)('pinion %s: drawn vertices lie on the conjugate flank', (flank) => {
    const { sector } = full.pinion;
    const { pinion } = mesh.flanks[flank];
    const kind = SURFACE_KINDS.indexOf(flank);
    const lever = mesh.flanks.drive.pinion.partner(0, 0)?.lever ?? Number.NaN;
    const thinned = flank === 'coast' ? -Math.sign(lever) * solver.pinionThinning : 0;
    let onFlank = 0;
    for (let i = 0; i < sector.surfaceKind.length; i++) {
      if (sector.surfaceKind[i] !== kind) continue;
      const [u, v] = [sector.flankUv[2 * i], sector.flankUv[2 * i + 1]];
      if (Math.abs(u) > 1 || Math.abs(v) > 1) continue;
      const partner = pinion.partner(u, v);
      expect(partner).not.toBeNull();
      if (!partner) continue;
      const drawn = pointOf(sector.positions, i);
      const radius = Math.hypot(drawn[1], drawn[2]);
      if (Math.abs(radius - partner.radius) > 1e-3) continue;
      onFlank++;
      expect(Math.abs(drawn[0] - partner.axial)).toBeLessThan(2e-3);
      const angle = Math.atan2(drawn[2], drawn[1]);
      expect(Math.abs(wrapAngle(angle - partner.flankPolar - thinned)) * radius).toBeLessThan(2e-3);
    }
    expect(onFlank).toBeGreaterThan(40);
  });
});
