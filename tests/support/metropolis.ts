import { factorNormalEquations } from '../../sim/math/leastSquares.ts';
import type { Random } from './random.ts';
import { normal } from './virtualLooks.ts';

export interface Chain {
  /** every place the chain stood at after the start was forgotten, one after another */
  readonly places: readonly Float64Array[];
}

/** Steps over which the chain learns how far to step, and forgets where it began. */
const LEARNING = 2400;
/** Share of steps that should be taken in many unknowns. */
const ACCEPTED = 0.25;

/**
 * Random walk after Metropolis with steps of the chain's own covariance: knows nothing of modes or clouds, needs very many
 * steps and is right in the end, whatever the shape.
 * @param lnDensity up to a constant
 * @param scale first guess of the standard deviations
 */
export const walkChain = (
  lnDensity: (x: Float64Array) => number,
  start: Float64Array,
  scale: Float64Array,
  steps: number,
  random: Random,
): Chain => {
  const n = start.length;
  let factor: Float64Array = new Float64Array(n * n);
  for (let i = 0; i < n; i++) factor[i * n + i] = scale[i];
  let x = start.slice();
  let ln = lnDensity(x);
  let stride = 2.38 / Math.sqrt(n);
  let recent: Float64Array[] = [];
  const places: Float64Array[] = [];
  for (let step = 0; step < LEARNING + steps; step++) {
    const z = Float64Array.from({ length: n }, () => normal(random));
    const next = x.map((value, i) => {
      let sum = 0;
      for (let j = 0; j <= i; j++) sum += factor[i * n + j] * z[j];
      return value + stride * sum;
    });
    const lnNext = lnDensity(next);
    const taken = Math.log(random.between(0, 1)) < lnNext - ln;
    if (taken) {
      x = next;
      ln = lnNext;
    }
    if (step >= LEARNING) {
      places.push(x);
      continue;
    }
    stride *= Math.exp(((taken ? 1 : 0) - ACCEPTED) / Math.sqrt(step + 10));
    recent.push(x);
    if (step === LEARNING >> 2 || step === LEARNING >> 1 || step === LEARNING - 1) {
      factor = factorOf(recent, factor);
      recent = [];
    }
  }
  return { places };
};

/** Cholesky factor of the covariance of `places`; `former` where they do not span all directions. */
const factorOf = (places: readonly Float64Array[], former: Float64Array): Float64Array => {
  const n = places[0].length;
  const mean = new Float64Array(n);
  for (const x of places) for (let i = 0; i < n; i++) mean[i] += x[i] / places.length;
  const out = new Float64Array(n * n);
  for (const x of places) {
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) out[i * n + j] += ((x[i] - mean[i]) * (x[j] - mean[j])) / places.length;
    }
  }
  for (let i = 0; i < n; i++) out[i * n + i] *= 1.02;
  return factorNormalEquations(out, n) ? out : former;
};
