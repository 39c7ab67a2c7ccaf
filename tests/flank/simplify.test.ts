import { describe, expect, it } from 'vitest';
import { keptPoints } from '../../src/flank/simplify.ts';

describe('keptPoints', () => {
  it('keeps only the ends of a straight line and the corner of a bent one', () => {
    expect(keptPoints([0, 1, 2, 3], [0, 1, 2, 3], 0.001)).toEqual([0, 3]);
    expect(keptPoints([0, 1, 2, 3, 4], [0, 0, 0, 1, 2], 0.001)).toEqual([0, 2, 4]);
  });

  it('leaves no point of an ellipse farther from what is drawn than the tolerance, with far fewer points', () => {
    const angles = Array.from({ length: 401 }, (_, i) => (2 * Math.PI * i) / 400);
    const x = angles.map((a) => 12 * Math.cos(a));
    const y = angles.map((a) => 3 * Math.sin(a));
    const tolerance = 0.006;
    const kept = keptPoints(x, y, tolerance);
    expect(kept[0]).toBe(0);
    expect(kept.at(-1)).toBe(400);
    expect(kept.length).toBeLessThan(100);
    let worst = 0;
    for (let k = 0; k + 1 < kept.length; k++) {
      const [from, to] = [kept[k], kept[k + 1]];
      const chord = Math.hypot(x[to] - x[from], y[to] - y[from]);
      for (let i = from; i <= to; i++) {
        const across = (x[to] - x[from]) * (y[i] - y[from]) - (y[to] - y[from]) * (x[i] - x[from]);
        worst = Math.max(worst, Math.abs(across) / chord);
      }
    }
    expect(worst).toBeLessThanOrEqual(tolerance);
    expect(worst).toBeGreaterThan(0);
  });
});
