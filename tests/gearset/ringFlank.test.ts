import { describe, expect, it } from 'vitest';
import { heightAt, heightCoordinate, lengthAlongFace } from '../../sim/gearset/blank.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { wrapAngle } from '../../sim/math/angles.ts';
import {
  add,
  cross,
  dot,
  length,
  scale,
  subtract,
  turnAboutZ,
  unit,
  type Vec3,
} from '../../sim/math/vec3.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import { referenceSet } from '../support/referenceSets.ts';

const meshes = [
  ['set a', buildGearMesh(referenceSet('a'))],
  ['set b', buildGearMesh(referenceSet('b'))],
  ['a random face-milled set (seed 21)', drawMakeableMesh(seededRandom(21), 'face-milled')],
  ['a random face-hobbed set (seed 22)', drawMakeableMesh(seededRandom(22), 'face-hobbed')],
] as const;

describe.each(meshes)('ring flank of %s', (_, mesh) => {
  const { pitch, blank, cutter } = mesh;
  const random = seededRandom(9);
  const places = Array.from(
    { length: 25 },
    () => [random.between(-1.1, 1.1), random.between(-1.2, 1.1)] as const,
  );

  it.each(FLANKS)('%s: flank coordinates come back from the point', (flank) => {
    for (const [u, v] of places) {
      const { point } = mesh.flanks[flank].ring.at(u, v);
      const r = Math.hypot(point[0], point[1]) - pitch.ringRadius;
      const zeta = point[2] - pitch.point[2];
      const l = r * Math.sin(pitch.ringPitchAngle) - zeta * Math.cos(pitch.ringPitchAngle);
      const d = r * Math.cos(pitch.ringPitchAngle) + zeta * Math.sin(pitch.ringPitchAngle);
      expect(l).toBeCloseTo(lengthAlongFace(blank, u), 8);
      expect(d).toBeCloseTo(heightAt(blank, u, v), 8);
      expect(heightCoordinate(blank, u, d)).toBeCloseTo(v, 8);
    }
  });

  it.each(FLANKS)('%s: the normal is square to the surface and of unit length', (flank) => {
    const { ring } = mesh.flanks[flank];
    const h = 1e-5;
    for (const [u, v] of places) {
      const { normal } = ring.at(u, v);
      const alongU = unit(subtract(ring.at(u + h, v).point, ring.at(u - h, v).point));
      const alongV = unit(subtract(ring.at(u, v + h).point, ring.at(u, v - h).point));
      expect(length(normal)).toBeCloseTo(1, 12);
      expect(Math.abs(dot(normal, alongU))).toBeLessThan(1e-7);
      expect(Math.abs(dot(normal, alongV))).toBeLessThan(1e-7);
    }
  });

  it.each(FLANKS)('%s: the normal points out of the tooth, into the slot between the flanks', (flank) => {
    const here = mesh.flanks[flank].ring.at(0, 0);
    const there = mesh.flanks[flank === 'drive' ? 'coast' : 'drive'].ring.at(0, 0);
    expect(dot(here.normal, subtract(there.point, here.point))).toBeGreaterThan(0);
  });

  it('the slot is as wide at the pitch plane as the slot factor says', () => {
    const circumferential = unit(cross([0, 0, 1], pitch.point));
    const wanted = mesh.definition.tooth.slotFactor * Math.PI * blank.normalModule;
    const polar = (p: Vec3) => Math.atan2(p[1], p[0]);
    const drive = mesh.flanks.drive.ring.at(0, heightCoordinate(blank, 0, 0)).point;
    const coast = mesh.flanks.coast.ring.at(0, heightCoordinate(blank, 0, 0)).point;
    const arc = Math.abs(wrapAngle(polar(drive) - polar(coast))) * pitch.ringRadius;
    const square = arc * Math.abs(dot(circumferential, cutter.across));
    // A curved slot met along a straight measure, and a slanted root plane: a few hundredths.
    expect(Math.abs(square / wanted - 1)).toBeLessThan(0.03);
  });
});

describe('face-milled flank in closed form', () => {
  const mesh = buildGearMesh(referenceSet('a'));
  const { cutter } = mesh;

  it.each(FLANKS)('%s lies on the cone of its blade about the cutter axis', (flank) => {
    const random = seededRandom(4);
    const side = flank === 'drive' ? -1 : 1;
    const tangent = Math.tan(cutter.bladeAngle[flank]);
    for (let i = 0; i < 30; i++) {
      const { point } = mesh.flanks[flank].ring.at(random.between(-1, 1), random.between(-1.1, 1));
      const arm = subtract(point, cutter.center);
      const height = dot(arm, cutter.axis);
      const radius = length(subtract(arm, scale(cutter.axis, height)));
      const blade = mesh.definition.cut.cutterRadius + side * (cutter.pointWidth / 2 + height * tangent);
      // The blade edge leans across the slot, which at mid face is the cutter's own radius direction.
      expect(radius).toBeCloseTo(blade, 8);
    }
  });
});

describe('face-hobbed flank in closed form', () => {
  const mesh = buildGearMesh(referenceSet('b'));
  const { cutter } = mesh;

  it.each(FLANKS)('%s: undoing the indexing turn puts every point back on one blade edge', (flank) => {
    const { ring } = mesh.flanks[flank];
    // A point P = Rz(ω − kθ)·[C + Rot(n_f, θ)(blade − C)]: search θ that brings it onto the blade's line.
    const side = flank === 'drive' ? -1 : 1;
    const tangent = Math.tan(cutter.bladeAngle[flank]);
    const circumferential = scale(cross([0, 0, 1], mesh.pitch.point), 1 / mesh.pitch.ringRadius);
    const omega =
      (side * cutter.slotWidth) / 2 / (mesh.pitch.ringRadius * dot(circumferential, cutter.across));
    const turnBack = (v: Vec3, theta: number): Vec3 => {
      const c = Math.cos(-theta);
      const s = Math.sin(-theta);
      const along = dot(v, cutter.axis) * (1 - c);
      const crossed = cross(cutter.axis, v);
      return add(add(scale(v, c), scale(crossed, s)), scale(cutter.axis, along));
    };
    const missAt = (point: Vec3, theta: number): number => {
      const swept = turnAboutZ(point, -(omega - cutter.indexing * theta));
      const blade = add(turnBack(subtract(swept, cutter.center), theta), cutter.center);
      const arm = subtract(blade, cutter.rootPoint);
      const height = dot(arm, cutter.axis);
      const edge = scale(cutter.across, side * (height - mesh.blank.ringDedendum) * tangent);
      return length(subtract(subtract(arm, scale(cutter.axis, height)), edge));
    };
    const random = seededRandom(5);
    for (let i = 0; i < 12; i++) {
      const { point } = ring.at(random.between(-1, 1), random.between(-1, 1));
      let low = -1;
      let high = 1;
      for (let k = 0; k < 120; k++) {
        const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
        if (missAt(point, p) < missAt(point, q)) high = q;
        else low = p;
      }
      expect(missAt(point, 0.5 * (low + high))).toBeLessThan(1e-6);
    }
  });
});
