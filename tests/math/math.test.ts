import { describe, expect, it } from 'vitest';
import { wrapAngle } from '../../sim/math/angles.ts';
import { solveNormalEquations } from '../../sim/math/leastSquares.ts';
import { bisect, minimize } from '../../sim/math/roots.ts';
import { dot, turnAbout, turnAboutZ } from '../../sim/math/vec3.ts';
import { seededRandom } from '../support/random.ts';

describe('math', () => {
  it('bisect finds a root and says so, and says when there is none', () => {
    const found = bisect((x) => x * x - 2, 0, 2);
    expect(found.converged).toBe(true);
    expect(found.root).toBeCloseTo(Math.SQRT2, 12);
    const none = bisect((x) => x * x + 1, -1, 2);
    expect(none.converged).toBe(false);
    expect(none.residual).toBe(2);
    expect(bisect((x) => x - 1, 1, 3)).toMatchObject({ converged: true, root: 1, iterations: 0 });
  });

  it('bisect is capped', () => {
    const { iterations } = bisect((x) => x - Math.PI, 0, 10, 0, 20);
    expect(iterations).toBe(20);
  });

  it('minimize closes in on the floor of a valley', () => {
    expect(minimize((x) => (x - 0.3) ** 2, -1, 2)).toBeCloseTo(0.3, 7);
  });

  it('wrapAngle keeps angles in (−π, π] (seed 1)', () => {
    const random = seededRandom(1);
    for (let i = 0; i < 200; i++) {
      const angle = random.between(-40, 40);
      const wrapped = wrapAngle(angle);
      expect(wrapped).toBeGreaterThan(-Math.PI);
      expect(wrapped).toBeLessThanOrEqual(Math.PI);
      expect(Math.cos(wrapped - angle)).toBeCloseTo(1, 10);
    }
    expect(wrapAngle(-Math.PI)).toBe(Math.PI);
  });

  it('normal equations: solves what it built, refuses what is singular (seed 2)', () => {
    const random = seededRandom(2);
    const n = 4;
    const wanted = Array.from({ length: n }, () => random.between(-1, 1));
    const rows = Array.from({ length: 9 }, () => wanted.map(() => random.between(-1, 1)));
    const matrix = new Float64Array(n * n);
    const rhs = new Float64Array(n);
    for (const row of rows) {
      const value = row.reduce((sum, x, i) => sum + x * wanted[i], 0);
      for (let i = 0; i < n; i++) {
        rhs[i] += row[i] * value;
        for (let j = 0; j < n; j++) matrix[i * n + j] += row[i] * row[j];
      }
    }
    expect(solveNormalEquations(matrix, rhs, n)).toBe(true);
    wanted.forEach((x, i) => {
      expect(rhs[i]).toBeCloseTo(x, 9);
    });
    expect(solveNormalEquations(new Float64Array(4), new Float64Array(2), 2)).toBe(false);
  });

  it('turns about an axis keep length and agree about z', () => {
    const turned = turnAbout([1, 2, 3], [0, 0, 1], 0.7);
    turnAboutZ([1, 2, 3], 0.7).forEach((x, i) => {
      expect(turned[i]).toBeCloseTo(x, 12);
    });
    const general = turnAbout([1, 2, 3], [0.6, 0, 0.8], 2);
    expect(dot(general, general)).toBeCloseTo(14, 12);
  });
});
