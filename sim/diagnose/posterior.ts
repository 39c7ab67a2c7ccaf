import { invert } from '../math/invert.ts';
import { factorNormalEquations } from '../math/leastSquares.ts';
import { seededNumbers } from './chance.ts';
import { type Cloud, createCloud, drawFrom, LEAST_SHARE } from './cloud.ts';
import type { Evidence } from './evidence.ts';
import { type Care, Follower } from './follow.ts';
import { FEATURE_COUNT } from './forwardModel.ts';
import { followingOf, leadingOf } from './leading.ts';
import { lnSum, Mixture } from './mixture.ts';
import type { HousedMode } from './modes.ts';
import { leanOf, moveClouds, tempered, worth } from './moveClouds.ts';
import { HOUSINGS, type Housing, housingShare, type Layout, type Priors } from './unknowns.ts';

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

const SEED = 7207;
/**
 * How long to draw. As long as the draws are worth fewer than `enough` independent ones, another round is drawn, up to
 * `mostRounds`; the clouds are moved by weights worth at least `moveBy`. The curvature of a mode is a lower bound of the
 * true spread where marks saturate at an edge or a ridge is bent: `inflation` of its covariance.
 */
interface Plan {
  readonly draws: number;
  readonly rounds: number;
  readonly mostRounds: number;
  readonly enough: number;
  readonly moveBy: number;
  readonly inflation: number;
  readonly care: Care;
}

/** A first answer may not take long. */
const QUICK: Care = { sameSlopes: 8, little: 4 };
/** Looks again lead to shims being changed and may take a little longer; docs/validation.md was worked out with this. */
const CLOSE: Care = { sameSlopes: 4, little: 0 };

/** A draw with following unknowns costs some five predictions, one without (`alone`, whose care is never asked) a single one. */
const PLANS: Readonly<Record<'alone' | 'followed' | 'lookedBefore', Plan>> = {
  alone: { draws: 100, rounds: 4, mostRounds: 30, enough: 100, moveBy: 100, inflation: 1.1, care: QUICK },
  followed: { draws: 40, rounds: 3, mostRounds: 12, enough: 50, moveBy: 30, inflation: 2, care: QUICK },
  // who looks again wants to be surer, and waits a little longer for it
  lookedBefore: { draws: 40, rounds: 3, mostRounds: 24, enough: 100, moveBy: 50, inflation: 2, care: CLOSE },
};

const HALF_LN_TAU = 0.5 * Math.log(2 * Math.PI);

const planFor = (layout: Layout): Plan => {
  if (followingOf(layout).length === 0) return PLANS.alone;
  return PLANS[layout.films > 1 ? 'lookedBefore' : 'followed'];
};

/** ln prior density of the leading unknowns of `x` (from `at` on); that of the others is in the follower's integral. */
const lnPrior = (x: Float64Array, leading: readonly number[], spread: Float64Array): number => {
  let sum = 0;
  for (const i of leading) sum -= 0.5 * (x[i] / spread[i]) ** 2 + Math.log(spread[i]) + HALF_LN_TAU;
  return sum;
};

/** Covariance of the leading unknowns (own units) by the mode's curvature: spread·(JᵀJ + 1)⁻¹·spread. */
const covarianceOf = (
  inverse: Float64Array,
  leading: readonly number[],
  spread: Float64Array,
  inflation: number,
): Float64Array => {
  const n = spread.length;
  return Float64Array.from(
    leading.flatMap((i) => leading.map((j) => inflation * inverse[i * n + j] * spread[i] * spread[j])),
  );
};

const firstClouds = (
  modes: readonly HousedMode[],
  leading: readonly number[],
  spreads: Readonly<Record<Housing, Float64Array>>,
  priors: Priors,
  inflation: number,
): readonly Cloud[] => {
  const found = modes.map(({ housing, mode }) => {
    const spread = spreads[housing];
    const n = spread.length;
    const inverse = invert(mode.curvature, n);
    let ln = -0.5 * mode.cost + Math.log(housingShare(priors, housing));
    // Laplace: the volume of the mode over that of its prior
    const factor = inverse.slice();
    if (factorNormalEquations(factor, n)) for (let i = 0; i < n; i++) ln += Math.log(factor[i * n + i]);
    const middle = Float64Array.from(leading, (i) => mode.x[i]);
    return { ln, middle, covariance: covarianceOf(inverse, leading, spread, inflation) };
  });
  const most = Math.max(...found.map(({ ln }) => ln));
  const raw = found.map(({ ln }) => Math.max(LEAST_SHARE, Math.exp(ln - most)));
  const total = raw.reduce((sum, share) => sum + share, 0);
  return found.flatMap(({ middle, covariance }, k) => {
    const cloud = createCloud(middle, covariance, raw[k] / total);
    return cloud ? [cloud] : [];
  });
};

/**
 * Draws pose and film around the modes, weighs every draw by likelihood and prior over the density it was drawn from,
 * moves the clouds to where the weight is, and draws again; all rounds count, each draw weighed against the mixture of
 * all. The unknowns that follow are integrated over for the weight and drawn once for every draw.
 */
export const samplePosterior = (
  evidence: Evidence,
  modes: readonly HousedMode[],
  spreads: Readonly<Record<Housing, Float64Array>>,
  priors: Priors,
): Posterior => {
  const { count } = evidence.layout;
  const leading = leadingOf(evidence.layout);
  const size = leading.length;
  const plan = planFor(evidence.layout);
  const numbers = seededNumbers(SEED);
  const most = plan.mostRounds * plan.draws;
  const leads = new Float64Array(most * size);
  const follow = count - size;
  const bells = new Float64Array(most * follow);
  const x = new Float64Array(most * count);
  const features = new Float64Array(most * FEATURE_COUNT);
  const lnTarget = new Float64Array(most);
  const housing = new Float64Array(most * HOUSINGS.length);
  const present = (evidence.sightings.length - 1) * FEATURE_COUNT;
  const follower = new Follower(evidence, spreads.sound, modes, plan.care);
  const mixture = new Mixture(most, size, follow);
  let clouds = firstClouds(modes, leading, spreads, priors, plan.inflation);
  let lean: Float64Array = new Float64Array(follow);
  let draws = 0;
  for (let round = 0; round < plan.mostRounds; round++) {
    allot(clouds, plan.draws).forEach((cloud, k) => {
      drawFrom(cloud, numbers, leads, (draws + k) * size);
    });
    for (let d = draws; d < draws + plan.draws; d++) {
      const stood = follower.stand(leads, d * size);
      const ln = stood + follower.draw(numbers, lean);
      bells.set(follower.bell, d * follow);
      HOUSINGS.forEach((name, h) => {
        housing[d * HOUSINGS.length + h] =
          ln + lnPrior(follower.x, leading, spreads[name]) + Math.log(housingShare(priors, name));
      });
      lnTarget[d] = lnSum(housing, d * HOUSINGS.length, HOUSINGS.length);
      x.set(follower.x, d * count);
      features.set(evidence.features.subarray(present, present + FEATURE_COUNT), d * FEATURE_COUNT);
    }
    draws += plan.draws;
    mixture.add({ clouds, lean }, leads, bells, draws);
    if (round === plan.mostRounds - 1) break;
    const weights = rawWeights(lnTarget, mixture, draws);
    if (round >= plan.rounds - 1 && worth(weights) >= plan.enough) break;
    const moving = tempered(weights, plan.moveBy);
    clouds = moveClouds(clouds, leads, size, moving);
    lean = leanOf(bells, follow, evidence.layout.films - 1, moving);
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
