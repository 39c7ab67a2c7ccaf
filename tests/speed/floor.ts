import { seededRandom } from '../support/random.ts';

const CELLS = 32;
const COEFFICIENTS = 16;

/** One bicubic patch look-up: cell by truncation, sixteen coefficients by Horner. */
const bicubic = (table: Float64Array, x: number, y: number): number => {
  const i = x | 0;
  const j = y | 0;
  const s = x - i;
  const t = y - j;
  const c = (j * CELLS + i) * COEFFICIENTS;
  const row0 = table[c] + s * (table[c + 1] + s * (table[c + 2] + s * table[c + 3]));
  const row1 = table[c + 4] + s * (table[c + 5] + s * (table[c + 6] + s * table[c + 7]));
  const row2 = table[c + 8] + s * (table[c + 9] + s * (table[c + 10] + s * table[c + 11]));
  const row3 = table[c + 12] + s * (table[c + 13] + s * (table[c + 14] + s * table[c + 15]));
  return row0 + t * (row1 + t * (row2 + t * row3));
};

/**
 * The arithmetic floor of a solve: per point one acos, two atan2, two square roots and one bicubic look-up, in a bare
 * loop over as many points as two flanks have. Returns a function that runs it once; its result keeps the loop alive.
 */
export const createFloor = (points: number): (() => number) => {
  const random = seededRandom(1);
  const table = Float64Array.from({ length: CELLS * CELLS * COEFFICIENTS }, () => random.between(-1, 1));
  const inputs = Float64Array.from({ length: points * 6 }, (_, k) =>
    k % 6 === 0
      ? random.between(-0.9, 0.9)
      : k % 6 < 4
        ? random.between(0.5, 100)
        : random.between(0, CELLS - 1),
  );
  return () => {
    let sum = 0;
    for (let k = 0; k < inputs.length; k += 6) {
      const a = inputs[k + 1];
      const b = inputs[k + 2];
      const c = inputs[k + 3];
      sum += Math.acos(inputs[k]) + Math.atan2(a, b) + Math.atan2(c, a);
      sum += Math.sqrt(a * a + b * b) + Math.sqrt(b * b + c * c);
      sum += bicubic(table, inputs[k + 4], inputs[k + 5]);
    }
    return sum;
  };
};
