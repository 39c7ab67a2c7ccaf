import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { explainPinionShim, explainSides } from '../../sim/assembly/explain.ts';
import { poseOfFitment } from '../../sim/assembly/fitment.ts';
import { fittedAtDesign, fittedNow, type PinionShimPlace } from '../../sim/assembly/hardware.ts';
import { pinionInFromShim, pinionPreloadEffect } from '../../sim/assembly/pinionDepth.ts';
import {
  preloadChange,
  realSidesForRingAway,
  ringAwayFromSides,
  sidesForRingAway,
  travelOfNotches,
} from '../../sim/assembly/sides.ts';
import { adjuster, hardware, sideShims } from './hardware.ts';

const SEED = 20262;
const PLACES: readonly PinionShimPlace[] = ['head-bearing', 'behind-cup', 'cartridge'];
const mm = (limit: number) => fc.double({ min: -limit, max: limit, noNaN: true });
const place = fc.constantFrom(...PLACES);

const SIDE_PAIRS = [
  ['shims both sides', sideShims(1.7), sideShims(2.06)],
  ['adjusters both sides', adjuster(1.5, 22), adjuster(1.5, 22)],
  ['adjusters of unlike thread', adjuster(2, 20), adjuster(1.5, 18)],
  ['shim ring side, adjuster opposite', sideShims(1.7), adjuster(1.5, 22)],
  ['adjuster ring side, shim opposite', adjuster(1.5, 22), sideShims(1.7)],
] as const;

describe('pinion shim', () => {
  test.each([
    ['head-bearing', 0.05],
    ['behind-cup', 0.05],
    ['cartridge', -0.05],
  ] as const)('%s: 0.05 mm thicker gives pinionIn %d', (where, pinionIn) => {
    expect(pinionInFromShim(hardware(where).pinionShim, 1.15)).toBeCloseTo(pinionIn, 12);
  });

  test('only a shim behind the cup with a solid spacer changes preload, one for one, and the spacer stack with it', () => {
    const solid = hardware('behind-cup').spacer;
    const sleeve = { kind: 'crush-sleeve' } as const;
    expect(pinionPreloadEffect('behind-cup', solid, 0.05)).toEqual({
      preloadInterference: 0.05,
      spacerChange: 0.05,
      newCrushSleeve: false,
    });
    expect(pinionPreloadEffect('behind-cup', solid, -0.03).spacerChange).toBe(-0.03);
    for (const where of ['head-bearing', 'cartridge'] as const) {
      expect(pinionPreloadEffect(where, solid, 0.05)).toEqual({
        preloadInterference: 0,
        spacerChange: 0,
        newCrushSleeve: false,
      });
    }
    expect(pinionPreloadEffect('head-bearing', sleeve, 0.05).newCrushSleeve).toBe(true);
    expect(pinionPreloadEffect('behind-cup', sleeve, 0.05).newCrushSleeve).toBe(true);
    expect(pinionPreloadEffect('cartridge', sleeve, 0.05).newCrushSleeve).toBe(false);
    expect(pinionPreloadEffect('head-bearing', sleeve, 0).newCrushSleeve).toBe(false);
  });
});

describe('sides', () => {
  test('0.10 mm moved from the opposite side to the ring side brings the ring 0.10 mm in', () => {
    const { sides } = hardware('head-bearing');
    expect(ringAwayFromSides(sides, { ringSide: 1.8, oppositeSide: 1.96 })).toBeCloseTo(-0.1, 12);
    expect(preloadChange(sides, { ringSide: 1.8, oppositeSide: 1.96 })).toBeCloseTo(0, 12);
  });

  test('0.06 mm added to both sides leaves the ring and adds 0.12 mm of squeeze', () => {
    const { sides } = hardware('head-bearing');
    expect(ringAwayFromSides(sides, { ringSide: 1.76, oppositeSide: 2.12 })).toBeCloseTo(0, 12);
    expect(preloadChange(sides, { ringSide: 1.76, oppositeSide: 2.12 })).toBeCloseTo(0.12, 12);
  });

  test('adjuster travel is pitch × notches / notches per turn', () => {
    expect(travelOfNotches({ pitch: 1.5, notchesPerTurn: 22 }, 11)).toBeCloseTo(0.75, 12);
    const { sides } = hardware('head-bearing', adjuster(1.5, 20), adjuster(1.5, 20));
    expect(ringAwayFromSides(sides, { ringSide: 61, oppositeSide: 59 })).toBeCloseTo(-0.075, 12);
  });
});

describe('shims and pose', () => {
  test('the design fitment is the design pose', () => {
    for (const where of PLACES) {
      for (const [, ring, opposite] of SIDE_PAIRS) {
        const parts = hardware(where, ring, opposite);
        expect(poseOfFitment(parts, fittedAtDesign(parts))).toEqual({
          pinionIn: 0,
          ringAway: 0,
          offsetError: 0,
          shaftAngleError: 0,
        });
        expect(fittedNow(parts)).toEqual(fittedAtDesign(parts));
      }
    }
  });

  test.each(SIDE_PAIRS)(
    `%s: exact sides for a place of the ring give that place and preload (seed ${SEED})`,
    (_, ring, opposite) => {
      fc.assert(
        fc.property(mm(1), mm(0.2), (ringAway, preload) => {
          const { sides } = hardware('head-bearing', ring, opposite);
          const settings = sidesForRingAway(sides, ringAway, preload);
          expect(ringAwayFromSides(sides, settings)).toBeCloseTo(ringAway, 9);
          expect(preloadChange(sides, settings)).toBeCloseTo(preload, 9);
        }),
        { seed: SEED },
      );
    },
  );

  test.each(SIDE_PAIRS)(
    `%s: real sides land within a step of the place (seed ${SEED})`,
    (_, ring, opposite) => {
      const step = Math.max(
        ...[ring, opposite].map((d) => (d.kind === 'adjuster' ? d.pitch / d.notchesPerTurn : d.stock.step)),
      );
      fc.assert(
        fc.property(mm(0.6), (ringAway) => {
          const { sides } = hardware('head-bearing', ring, opposite);
          const settings = realSidesForRingAway(sides, ringAway, 0);
          expect(Math.abs(ringAwayFromSides(sides, settings) - ringAway)).toBeLessThanOrEqual(step + 1e-9);
          // the second side is made to hold the total
          expect(Math.abs(preloadChange(sides, settings))).toBeLessThanOrEqual(step / 2 + 1e-9);
          for (const [device, setting] of [
            [ring, settings.ringSide],
            [opposite, settings.oppositeSide],
          ] as const) {
            if (device.kind === 'adjuster') expect(Number.isInteger(setting)).toBe(true);
          }
        }),
        { seed: SEED },
      );
    },
  );
});

describe('explanations', () => {
  test('say in words what the pose says in sign', () => {
    expect(explainPinionShim('cartridge', 1.1, 1.15)).toMatchObject({
      change: 'thicker',
      pinionMoves: 'out',
      thickerMovesPinion: 'out',
    });
    expect(explainPinionShim('head-bearing', 1.1, 1.05)).toMatchObject({
      change: 'thinner',
      pinionMoves: 'out',
    });
    expect(explainPinionShim('behind-cup', 0.1 + 0.2, 0.3)).toMatchObject({
      change: 'same',
      amount: 0,
      pinionMoves: 'none',
    });
  });

  test(`agree with the pose for every move (seed ${SEED})`, () => {
    fc.assert(
      fc.property(place, mm(0.3), mm(0.3), mm(0.3), (where, pinion, ring, opposite) => {
        const parts = hardware(where);
        const from = fittedAtDesign(parts);
        const to = {
          pinionShim: from.pinionShim + pinion,
          ringSide: from.ringSide + ring,
          oppositeSide: from.oppositeSide + opposite,
        };
        const pose = poseOfFitment(parts, to);
        const depth = explainPinionShim(where, from.pinionShim, to.pinionShim);
        const sides = explainSides(parts, from, to);
        if (Math.abs(pose.pinionIn) > 1e-8) expect(depth.pinionMoves).toBe(pose.pinionIn > 0 ? 'in' : 'out');
        if (Math.abs(pose.ringAway) > 1e-8) expect(sides.ringMoves).toBe(pose.ringAway > 0 ? 'out' : 'in');
        expect(sides.ringTravel).toBeCloseTo(Math.abs(pose.ringAway), 8);
        expect(sides.preloadAmount).toBeCloseTo(Math.abs(ring + opposite), 8);
      }),
      { seed: SEED },
    );
  });

  test('an adjuster speaks in notches', () => {
    const parts = hardware('head-bearing', adjuster(1.5, 20), adjuster(1.5, 20));
    const from = fittedAtDesign(parts);
    const told = explainSides(parts, from, { ...from, ringSide: 62, oppositeSide: 58 });
    expect(told.ringSide).toMatchObject({ kind: 'adjuster', change: 'thicker', amount: 2 });
    expect(told.ringSide.travel).toBeCloseTo(0.15, 12);
    expect(told).toMatchObject({ ringMoves: 'in', preload: 'same' });
  });
});
