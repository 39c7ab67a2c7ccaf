import { factorNormalEquations } from '../math/leastSquares.ts';
import type { SeededNumbers } from './chance.ts';

/** Degrees of freedom of the proposal: heavier tails than what it stands for, so that no weight runs away. */
const FREEDOM = 16;

/** No cloud of a mixture is given less than this share: what few draws speak for is not forgotten. */
export const LEAST_SHARE = 0.03;

/** Multivariate t: a place, the Cholesky factor of its spread, and its share in a mixture. */
export interface Cloud {
  readonly middle: Float64Array;
  /** lower triangle, n × n row-major, in own units */
  readonly factor: Float64Array;
  readonly share: number;
  /** ln of the density's constant, share left out */
  readonly constant: number;
}

/** ln Γ(x) by Stirling's series after shifting the argument up; better than 1e-10. */
const lnGamma = (x: number): number => {
  let shift = 0;
  let z = x;
  while (z < 10) {
    shift -= Math.log(z);
    z += 1;
  }
  const inverse = 1 / (z * z);
  return (
    shift +
    (z - 0.5) * Math.log(z) -
    z +
    0.5 * Math.log(2 * Math.PI) +
    (1 / 12 - inverse * (1 / 360 - inverse / 1260)) / z
  );
};

/** Null when `spread` (n × n, lower half read) is no covariance. */
export const createCloud = (middle: Float64Array, spread: Float64Array, share: number): Cloud | null => {
  const n = middle.length;
  const factor = spread.slice();
  if (!factorNormalEquations(factor, n)) return null;
  let lnVolume = 0;
  for (let i = 0; i < n; i++) lnVolume += Math.log(factor[i * n + i]);
  const constant =
    lnGamma((FREEDOM + n) / 2) - lnGamma(FREEDOM / 2) - (n / 2) * Math.log(FREEDOM * Math.PI) - lnVolume;
  return { middle, factor, share, constant };
};

/** Draws into `out` from `at` on. */
export const drawFrom = (
  { middle, factor }: Cloud,
  numbers: SeededNumbers,
  out: Float64Array,
  at: number,
): void => {
  const n = middle.length;
  let chi = 0;
  for (let i = 0; i < FREEDOM; i++) chi += numbers.normal() ** 2;
  const stretch = Math.sqrt(FREEDOM / chi);
  for (let i = 0; i < n; i++) out[at + i] = stretch * numbers.normal();
  // From the last row up, since each row needs only draws before it.
  for (let i = n - 1; i >= 0; i--) {
    let sum = 0;
    for (let k = 0; k <= i; k++) sum += factor[i * n + k] * out[at + k];
    out[at + i] = middle[i] + sum;
  }
};

/** ln density at x (from `at` on), share left out; `scratch` of n. */
export const lnDensity = (
  { middle, factor, constant }: Cloud,
  x: Float64Array,
  at: number,
  scratch: Float64Array,
): number => {
  const n = middle.length;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    let sum = x[at + i] - middle[i];
    for (let k = 0; k < i; k++) sum -= factor[i * n + k] * scratch[k];
    scratch[i] = sum / factor[i * n + i];
    squares += scratch[i] * scratch[i];
  }
  return constant - 0.5 * (FREEDOM + n) * Math.log1p(squares / FREEDOM);
};
