import { type Cloud, createCloud, LEAST_SHARE, lnDensity } from './cloud.ts';
import { lnSum } from './mixture.ts';

/** Independent draws that weighted ones are worth: the square of the sum over the sum of squares. */
export const worth = (weights: Float64Array): number => {
  let total = 0;
  let squares = 0;
  for (const weight of weights) {
    total += weight;
    squares += weight * weight;
  }
  return (total * total) / squares;
};

const TEMPERING_STEPS = 12;

/**
 * Weights raised to the greatest power, at most 1, at which they are worth `enough` draws. A ridge that the first rounds
 * hardly met leaves nearly all weight to a few draws; the clouds then go toward it step by step instead of not at all.
 */
export const tempered = (weights: Float64Array, enough: number): Float64Array => {
  if (worth(weights) >= enough) return weights;
  let low = 0;
  let high = 1;
  for (let k = 0; k < TEMPERING_STEPS; k++) {
    const power = (low + high) / 2;
    if (worth(raised(weights, power)) >= enough) low = power;
    else high = power;
  }
  return raised(weights, low);
};

const raised = (weights: Float64Array, power: number): Float64Array =>
  weights.map((weight) => weight ** power);

/** Share of its former spread that a moved cloud keeps: a few dozen draws say little about many unknowns. */
const KEPT_SPREAD = 0.3;

/** Clouds moved to where the weighted draws (`x`, `count` unknowns each) are; shares sum to 1. */
export const moveClouds = (
  clouds: readonly Cloud[],
  x: Float64Array,
  count: number,
  weights: Float64Array,
): readonly Cloud[] => {
  const draws = weights.length;
  const scratch = new Float64Array(count);
  const belongs = clouds.map(() => new Float64Array(draws));
  const terms = new Float64Array(clouds.length);
  for (let d = 0; d < draws; d++) {
    clouds.forEach((cloud, k) => {
      terms[k] = Math.log(cloud.share) + lnDensity(cloud, x, d * count, scratch);
    });
    const all = lnSum(terms, 0, terms.length);
    clouds.forEach((_, k) => {
      belongs[k][d] = weights[d] * Math.exp(terms[k] - all);
    });
  }
  const masses = belongs.map((own) => own.reduce((sum, w) => sum + w, 0));
  const total = masses.reduce((sum, w) => sum + w, 0);
  const shares = masses.map((mass) => Math.max(LEAST_SHARE, mass / total));
  const allShares = shares.reduce((sum, share) => sum + share, 0);
  return clouds.map((cloud, k) => {
    const share = shares[k] / allShares;
    const own = belongs[k];
    let squares = 0;
    for (let d = 0; d < draws; d++) squares += own[d] * own[d];
    // Too few draws to move a cloud by: it only changes its share.
    if (!(masses[k] ** 2 > 2 * count * squares)) return { ...cloud, share };
    const middle = new Float64Array(count);
    for (let d = 0; d < draws; d++) {
      for (let i = 0; i < count; i++) middle[i] += (own[d] / masses[k]) * x[d * count + i];
    }
    const spread = new Float64Array(count * count);
    for (let d = 0; d < draws; d++) {
      for (let i = 0; i < count; i++) {
        const off = (own[d] / masses[k]) * (x[d * count + i] - middle[i]);
        for (let j = 0; j <= i; j++) spread[i * count + j] += off * (x[d * count + j] - middle[j]);
      }
    }
    for (let i = 0; i < count; i++) {
      for (let j = 0; j <= i; j++) {
        let former = 0;
        for (let m = 0; m <= j; m++) former += cloud.factor[i * count + m] * cloud.factor[j * count + m];
        spread[i * count + j] = KEPT_SPREAD * former + (1 - KEPT_SPREAD) * 1.1 * spread[i * count + j];
      }
    }
    return createCloud(middle, spread, share) ?? { ...cloud, share };
  });
};

/**
 * Where the weighted draws stand in their bells (`bells`, `count` each, in standard deviations): the mean, less what so
 * few of them come to by chance. 0 before `from`.
 */
export const leanOf = (
  bells: Float64Array,
  count: number,
  from: number,
  weights: Float64Array,
): Float64Array => {
  const lean = new Float64Array(count);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const chance = 1 / worth(weights);
  for (let k = from; k < count; k++) {
    let mean = 0;
    for (let d = 0; d < weights.length; d++) mean += (weights[d] / total) * bells[d * count + k];
    lean[k] = mean * Math.max(0, 1 - chance / (mean * mean));
  }
  return lean;
};
