import { describe, expect, test } from 'vitest';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildOracle, type Oracle } from './bruteForce.ts';
import {
  referenceNumbers,
  referenceSet,
  SETS,
  type SetName,
  seededNumbers,
  withoutEaseOff,
} from './fixtures.ts';
import { PINION_POINT, PinionFlank, pinionTipRadius, RING_POINT } from './geometry.ts';
import { add, cross, dot, norm, scale, sub, turnAboutZ, unit, type Vec3 } from './vector.ts';

const DEG = Math.PI / 180;
const oracles: Record<SetName, Oracle> = {
  a: buildOracle(referenceSet('a')),
  b: buildOracle(referenceSet('b')),
};

const position = (p: Float64Array): Vec3 => [p[0], p[1], p[2]];
const normal = (p: Float64Array): Vec3 => [p[3], p[4], p[5]];

describe.each(SETS)('set %s', (name) => {
  const { definition, pitch, blank, cutter, flanks } = oracles[name];

  test('pitch point: m = R cos β2/(r1 cos β1), tan δ1 tan δ2 = cos(β1−β2), common perpendicular = offset', () => {
    const { ringSpiralAngle: beta2, pinionSpiralAngle: beta1 } = pitch;
    expect(Math.abs(beta1) / DEG).toBeCloseTo(definition.pinionSpiralAngle, 9);
    const ratio = (pitch.ringMeanRadius * Math.cos(beta2)) / (pitch.pinionMeanRadius * Math.cos(beta1));
    expect(ratio).toBeCloseTo(pitch.ratio, 9);
    expect(Math.tan(pitch.pinionPitchAngle) * Math.tan(pitch.ringPitchAngle)).toBeCloseTo(
      Math.cos(beta1 - beta2),
      9,
    );
    // Both pitch cone apexes lie on their axes: ring on z, pinion on the line y = a, z = 0.
    const ringApex = sub(
      pitch.point,
      scale(pitch.ringGeneratrix, pitch.ringMeanRadius / Math.sin(pitch.ringPitchAngle)),
    );
    const pinionApex = sub(
      pitch.point,
      scale(pitch.pinionGeneratrix, pitch.pinionMeanRadius / Math.sin(pitch.pinionPitchAngle)),
    );
    expect(Math.hypot(ringApex[0], ringApex[1])).toBeLessThan(1e-9);
    expect(Math.hypot(pinionApex[1] - definition.offset, pinionApex[2])).toBeLessThan(1e-9);
  });

  test('geometry agrees with the worked numbers', () => {
    const { geometry, meanPoint } = referenceNumbers(name);
    const computed: Record<string, number> = {
      ringPitchAngle: pitch.ringPitchAngle / DEG,
      pinionPitchAngle: pitch.pinionPitchAngle / DEG,
      ringSpiralAngle: pitch.ringSpiralAngle / DEG,
      limitPressureAngle: pitch.limitPressureAngle / DEG,
      ringMeanRadius: pitch.ringMeanRadius,
      pinionMeanRadius: pitch.pinionMeanRadius,
      meanNormalModule: blank.meanNormalModule,
      workingDepth: blank.workingDepth,
      ringAddendum: blank.ringAddendum,
      pinionAddendum: blank.pinionAddendum,
      driveBladeAngle: cutter.driveBladeAngle / DEG,
      coastBladeAngle: cutter.coastBladeAngle / DEG,
      pointWidth: cutter.pointWidth,
      cutterLeadAngle: cutter.leadAngle / DEG,
      limitCurvatureRadius: 1 / pitch.limitCurvature,
    };
    expect(Object.keys(computed).sort()).toEqual(Object.keys(geometry).sort());
    // The worked numbers are rounded to four decimals.
    for (const [key, value] of Object.entries(geometry)) expect(computed[key], key).toBeCloseTo(value, 3.9);
    for (let i = 0; i < 3; i++) expect(pitch.point[i]).toBeCloseTo(meanPoint[i], 3.9);
  });

  describe.each(FLANKS)('%s flank', (flank) => {
    const { ring, pinion, surface } = flanks[flank];
    const seed = new Float64Array(2);
    const at = (theta: number, x: number): Float64Array => {
      const out = new Float64Array(RING_POINT);
      ring.evaluate(theta, x, out);
      return out;
    };
    const places: [number, number][] = [];
    const next = seededNumbers(11);
    for (let i = 0; i < 20; i++) places.push([next(), next()]);

    test('normal: unit, square to both differenced tangents, out of the ring tooth into the slot (seed 11)', () => {
      for (const [u, v] of places) {
        expect(ring.invert(u, v, seed)).toBe(true);
        const [theta, x] = seed;
        const here = at(theta, x);
        const along = unit(sub(position(at(theta + 1e-5, x)), position(at(theta - 1e-5, x))));
        const up = unit(sub(position(at(theta, x + 1e-3)), position(at(theta, x - 1e-3))));
        const n = normal(here);
        expect(norm(n)).toBeCloseTo(1, 12);
        expect(Math.abs(dot(n, along))).toBeLessThan(1e-8);
        expect(Math.abs(dot(n, up))).toBeLessThan(1e-8);
        // A slot opens toward +z, and its two flanks look at each other.
        expect(n[2]).toBeGreaterThan(0);
        const lever = dot(cross([0, 0, 1], position(here)), n);
        expect(Math.sign(lever)).toBe(flank === 'drive' ? -1 : 1);
      }
    });

    test('flank coordinates: inversion returns the asked u, v; borders lie on the blank (seed 11)', () => {
      const uv = new Float64Array(2);
      for (const [u, v] of places) {
        ring.invert(u, v, seed);
        const p = at(seed[0], seed[1]);
        ring.coordinates(p[0], p[1], p[2], uv);
        expect(uv[0]).toBeCloseTo(u, 10);
        expect(uv[1]).toBeCloseTo(v, 10);
      }
      // The middle of the face border lies on the cone through P shifted by the ring addendum.
      ring.invert(0, 1, seed);
      const top = at(seed[0], seed[1]);
      const radius = Math.hypot(top[0], top[1]) - pitch.ringMeanRadius;
      const height = top[2] - pitch.point[2];
      expect(radius).toBeCloseTo(blank.ringAddendum * Math.cos(pitch.ringPitchAngle), 8);
      expect(height).toBeCloseTo(blank.ringAddendum * Math.sin(pitch.ringPitchAngle), 8);
    });

    test('blade sweep: with the indexing undone, every blade point stays on its circle about the cutter (seed 11)', () => {
      const s = flank === 'drive' ? -1 : 1;
      const fixedTurn =
        definition.cut.method === 'face-milled'
          ? 0
          : (s * cutter.halfSlotArc) / (pitch.ringMeanRadius * dot(cutter.circumferential, cutter.across));
      const heightOf = (q: Vec3) => dot(sub(q, cutter.center), cutter.rootNormal);
      const distanceOf = (q: Vec3) => norm(cross(sub(q, cutter.center), cutter.rootNormal));
      for (const [u, v] of places) {
        ring.invert(u, v, seed);
        const [theta, x] = seed;
        const swept = turnAboutZ(position(at(theta, x)), cutter.indexing * theta - fixedTurn);
        const blade = turnAboutZ(position(at(0, x)), -fixedTurn);
        expect(heightOf(swept)).toBeCloseTo(x, 9);
        expect(heightOf(blade)).toBeCloseTo(x, 9);
        expect(distanceOf(swept)).toBeCloseTo(distanceOf(blade), 9);
      }
    });

    test('pinion flank without ease-off: relative velocity in the common tangent plane, normals coincide (seed 11)', () => {
      const plain = new PinionFlank(pitch, ring, withoutEaseOff(definition).easeOff[flank]);
      const out = new Float64Array(PINION_POINT);
      const inSpace = (theta: number, x: number): Vec3 => {
        plain.evaluate(theta, x, out);
        const angle = out[2] + plain.reference;
        return [out[0], definition.offset + out[1] * Math.cos(angle), out[1] * Math.sin(angle)];
      };
      for (const [u, v] of places) {
        ring.invert(u, v, seed);
        const [theta, x] = seed;
        const own = inSpace(theta, x);
        const phi = out[5];
        const ringHere = at(theta, x);
        const met = turnAboutZ(position(ringHere), phi);
        const n = turnAboutZ(normal(ringHere), phi);
        const axis: Vec3 = [0, definition.offset, 0];
        const relative = sub(cross([0, 0, 1], met), scale(cross([1, 0, 0], sub(met, axis)), pitch.ratio));
        expect(Math.abs(dot(relative, n)) / norm(relative)).toBeLessThan(1e-12);
        // The pinion surface, differenced as a surface of its own and turned to the meeting, has the ring's normal.
        const rolled = (p: Vec3): Vec3 => {
          const angle = pitch.ratio * phi;
          const q = sub(p, axis);
          return add(axis, [
            q[0],
            q[1] * Math.cos(angle) - q[2] * Math.sin(angle),
            q[1] * Math.sin(angle) + q[2] * Math.cos(angle),
          ]);
        };
        expect(norm(sub(rolled(own), met))).toBeLessThan(1e-9);
        const along = sub(rolled(inSpace(theta + 1e-5, x)), rolled(inSpace(theta - 1e-5, x)));
        const up = sub(rolled(inSpace(theta, x + 1e-3)), rolled(inSpace(theta, x - 1e-3)));
        const pinionNormal = unit(cross(along, up));
        expect(Math.abs(Math.abs(dot(pinionNormal, n)) - 1)).toBeLessThan(1e-9);
      }
    });

    test('pinion surface: Newton inversion returns the flank point; the screening table is within 1 µm (seed 11)', () => {
      const out = new Float64Array(PINION_POINT);
      for (const [u, v] of places) {
        ring.invert(u, v, seed);
        pinion.evaluate(seed[0], seed[1], out);
        const [axial, rho, psi] = out;
        expect(Math.abs(surface.exact(axial, rho) - psi)).toBeLessThan(1e-10);
        const partner = surface.partner(axial, rho);
        expect(partner?.u).toBeCloseTo(u, 7);
        expect(partner?.v).toBeCloseTo(v, 7);
        expect(Math.abs(surface.table(axial, rho) - psi)).toBeLessThanOrEqual(2.5 * surface.tableError);
        ring.invert(u, v, seed);
        expect(Math.abs(surface.table(axial, rho) - psi) * Math.abs(out[6])).toBeLessThan(1e-3);
      }
    });
  });

  test('pinion tip: no swept point of the working-root cone comes nearer the pinion axis', () => {
    for (const x of [75, 85, 95, 105]) {
      const tip = pinionTipRadius(pitch, blank, x);
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i <= 20000; i++) {
        const l = (i / 10000 - 1) * 0.9 * definition.faceWidth;
        const d = -blank.pinionAddendum - l * Math.tan(blank.workingRootAngle);
        const r =
          pitch.ringMeanRadius + l * Math.sin(pitch.ringPitchAngle) + d * Math.cos(pitch.ringPitchAngle);
        const z = pitch.point[2] - l * Math.cos(pitch.ringPitchAngle) + d * Math.sin(pitch.ringPitchAngle);
        if (r < x) continue;
        const turn = Math.acos(x / r);
        least = Math.min(least, Math.hypot(r * Math.sin(turn) - definition.offset, z));
      }
      expect(tip).toBeLessThanOrEqual(least + 1e-12);
      expect(tip).toBeCloseTo(least, 5);
    }
  });
});

test('reverse-cut: the mirrored set has mirrored flanks and mirrored pinion flanks', () => {
  const set = referenceSet('b');
  const mirrored = buildOracle({ ...set, offset: -set.offset });
  const standard = oracles.b;
  for (const flank of FLANKS) {
    for (const [u, v] of [
      [-0.7, 0.4],
      [0.2, -0.3],
      [0.9, 0.8],
    ]) {
      const p = standard.ringPoint(flank, u, v);
      const q = mirrored.ringPoint(flank, u, v);
      const flip = [1, -1, 1, 1, -1, 1];
      for (let i = 0; i < RING_POINT; i++) expect(q[i]).toBeCloseTo(p[i] * flip[i], 9);
    }
    const x = standard.pitch.point[0] + 2;
    const rho = standard.pitch.pinionMeanRadius + 1;
    expect(mirrored.flanks[flank].surface.exact(x, rho)).toBeCloseTo(
      -standard.flanks[flank].surface.exact(x, rho),
      9,
    );
  }
});
