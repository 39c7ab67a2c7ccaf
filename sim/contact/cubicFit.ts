import { factorNormalEquations, substituteInto } from '../math/leastSquares.ts';

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

/** Where the samples of a fit lie; one fit, any number of value columns. */
export interface FitPlaces {
  readonly p: ArrayLike<number>;
  readonly q: ArrayLike<number>;
}

/**
 * Least-squares cubics through the origin over the same places: nine coefficients per column of values go to `out`
 * from `offset` on, one after the other (layout CUBIC_TERMS); false when the places do not determine them.
 */
export const fitCubics = (
  { p, q }: FitPlaces,
  columns: ReadonlyArray<ArrayLike<number>>,
  out: Float64Array,
  offset: number,
): boolean => {
  const matrix = new Float64Array(CUBIC_TERMS * CUBIC_TERMS);
  const terms = new Float64Array(CUBIC_TERMS);
  const sides = columns.map(() => new Float64Array(CUBIC_TERMS));
  // Unit-sized unknowns keep the normal equations well conditioned.
  let scale = 0;
  for (let k = 0; k < p.length; k++) scale = Math.max(scale, Math.abs(p[k]), Math.abs(q[k]));
  for (let k = 0; k < p.length; k++) {
    fillTerms(terms, p[k] / scale, q[k] / scale);
    for (let i = 0; i < CUBIC_TERMS; i++) {
      for (let c = 0; c < columns.length; c++) sides[c][i] += terms[i] * columns[c][k];
      for (let j = 0; j <= i; j++) matrix[i * CUBIC_TERMS + j] += terms[i] * terms[j];
    }
  }
  if (!factorNormalEquations(matrix, CUBIC_TERMS)) return false;
  sides.forEach((side, c) => {
    substituteInto(matrix, side, CUBIC_TERMS);
    const at = offset + c * CUBIC_TERMS;
    for (let i = 0; i < CUBIC_TERMS; i++) out[at + i] = side[i] / scale ** order(i);
  });
  return true;
};

/** One column of values, sample by sample. */
export const fitCubic = (samples: readonly FitSample[], out: Float64Array, offset: number): boolean =>
  fitCubics(
    { p: samples.map(({ p }) => p), q: samples.map(({ q }) => q) },
    [samples.map(({ value }) => value)],
    out,
    offset,
  );

/** Value of a fitted cubic. */
export const cubicAt = (data: Float64Array, c: number, p: number, q: number): number =>
  p * (data[c] + p * (data[c + 2] + p * data[c + 5] + q * data[c + 6]) + q * data[c + 3]) +
  q * (data[c + 1] + q * (data[c + 4] + p * data[c + 7] + q * data[c + 8]));
