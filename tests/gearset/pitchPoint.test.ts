import { describe, expect, it } from 'vitest';
import { findPitchPoint } from '../../sim/gearset/pitchPoint.ts';
import { RAD_PER_DEG } from '../../sim/math/angles.ts';
import { add, cross, dot, length, scale, subtract, unit, type Vec3 } from '../../sim/math/vec3.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import { referenceSet } from '../support/referenceSets.ts';

describe.each(['face-milled', 'face-hobbed'] as const)(
  'pitch point of random %s sets (seed 33)',
  (method) => {
    const random = seededRandom(33);
    const meshes = Array.from({ length: 15 }, () => drawMakeableMesh(random, method));

    it('keeps the tooth numbers: m = R cos β2 / (r1 cos β1)', () => {
      for (const { pitch } of meshes) {
        const ratio =
          (pitch.ringRadius * Math.cos(pitch.ringSpiralAngle)) /
          (pitch.pinionRadius * Math.cos(pitch.pinionSpiralAngle));
        expect(ratio).toBeCloseTo(pitch.ratio, 9);
      }
    });

    it('keeps the cone angles: tan δ1 · tan δ2 = cos(β1 − β2)', () => {
      for (const { pitch } of meshes) {
        const product = Math.tan(pitch.ringPitchAngle) * Math.tan(pitch.pinionPitchAngle);
        expect(product).toBeCloseTo(Math.cos(pitch.pinionSpiralAngle - pitch.ringSpiralAngle), 9);
      }
    });

    it('keeps the offset: the pitch normal meets both axes, a apart', () => {
      for (const { pitch } of meshes) {
        // From P along n: on the ring axis, and on the pinion axis.
        const toRing = add(pitch.point, scale(pitch.normal, -pitch.point[0] / pitch.normal[0]));
        expect(Math.hypot(toRing[0], toRing[1])).toBeLessThan(1e-6);
        const fromPinion = subtract(pitch.point, [0, pitch.offset, 0]);
        const toPinion = add(pitch.point, scale(pitch.normal, -fromPinion[2] / pitch.normal[2]));
        expect(Math.hypot(toPinion[1] - pitch.offset, toPinion[2])).toBeLessThan(1e-6);
      }
    });

    it('the pitch plane holds both velocities and the asked spiral angle', () => {
      for (const { pitch, definition } of meshes) {
        const v2 = cross([0, 0, 1], pitch.point);
        const v1: Vec3 = scale(cross([1, 0, 0], subtract(pitch.point, [0, pitch.offset, 0])), pitch.ratio);
        expect(Math.abs(dot(unit(v1), pitch.normal))).toBeLessThan(1e-12);
        expect(Math.abs(dot(unit(v2), pitch.normal))).toBeLessThan(1e-12);
        expect(length(pitch.normal)).toBeCloseTo(1, 12);
        expect(pitch.pinionSpiralAngle).toBeCloseTo(definition.pinionSpiralAngle * RAD_PER_DEG, 9);
      }
    });

    it('a face-milled set without a given angle has the cutter as its limit radius', () => {
      for (const { pitch, definition } of meshes) {
        if (definition.cut.method !== 'face-milled') continue;
        expect(1 / pitch.limitCurvature).toBeCloseTo(definition.cut.cutterRadius, 6);
      }
    });
  },
);

describe('a given ring pitch angle', () => {
  it('is taken for a face-milled set too', () => {
    const base = referenceSet('a');
    const pitch = findPitchPoint({
      ...base,
      cut: { method: 'face-milled', cutterRadius: 98, ringPitchAngle: 68 },
    });
    expect(pitch.ringPitchAngle / RAD_PER_DEG).toBeCloseTo(68, 10);
    expect(1 / pitch.limitCurvature).not.toBeCloseTo(98, 1);
  });
});
