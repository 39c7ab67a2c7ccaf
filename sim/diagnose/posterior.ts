import { seededNumbers } from './chance.ts';
import type { Mode } from './climb.ts';
import { type Cloud, createCloud, drawFrom, lnDensity } from './cloud.ts';
import type { Evidence } from './evidence.ts';
import { FEATURE_COUNT } from './forwardModel.ts';
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
const MOST_ROUNDS = 16;
/** The mode's own curvature is a lower bound of the true spread where marks saturate at an edge. */
const INFLATION = 1.1;
const LEAST_SHARE = 0.03;

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

/** Inverse of a symmetric positive definite matrix by Gauss and Jordan; small n only. */
export const invert = (matrix: Float64Array, n: number): Float64Array => {
  const a = matrix.slice();
  for (let k = 0; k < n; k++) {
    const pivot = 1 / a[k * n + k];
    a[k * n + k] = 1;
    for (let j = 0; j < n; j++) a[k * n + j] *= pivot;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = a[i * n + k];
      a[i * n + k] = 0;
      for (let j = 0; j < n; j++) a[i * n + j] -= factor * a[k * n + j];
    }
  }
  return a;
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
    clouds = moveClouds(clouds, x, count, tempered(weights));
  }
  return finish(draws, count, x, features, housing, lnTarget, mixture);
};

/** Independent draws that weighted ones are worth: the square of the sum over the sum of squares. */
const worth = (weights: Float64Array): number => {
  let total = 0;
  let squares = 0;
  for (const weight of weights) {
    total += weight;
    squares += weight * weight;
  }
  return (total * total) / squares;
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

const lnSum = (values: Float64Array, at: number, count: number): number => {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) most = Math.max(most, values[at + i]);
  if (most === Number.NEGATIVE_INFINITY) return most;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += Math.exp(values[at + i] - most);
  return most + Math.log(sum);
};

/** Density of the mixture of all rounds at every draw; a new round adds its clouds to the draws already there. */
class Mixture {
  /** density summed over rounds, relative to `floor` */
  private readonly sums: Float64Array;
  private readonly floor: Float64Array;
  private readonly count: number;
  private readonly scratch: Float64Array;
  private readonly all: Array<readonly Cloud[]> = [];
  private known = 0;

  constructor(draws: number, count: number) {
    this.sums = new Float64Array(draws);
    this.floor = new Float64Array(draws).fill(Number.NaN);
    this.count = count;
    this.scratch = new Float64Array(count);
  }

  /** `draws` of `x` are there, the last of them drawn from `clouds`. */
  add(clouds: readonly Cloud[], x: Float64Array, draws: number): void {
    this.all.push(clouds);
    for (let d = 0; d < this.known; d++) this.put(clouds, x, d);
    for (let d = this.known; d < draws; d++) for (const round of this.all) this.put(round, x, d);
    this.known = draws;
  }

  lnAt(d: number): number {
    return this.floor[d] + Math.log(this.sums[d] / this.all.length);
  }

  private put(clouds: readonly Cloud[], x: Float64Array, d: number): void {
    for (const cloud of clouds) {
      const ln = Math.log(cloud.share) + lnDensity(cloud, x, d * this.count, this.scratch);
      // the first term sets the scale; a later one far above it moves the scale up
      if (Number.isNaN(this.floor[d])) this.floor[d] = ln;
      if (ln > this.floor[d] + 300) {
        this.sums[d] *= Math.exp(this.floor[d] - ln);
        this.floor[d] = ln;
      }
      this.sums[d] += Math.exp(ln - this.floor[d]);
    }
  }
}

const TEMPERING_STEPS = 12;

/**
 * Weights raised to the greatest power, at most 1, at which they are worth ENOUGH draws. A ridge that the first rounds
 * hardly met leaves nearly all weight to a few draws; the clouds then go toward it step by step instead of not at all.
 */
const tempered = (weights: Float64Array): Float64Array => {
  if (worth(weights) >= ENOUGH) return weights;
  let low = 0;
  let high = 1;
  for (let k = 0; k < TEMPERING_STEPS; k++) {
    const power = (low + high) / 2;
    if (worth(raised(weights, power)) >= ENOUGH) low = power;
    else high = power;
  }
  return raised(weights, low);
};

const raised = (weights: Float64Array, power: number): Float64Array =>
  weights.map((weight) => weight ** power);

/** Share of its former spread that a moved cloud keeps: a few dozen draws say little about many unknowns. */
const KEPT_SPREAD = 0.3;

const moveClouds = (
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
  let squares = 0;
  const chances = new Float64Array(HOUSINGS.length);
  for (let d = 0; d < draws; d++) {
    weights[d] /= total;
    squares += weights[d] * weights[d];
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
    effective: 1 / squares,
  };
};
