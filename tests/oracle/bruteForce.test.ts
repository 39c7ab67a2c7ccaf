import { describe, expect, test } from 'vitest';
import { FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import { buildOracle, type Oracle, type OracleMesh } from './bruteForce.ts';
import {
  referenceNumbers,
  referenceSet,
  SETS,
  type SetName,
  seededNumbers,
  withoutEaseOff,
} from './fixtures.ts';

const oracles: Record<SetName, Oracle> = {
  a: buildOracle(referenceSet('a')),
  b: buildOracle(referenceSet('b')),
};
const COARSE = { u: 101, v: 41 };
const SPARSE = { u: 61, v: 31 };

/** Least exact gap over all points of a sparse grid and the pairs that can meet, mm. */
function leastGap(mesh: OracleMesh, flank: FlankName, ringAngle: number, pinionAngle: number): number {
  const { X, Y, Z } = mesh.oracle.points(flank, SPARSE);
  let least = Number.POSITIVE_INFINITY;
  for (let pair = -3; pair <= 3; pair++) {
    for (let k = 0; k < X.length; k++) {
      const gap = mesh.gap(flank, X[k], Y[k], Z[k], pair, ringAngle, pinionAngle);
      if (gap > -0.15 && gap < least) least = gap;
    }
  }
  return least * 20;
}

describe.each(SETS)('set %s', (name) => {
  const oracle = oracles[name];
  const reference = referenceNumbers(name);

  test('without ease-off the design pose rolls exactly and leaves no gap anywhere', () => {
    const mesh = buildOracle(withoutEaseOff(referenceSet(name))).mesh(
      {},
      { points: SPARSE, pinionAngles: 6 },
    );
    for (const flank of FLANKS) {
      const error = mesh.motionError(flank);
      // All points of a contact line touch at once here, so the touch is sharp to 10 nm only.
      for (const value of error) expect(Math.abs(value - error[0])).toBeLessThan(1e-7);
      for (const [u, v] of [
        [-0.8, 0.3],
        [0, 0],
        [0.5, 0.8],
        [0.9, -0.2],
      ]) {
        const rolled = mesh.rolledGap(flank, u, v);
        expect(Math.abs(rolled?.separation ?? Number.NaN)).toBeLessThan(1e-5);
      }
    }
    const { normal, normalRange } = mesh.backlash();
    expect(normal).toBeCloseTo(oracle.definition.backlash, 5);
    expect(normalRange).toBeLessThan(1e-5);
  });

  test('first touch: nothing interferes, and a µrad further everything that touched does', () => {
    const mesh = oracle.mesh({ pinionIn: 0.06, ringAway: -0.03 }, { points: COARSE, pinionAngles: 5 });
    for (const flank of FLANKS) {
      const toward = oracle.flanks[flank].sign;
      for (const touch of mesh.touches(flank)) {
        expect(touch).not.toBeNull();
        if (!touch) continue;
        const here = leastGap(mesh, flank, touch.ringAngle, touch.pinionAngle);
        expect(here).toBeGreaterThan(-1e-7);
        // Half a µm is what a sparse grid may miss beside the touching point.
        expect(here).toBeLessThan(5e-4);
        const point = oracle.ringPoint(flank, touch.u, touch.v);
        const at = (turn: number) =>
          mesh.gap(
            flank,
            point[0],
            point[1],
            point[2],
            touch.pair,
            touch.ringAngle + turn,
            touch.pinionAngle,
          );
        expect(Math.abs(at(0))).toBeLessThan(1e-8);
        expect(at(1e-6 * toward)).toBeLessThan(-1e-6);
        expect(at(-1e-6 * toward)).toBeGreaterThan(1e-6);
      }
    }
  });

  test('screening by table changes nothing against inverting every point', () => {
    const pose = { pinionIn: -0.12, ringAway: 0.05, offsetError: 0.02, shaftAngleError: 0.01 };
    const options = { points: SPARSE, pinionAngles: 4 };
    const screened = oracle.mesh(pose, options);
    const plain = oracle.mesh(pose, { ...options, screened: false });
    for (const flank of FLANKS) {
      screened.touches(flank).forEach((touch, k) => {
        expect(touch?.pair).toBe(plain.touches(flank)[k]?.pair);
        expect(touch?.ringAngle).toBeCloseTo(plain.touches(flank)[k]?.ringAngle ?? Number.NaN, 12);
      });
    }
  });

  test('the touch does not depend on how dense the points are', () => {
    const pose = { pinionIn: 0.08 };
    const dense = oracle.mesh(pose, { pinionAngles: 6 });
    const coarse = oracle.mesh(pose, { points: COARSE, pinionAngles: 6 });
    for (const flank of FLANKS) {
      dense.touches(flank).forEach((touch, k) => {
        const other = coarse.touches(flank)[k];
        expect(touch?.border).toBeNull();
        // 1e-9 rad of ring angle is 0.0001 µm at the teeth.
        expect(Math.abs((touch?.ringAngle ?? Number.NaN) - (other?.ringAngle ?? Number.NaN))).toBeLessThan(
          1e-9,
        );
      });
    }
  });

  test.each(reference.poses.map((entry) => [JSON.stringify(entry.pose), entry] as const))(
    'worked numbers, pose %s',
    (_, entry) => {
      const mesh = oracle.mesh(entry.pose, { points: COARSE });
      const backlash = mesh.backlash();
      expect(Math.abs(backlash.normal - entry.backlash.normal)).toBeLessThan(5e-4);
      expect(Math.abs(backlash.normalMean - entry.backlash.normalMean)).toBeLessThan(5e-4);
      expect(Math.abs(backlash.normalRange - entry.backlash.normalRange)).toBeLessThan(2e-3);
      expect(Math.abs(backlash.tangential - entry.backlash.tangential)).toBeLessThan(8e-4);
      expect(Math.abs(backlash.angleDeg - entry.backlash.angle)).toBeLessThan(5e-4);
      for (const flank of FLANKS) {
        const microradians = mesh.transmissionError(flank) * 1e6;
        expect(Math.abs(microradians - entry[flank].transmissionError)).toBeLessThan(3);
      }
    },
  );

  test.each(FLANKS)(
    'the field of rolled gaps of the %s flank gives the worked patch (pinion 0.1 mm in)',
    (flank) => {
      const entry = reference.poses[1];
      expect(entry.pose).toEqual({ pinionIn: 0.1 });
      const mesh = oracle.mesh(entry.pose, { points: COARSE });
      const columns = 33;
      const rows = 17;
      let marked = 0;
      let sumU = 0;
      let sumV = 0;
      for (let i = 0; i < columns; i++) {
        for (let j = 0; j < rows; j++) {
          const u = -1 + (2 * (i + 0.5)) / columns;
          const v = -1 + (2 * (j + 0.5)) / rows;
          const rolled = mesh.rolledGap(flank, u, v);
          // A pass that the pinion's tip cuts short has no meeting of the surfaces to speak of.
          if (!rolled?.stationary) continue;
          // At the pinion's tip the touch is found no finer than the points lie.
          expect(rolled.separation).toBeGreaterThan(rolled.heldBy.border ? -2e-4 : -1e-6);
          if (rolled.separation > 0.00635) continue;
          marked++;
          sumU += u;
          sumV += v;
        }
      }
      expect(Math.abs(sumU / marked - entry[flank].toeHeel)).toBeLessThan(0.02);
      expect(Math.abs(sumV / marked - entry[flank].rootFace)).toBeLessThan(0.02);
      expect(Math.abs(marked / (columns * rows) - entry[flank].area)).toBeLessThan(0.015);
    },
  );

  test('a rolled gap is the least over densely searched pinion angles (seed 3)', () => {
    const mesh = oracle.mesh({ pinionIn: 0.1, ringAway: 0.05 }, { points: COARSE });
    const next = seededNumbers(3);
    for (const flank of FLANKS) {
      for (let n = 0; n < 3; n++) {
        const u = 0.6 * next();
        const v = 0.2 + 0.5 * next();
        const rolled = mesh.rolledGap(flank, u, v);
        expect(rolled?.stationary).toBe(true);
        if (!rolled) continue;
        const [X, Y, Z, Nx, Ny] = oracle.ringPoint(flank, u, v);
        const lever = Math.abs(X * Ny - Y * Nx) / oracle.pitch.ratio;
        let least = Number.POSITIVE_INFINITY;
        for (let k = -40; k <= 40; k++) {
          const angle = rolled.pinionAngle + k * 1e-3;
          const pitches = Math.floor(angle / oracle.pinionPitch);
          const touch = mesh.touch(flank, angle - pitches * oracle.pinionPitch);
          if (!touch) continue;
          const ring = touch.ringAngle + pitches * oracle.ringPitch;
          least = Math.min(least, mesh.gap(flank, X, Y, Z, 0, ring, angle) * lever);
        }
        expect(rolled.separation).toBeGreaterThan(least - 1e-9);
        expect(rolled.separation).toBeLessThan(least + 5e-5);
      }
    }
  });
});

test('reverse-cut: the mirrored set in the mirrored pose meshes alike', () => {
  const set = referenceSet('a');
  const mirrored = buildOracle({ ...set, offset: -set.offset });
  const pose = { pinionIn: 0.07, ringAway: 0.04, offsetError: 0.05 };
  const options = { points: COARSE, pinionAngles: 8 };
  const standard = oracles.a.mesh(pose, options);
  const reverse = mirrored.mesh({ ...pose, offsetError: -0.05 }, options);
  expect(reverse.backlash().normalMean).toBeCloseTo(standard.backlash().normalMean, 6);
  for (const flank of FLANKS) {
    const forward = standard.touches(flank);
    const backward = reverse.touches(flank);
    for (let k = 0; k < 8; k++) {
      // The mirrored pinion turns the other way: angle k of one is angle −k of the other.
      const twin = backward[(8 - k) % 8];
      const pitches = k === 0 ? 0 : 1;
      const expected = -((twin?.ringAngle ?? Number.NaN) - pitches * mirrored.ringPitch);
      expect(forward[k]?.ringAngle).toBeCloseTo(expected, 9);
      expect(forward[k]?.u).toBeCloseTo(twin?.u ?? Number.NaN, 4);
    }
  }
});

test('a touch on the border is called one: face-hobbed coast, pinion 0.2 mm in, ring 0.15 mm away', () => {
  const mesh = oracles.b.mesh({ pinionIn: 0.2, ringAway: 0.15 }, { points: COARSE });
  const borders = mesh.touches('coast').filter((touch) => touch?.border);
  expect(borders.length).toBeGreaterThan(0);
  expect(mesh.backlash().borderTouches).toBe(
    borders.length + mesh.touches('drive').filter((t) => t?.border).length,
  );
  for (const touch of borders) {
    if (touch?.border === 'tip') continue;
    const place = { toe: touch?.u === -1, heel: touch?.u === 1, face: touch?.v === 1, root: touch?.v === -1 };
    expect(Object.values(place).filter(Boolean).length).toBeGreaterThan(0);
  }
});
