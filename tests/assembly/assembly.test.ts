import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { convertReading, leversOfBacklash } from '../../sim/assembly/dial.ts';
import { explainPinionShim, explainSides } from '../../sim/assembly/explain.ts';
import {
  carrierPreloadChange,
  exactFitmentForPose,
  poseOfFitment,
  realFitmentForPose,
} from '../../sim/assembly/fitment.ts';
import { fittedAtDesign, fittedNow, type PinionShimPlace } from '../../sim/assembly/hardware.ts';
import { pinionInFromShim, pinionPreloadEffect, shimForPinionIn } from '../../sim/assembly/pinionDepth.ts';
import {
  preloadChange,
  ringAwayFromSides,
  transferToRingSide,
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

  test(`shim for a depth gives that depth (seed ${SEED})`, () => {
    fc.assert(
      fc.property(place, mm(2), (where, pinionIn) => {
        const { pinionShim } = hardware(where);
        expect(pinionInFromShim(pinionShim, shimForPinionIn(pinionShim, pinionIn))).toBeCloseTo(pinionIn, 12);
      }),
      { seed: SEED },
    );
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

  test.each(SIDE_PAIRS)(
    `%s: a transfer moves the ring by its amount and keeps the total (seed ${SEED})`,
    (_, ring, opposite) => {
      const { sides } = hardware('head-bearing', ring, opposite);
      fc.assert(
        fc.property(mm(0.5), mm(0.3), mm(0.4), (away, preload, move) => {
          const from = exactFitmentForPose(
            hardware('head-bearing', ring, opposite),
            { pinionIn: 0, ringAway: away },
            preload,
          );
          const to = transferToRingSide(sides, from, move);
          expect(ringAwayFromSides(sides, to)).toBeCloseTo(away - move, 9);
          expect(preloadChange(sides, to)).toBeCloseTo(preload, 9);
        }),
        { seed: SEED },
      );
    },
  );
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
    `%s: exact shims for a pose give that pose and preload (seed ${SEED})`,
    (_, ring, opposite) => {
      fc.assert(
        fc.property(place, mm(1), mm(1), mm(0.2), (where, pinionIn, ringAway, preload) => {
          const parts = hardware(where, ring, opposite);
          const fitment = exactFitmentForPose(parts, { pinionIn, ringAway }, preload);
          const pose = poseOfFitment(parts, fitment);
          expect(pose.pinionIn).toBeCloseTo(pinionIn, 9);
          expect(pose.ringAway).toBeCloseTo(ringAway, 9);
          expect(carrierPreloadChange(parts, fitment)).toBeCloseTo(preload, 9);
        }),
        { seed: SEED },
      );
    },
  );

  test.each(SIDE_PAIRS)(
    `%s: real shims land within a step of the pose (seed ${SEED})`,
    (_, ring, opposite) => {
      const step = Math.max(
        ...[ring, opposite].map((d) => (d.kind === 'adjuster' ? d.pitch / d.notchesPerTurn : d.stock.step)),
      );
      fc.assert(
        fc.property(place, mm(0.45), mm(0.6), (where, pinionIn, ringAway) => {
          const parts = hardware(where, ring, opposite);
          const fitment = realFitmentForPose(parts, { pinionIn, ringAway }, 0);
          const pose = poseOfFitment(parts, fitment);
          expect(Math.abs(pose.pinionIn - pinionIn)).toBeLessThanOrEqual(0.0125 + 1e-9);
          expect(Math.abs(pose.ringAway - ringAway)).toBeLessThanOrEqual(step + 1e-9);
          // the second side is made to hold the total
          expect(Math.abs(carrierPreloadChange(parts, fitment))).toBeLessThanOrEqual(step / 2 + 1e-9);
          for (const [device, setting] of [
            [ring, fitment.ringSide],
            [opposite, fitment.oppositeSide],
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

describe('dial', () => {
  // worked numbers of set a, docs/model.md §8
  const levers = leversOfBacklash({ normal: 0.17, tangential: 0.2121, angle: 0.111 });

  test('square to tangential and back', () => {
    if (levers === null) throw new Error('levers');
    expect(convertReading(levers, 0.17, 'square', 'tangential')).toBeCloseTo(0.2121, 9);
    expect(convertReading(levers, 0.2121, 'tangential', 'square')).toBeCloseTo(0.17, 9);
    expect(convertReading(levers, 0.3, 'square', 'square')).toBe(0.3);
    // the heel radius is a little under half the 221 mm diameter
    expect(levers.tangential).toBeGreaterThan(105);
    expect(levers.tangential).toBeLessThan(110.5);
  });

  test('binding teeth give no levers', () => {
    expect(leversOfBacklash({ normal: 0, tangential: 0, angle: 0 })).toBeNull();
    expect(leversOfBacklash({ normal: Number.NaN, tangential: 0, angle: Number.NaN })).toBeNull();
  });
});
