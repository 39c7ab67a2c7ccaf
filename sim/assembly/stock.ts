import type { ShimStock } from './hardware.ts';

/** Rounds away the binary dust of adding decimal thicknesses: 0.1 nm. */
const tidy = (mm: number): number => Math.round(mm * 1e7) / 1e7 + 0;

/** Number of different thicknesses in the stock. A step larger than the range leaves the thinnest only. */
export const thicknessCount = (stock: ShimStock): number =>
  Math.floor((stock.thickest - stock.thinnest) / stock.step + 1e-6) + 1;

/** Shims that make up `total`, thickest first, as few as possible; null when the stock cannot make it. All mm. */
export function stackFor(stock: ShimStock, total: number): readonly number[] | null {
  const top = thicknessCount(stock) - 1;
  for (let pieces = 1; pieces <= stock.mostStacked; pieces++) {
    const steps = (total - pieces * stock.thinnest) / stock.step;
    const whole = Math.round(steps);
    if (Math.abs(steps - whole) * stock.step > 1e-6 || whole < 0 || whole > pieces * top) continue;
    // Spread the steps evenly, so that no shim is needlessly thin.
    const each = Math.floor(whole / pieces);
    const extra = whole - each * pieces;
    return Array.from({ length: pieces }, (_, i) =>
      tidy(stock.thinnest + (each + (i < extra ? 1 : 0)) * stock.step),
    );
  }
  return null;
}

/** The total nearest to `wanted` (mm) that the stock can make; of two equally near, the thinner. */
export function nearestTotal(stock: ShimStock, wanted: number): number {
  const top = thicknessCount(stock) - 1;
  let best = stock.thinnest;
  for (let pieces = 1; pieces <= stock.mostStacked; pieces++) {
    const least = pieces * stock.thinnest;
    const steps = Math.min(Math.max(Math.ceil((wanted - least) / stock.step - 0.5 - 1e-9), 0), pieces * top);
    const total = tidy(least + steps * stock.step);
    const better = Math.abs(total - wanted) - Math.abs(best - wanted);
    if (better < -1e-9 || (better < 1e-9 && total < best)) best = total;
  }
  return best;
}

/** Every total between `from` and `to` (mm, inclusive) that the stock can make, ascending, none twice. */
export function possibleTotals(stock: ShimStock, from: number, to: number): readonly number[] {
  const top = thicknessCount(stock) - 1;
  const found = new Set<number>();
  for (let pieces = 1; pieces <= stock.mostStacked; pieces++) {
    const least = pieces * stock.thinnest;
    const first = Math.max(0, Math.ceil((from - least) / stock.step - 1e-6));
    const last = Math.min(pieces * top, Math.floor((to - least) / stock.step + 1e-6));
    for (let steps = first; steps <= last; steps++) found.add(tidy(least + steps * stock.step));
  }
  return [...found].sort((a, b) => a - b);
}
