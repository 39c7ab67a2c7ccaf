import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ShimStock } from '../../sim/assembly/hardware.ts';
import { nearestTotal, possibleTotals, stackFor, thicknessCount } from '../../sim/assembly/stock.ts';

const SEED = 20263;
const SMALL: ShimStock = { thinnest: 0.9, thickest: 1, step: 0.05, mostStacked: 2 };

/** Every total by trying every stack: the plain way, for small stocks. */
function everyTotal(stock: ShimStock): number[] {
  const single = Array.from({ length: thicknessCount(stock) }, (_, i) => stock.thinnest + i * stock.step);
  let stacks = [0];
  const totals = new Set<string>();
  for (let pieces = 1; pieces <= stock.mostStacked; pieces++) {
    stacks = [...new Set(stacks.flatMap((sum) => single.map((t) => (sum + t).toFixed(6))))].map(Number);
    for (const sum of stacks) totals.add(sum.toFixed(6));
  }
  return [...totals].map(Number).sort((a, b) => a - b);
}

const stock = fc
  .record({
    thinnest: fc.integer({ min: 20, max: 300 }),
    shims: fc.integer({ min: 1, max: 9 }),
    step: fc.integer({ min: 1, max: 12 }),
    mostStacked: fc.integer({ min: 1, max: 4 }),
  })
  .map(({ thinnest, shims, step, mostStacked }) => ({
    thinnest: thinnest / 100,
    thickest: (thinnest + (shims - 1) * step) / 100,
    step: step / 100,
    mostStacked,
  }));

describe('what a stock can make', () => {
  test('a range and a stack of two', () => {
    expect(thicknessCount(SMALL)).toBe(3);
    expect(possibleTotals(SMALL, 0, 10)).toEqual([0.9, 0.95, 1, 1.8, 1.85, 1.9, 1.95, 2]);
    expect(possibleTotals(SMALL, 0.95, 1.8)).toEqual([0.95, 1, 1.8]);
    expect(nearestTotal(SMALL, 1.3)).toBe(1);
    expect(nearestTotal(SMALL, 1.6)).toBe(1.8);
    expect(nearestTotal(SMALL, 0)).toBe(0.9);
    expect(nearestTotal(SMALL, 50)).toBe(2);
    expect(nearestTotal(SMALL, 0.925)).toBe(0.9);
    expect(stackFor(SMALL, 1.95)).toEqual([1, 0.95]);
    expect(stackFor(SMALL, 0.95)).toEqual([0.95]);
    expect(stackFor(SMALL, 1.4)).toBeNull();
  });

  test(`agrees with trying every stack (seed ${SEED})`, () => {
    fc.assert(
      fc.property(stock, fc.integer({ min: 0, max: 2000 }), (shims, target) => {
        const totals = everyTotal(shims);
        const wanted = target / 100 + 0.003;
        const byTrying = Math.min(...totals.map((total) => Math.abs(total - wanted)));
        expect(possibleTotals(shims, 0, 100)).toEqual(totals.map((t) => expect.closeTo(t, 6)));
        expect(Math.abs(nearestTotal(shims, wanted) - wanted)).toBeCloseTo(byTrying, 6);
      }),
      { seed: SEED },
    );
  });

  test(`a stack is made of shims of the stock and adds up (seed ${SEED})`, () => {
    fc.assert(
      fc.property(stock, fc.nat(), (shims, pick) => {
        const totals = possibleTotals(shims, 0, 100);
        const total = totals[pick % totals.length];
        const stack = stackFor(shims, total);
        expect(stack).not.toBeNull();
        expect(stack!.length).toBeLessThanOrEqual(shims.mostStacked);
        expect(stack!.reduce((sum, t) => sum + t, 0)).toBeCloseTo(total, 6);
        for (const t of stack!) {
          expect(t).toBeGreaterThanOrEqual(shims.thinnest - 1e-6);
          expect(t).toBeLessThanOrEqual(shims.thickest + 1e-6);
          const steps = (t - shims.thinnest) / shims.step;
          expect(steps).toBeCloseTo(Math.round(steps), 4);
        }
      }),
      { seed: SEED },
    );
  });
});
