import { invert } from '../math/invert.ts';
import { seededNumbers } from './chance.ts';
import type { Mode } from './climb.ts';
import { type Cloud, createCloud, drawFrom, LEAST_SHARE } from './cloud.ts';
import type { Evidence } from './evidence.ts';
import { FEATURE_COUNT } from './forwardModel.ts';
import { lnSum, Mixture } from './mixture.ts';
import { moveClouds, tempered, worth } from './moveClouds.ts';
import { HOUSINGS, type Housing, housingShare, type Priors } from './unknowns.ts';

/** The posterior as weighted draws (docs/model.md §12). */
export interface Posterior {
  readonly draws: number;
  /** unknowns per draw */
  readonly count: number;
  /** draws × count, own units */
  readonly x: Float64Array;
  /** per draw; sums to 1 */
  readonly weights: Float64Array;
  /** draws × FEATURE_COUNT: what the present look would show */
  readonly features: Float64Array;
  /** draws × HOUSINGS: chance of each housing given the draw */
  readonly housing: Float64Array;
  /** chance of each housing after all that was seen */
  readonly chance: Readonly<Record<Housing, number>>;
  /** independent draws that these are worth */
  readonly effective: number;
}

/** A mode together with the housing it was climbed under. */
export interface HousedMode {
  readonly housing: Housing;
  readonly mode: Mode;
}

const SEED = 7207;
const ROUNDS = 4;
/** As long as the draws are worth fewer than this many independent ones, another round is drawn, up to MOST_ROUNDS. */
const ENOUGH = 100;
const MOST_ROUNDS = 24;
/** The mode's own curvature is a lower bound of the true spread where marks saturate at an edge. */
const INFLATION = 1.1;

const HALF_LN_TAU = 0.5 * Math.log(2 * Math.PI);

const lnPrior = (x: Float64Array, at: number, spread: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < spread.length; i++) {
    sum -= 0.5 * (x[at + i] / spread[i]) ** 2 + Math.log(spread[i]) + HALF_LN_TAU;
  }
  return sum;
};

/** Covariance (own units) of a mode by its curvature: spread·(JᵀJ + 1)⁻¹·spread. */
const covarianceOf = ({ curvature }: Mode, spread: Float64Array): Float64Array => {
  const n = spread.length;
  const inverse = invert(curvature, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) inverse[i * n + j] *= spread[i] * spread[j] * INFLATION;
  }
  return inverse;
};

const firstClouds = (
  modes: readonly HousedMode[],
  spreads: Readonly<Record<Housing, Float64Array>>,
  priors: Priors,
): readonly Cloud[] => {
  const logs = modes.map(({ housing, mode }) => {
    const n = spreads[housing].length;
    const factor = createCloud(mode.x, covarianceOf(mode, spreads[housing]), 1);
    let ln = -0.5 * mode.cost + Math.log(housingShare(priors, housing));
    // Laplace: the volume of the mode over that of its prior
    if (factor) {
      for (let i = 0; i < n; i++) ln += Math.log(factor.factor[i * n + i] / spreads[housing][i]);
    }
    return ln;
  });
  const most = Math.max(...logs);
  const raw = logs.map((ln) => Math.max(LEAST_SHARE, Math.exp(ln - most)));
  const total = raw.reduce((sum, share) => sum + share, 0);
  return modes.flatMap(({ housing, mode }, k) => {
    const cloud = createCloud(mode.x, covarianceOf(mode, spreads[housing]), raw[k] / total);
    return cloud ? [cloud] : [];
  });
};

/**
 * Draws around the modes, weighs every draw by likelihood and prior over the density it was drawn from, moves the
 * clouds to where the weight is, and draws again; all rounds count, each draw weighed against the mixture of all.
 */
export const samplePosterior = (
  evidence: Evidence,
  modes: readonly HousedMode[],
  spreads: Readonly<Record<Housing, Float64Array>>,
  priors: Priors,
  drawsPerRound: number,
): Posterior => {
  const count = evidence.layout.count;
  const numbers = seededNumbers(SEED);
  const most = MOST_ROUNDS * drawsPerRound;
  const x = new Float64Array(most * count);
  const features = new Float64Array(most * FEATURE_COUNT);
  const lnTarget = new Float64Array(most);
  const housing = new Float64Array(most * HOUSINGS.length);
  const residuals = new Float64Array(evidence.data.length);
  const one = new Float64Array(count);
  const present = evidence.sightings.length - 1;
  const mixture = new Mixture(most, count);
  let clouds = firstClouds(modes, spreads, priors);
  let draws = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    allot(clouds, drawsPerRound).forEach((cloud, k) => {
      drawFrom(cloud, numbers, x, (draws + k) * count);
    });
    for (let d = draws; d < draws + drawsPerRound; d++) {
      one.set(x.subarray(d * count, (d + 1) * count));
      evidence.predict(one);
      evidence.residuals(residuals);
      let ln = evidence.lnEdges();
      for (let k = 0; k < residuals.length; k++) ln -= 0.5 * residuals[k] * residuals[k];
      const at = present * FEATURE_COUNT;
      features.set(evidence.features.subarray(at, at + FEATURE_COUNT), d * FEATURE_COUNT);
      HOUSINGS.forEach((name, h) => {
        housing[d * HOUSINGS.length + h] =
          ln + lnPrior(one, 0, spreads[name]) + Math.log(housingShare(priors, name));
      });
      lnTarget[d] = lnSum(housing, d * HOUSINGS.length, HOUSINGS.length);
    }
    draws += drawsPerRound;
    mixture.add(clouds, x, draws);
    if (round === MOST_ROUNDS - 1) break;
    const weights = rawWeights(lnTarget, mixture, draws);
    if (round >= ROUNDS - 1 && worth(weights) >= ENOUGH) break;
    clouds = moveClouds(clouds, x, count, tempered(weights, ENOUGH));
  }
  return finish(draws, count, x, features, housing, lnTarget, mixture);
};

/** Which cloud every draw of a round comes from: shares rounded so that none is forgotten. */
const allot = (clouds: readonly Cloud[], draws: number): readonly Cloud[] => {
  const out: Cloud[] = [];
  let owed = 0;
  for (const cloud of clouds) {
    owed += cloud.share * draws;
    while (out.length < draws && out.length + 0.5 < owed) out.push(cloud);
  }
  while (out.length < draws) out.push(clouds[0]);
  return out;
};

/** Target over mixture, the greatest 1. */
const rawWeights = (lnTarget: Float64Array, mixture: Mixture, draws: number): Float64Array => {
  const weights = new Float64Array(draws);
  let most = Number.NEGATIVE_INFINITY;
  for (let d = 0; d < draws; d++) {
    weights[d] = lnTarget[d] - mixture.lnAt(d);
    most = Math.max(most, weights[d]);
  }
  for (let d = 0; d < draws; d++) weights[d] = Math.exp(weights[d] - most);
  return weights;
};

const finish = (
  draws: number,
  count: number,
  x: Float64Array,
  features: Float64Array,
  housing: Float64Array,
  lnTarget: Float64Array,
  mixture: Mixture,
): Posterior => {
  const weights = rawWeights(lnTarget, mixture, draws);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const effective = worth(weights);
  const chances = new Float64Array(HOUSINGS.length);
  for (let d = 0; d < draws; d++) {
    weights[d] /= total;
    for (let h = 0; h < HOUSINGS.length; h++) {
      const at = d * HOUSINGS.length + h;
      housing[at] = Math.exp(housing[at] - lnTarget[d]);
      chances[h] += weights[d] * housing[at];
    }
  }
  const byHousing = (of: (h: number) => number): Readonly<Record<Housing, number>> =>
    Object.fromEntries(HOUSINGS.map((name, h) => [name, of(h)])) as Record<Housing, number>;
  return {
    draws,
    count,
    x: x.slice(0, draws * count),
    weights,
    features: features.slice(0, draws * FEATURE_COUNT),
    housing: housing.slice(0, draws * HOUSINGS.length),
    chance: byHousing((h) => chances[h]),
    effective,
  };
};
