import { solveNormalEquations } from '../math/leastSquares.ts';

/** Terms of a cubic in two variables without its constant: p, q, pp, pq, qq, ppp, ppq, pqq, qqq. */
export const CUBIC_TERMS = 9;

const order = (term: number): number => (term < 2 ? 1 : term < 5 ? 2 : 3);

const fillTerms = (terms: Float64Array, p: number, q: number): void => {
  terms[0] = p;
  terms[1] = q;
  terms[2] = p * p;
  terms[3] = p * q;
  terms[4] = q * q;
  terms[5] = p * p * p;
  terms[6] = p * p * q;
  terms[7] = p * q * q;
  terms[8] = q * q * q;
};

/** One equation of a fit: the two variables and the value there. */
export interface FitSample {
  readonly p: number;
  readonly q: number;
  readonly value: number;
}

/**
 * Least-squares cubic through the origin. Nine coefficients go to `out` at `offset` (layout CUBIC_TERMS); false
 * when the samples do not determine them.
 */
export const fitCubic = (samples: readonly FitSample[], out: Float64Array, offset: number): boolean => {
  const matrix = new Float64Array(CUBIC_TERMS * CUBIC_TERMS);
  const rhs = new Float64Array(CUBIC_TERMS);
  const terms = new Float64Array(CUBIC_TERMS);
  // Unit-sized unknowns keep the normal equations well conditioned.
  let scale = 0;
  for (const { p, q } of samples) scale = Math.max(scale, Math.abs(p), Math.abs(q));
  for (const { p, q, value } of samples) {
    fillTerms(terms, p / scale, q / scale);
    for (let i = 0; i < CUBIC_TERMS; i++) {
      rhs[i] += terms[i] * value;
      for (let j = 0; j <= i; j++) matrix[i * CUBIC_TERMS + j] += terms[i] * terms[j];
    }
  }
  if (!solveNormalEquations(matrix, rhs, CUBIC_TERMS)) return false;
  for (let i = 0; i < CUBIC_TERMS; i++) out[offset + i] = rhs[i] / scale ** order(i);
  return true;
};

/** Value of a fitted cubic. */
export const cubicAt = (data: Float64Array, c: number, p: number, q: number): number =>
  p * (data[c] + p * (data[c + 2] + p * data[c + 5] + q * data[c + 6]) + q * data[c + 3]) +
  q * (data[c + 1] + q * (data[c + 4] + p * data[c + 7] + q * data[c + 8]));
