import { FLANKS, type FlankName } from '../gearset/definition.ts';
import { invert } from '../math/invert.ts';
import type { Evidence } from './evidence.ts';
import { DIAL_FEATURE, FEATURE_COUNT, featureAt } from './forwardModel.ts';
import type { Posterior } from './posterior.ts';
import { HOUSINGS } from './unknowns.ts';

/** What could be measured next. */
export type NextReadingName = FlankName | 'backlash' | 'pinion-depth' | 'housing-offset' | 'shaft-angle';

export interface NextReading {
  readonly reading: NextReadingName;
  /** not taken so far, or once more with more care (finer paint, more places of the dial) */
  readonly how: 'first' | 'again';
  /** share of the decision's variance that it is expected to take away, 0 … 1 */
  readonly narrows: number;
}

interface Candidate {
  readonly reading: NextReadingName;
  readonly how: 'first' | 'again';
  /** value per draw, one array per number read */
  readonly values: readonly Float64Array[];
  /** standard deviation of each number */
  readonly sds: readonly number[];
}

/** Those that take paint and a dial only: nothing is taken apart for them. */
export const LOOKS: readonly NextReadingName[] = ['drive', 'coast', 'backlash'];
const ALL_READINGS: readonly NextReadingName[] = [...LOOKS, 'pinion-depth', 'housing-offset', 'shaft-angle'];

/** Of a careful measurement: paint twice as careful as usual, mm at the dial over four places, gauges. */
const SD = { patch: 0.035, dial: 0.006, depth: 0.02, offset: 0.02, angle: 0.02 } as const;
/** Below this no reading is worth the while. */
const WORTH_IT = 0.1;

/**
 * Moves that would bring each draw to the target, mm of pinionIn and of ringAway, two arrays. Linear about the
 * posterior's middle: the best compromise of both marks and the dial, weighed by their tolerances.
 */
export const decisionOf = (
  posterior: Posterior,
  evidence: Evidence,
  tolerances: { readonly drive: number; readonly coast: number; readonly dial: number },
): readonly Float64Array[] => {
  const { draws, features } = posterior;
  const picked = [0, 1, featureAt('coast'), featureAt('coast') + 1, DIAL_FEATURE];
  const weights = [
    tolerances.drive,
    tolerances.drive,
    tolerances.coast,
    tolerances.coast,
    tolerances.dial,
  ].map((t) => 1 / (t * t));
  const slopes = slopesAtMiddle(posterior, evidence, picked);
  let pp = 0;
  let pr = 0;
  let rr = 0;
  picked.forEach((_, k) => {
    pp += weights[k] * slopes[0][k] ** 2;
    pr += weights[k] * slopes[0][k] * slopes[1][k];
    rr += weights[k] * slopes[1][k] ** 2;
  });
  const determinant = pp * rr - pr * pr;
  const moves = [new Float64Array(draws), new Float64Array(draws)];
  for (let d = 0; d < draws; d++) {
    let p = 0;
    let r = 0;
    picked.forEach((feature, k) => {
      const value = features[d * FEATURE_COUNT + feature];
      if (Number.isNaN(value)) return;
      p += weights[k] * slopes[0][k] * value;
      r += weights[k] * slopes[1][k] * value;
    });
    moves[0][d] = -(rr * p - pr * r) / determinant;
    moves[1][d] = -(pp * r - pr * p) / determinant;
  }
  return moves;
};

/** mm, over which the slopes of marks and dial are taken */
const STRIDE = 0.06;

/** Change of the picked features per mm of pinionIn and of ringAway about the posterior mean. */
const slopesAtMiddle = (
  posterior: Posterior,
  evidence: Evidence,
  picked: readonly number[],
): readonly (readonly number[])[] => {
  const { count, draws, weights, x } = posterior;
  const middle = new Float64Array(count);
  for (let d = 0; d < draws; d++) {
    for (let i = 0; i < count; i++) middle[i] += weights[d] * x[d * count + i];
  }
  const present = evidence.sightings.length - 1;
  const at = (i: number, step: number): number[] => {
    const moved = middle.slice();
    moved[i] += step;
    evidence.predict(moved, present);
    return picked.map((feature) => evidence.features[present * FEATURE_COUNT + feature]);
  };
  return [0, 1].map((i) => {
    const after = at(i, STRIDE / 2);
    const before = at(i, -STRIDE / 2);
    return after.map((value, k) => {
      const slope = (value - before[k]) / STRIDE;
      return Number.isFinite(slope) ? slope : 0;
    });
  });
};

/** Chance that the housing is at fault, per draw. */
export const faultOf = ({ draws, housing }: Posterior): readonly Float64Array[] => [
  Float64Array.from({ length: draws }, (_, d) => 1 - housing[d * HOUSINGS.length]),
];

/**
 * The reading that takes away most of the variance of `decision` (one array per number decided), by the linear
 * regression of the decision on what the reading would show over the draws. Null when none of `among` is worth the while.
 */
export const findNextReading = (
  posterior: Posterior,
  evidence: Evidence,
  decision: readonly Float64Array[],
  among: readonly NextReadingName[] = ALL_READINGS,
): NextReading | null => {
  let best: NextReading | null = null;
  for (const { reading, how, values, sds } of candidates(posterior, evidence)) {
    if (!among.includes(reading)) continue;
    const narrows = shareExplained(posterior, decision, values, sds);
    if (narrows > (best?.narrows ?? WORTH_IT)) best = { reading, how, narrows };
  }
  return best;
};

const candidates = (posterior: Posterior, evidence: Evidence): readonly Candidate[] => {
  const { draws, features, x, count } = posterior;
  const feature = (k: number) =>
    Float64Array.from({ length: draws }, (_, d) => features[d * FEATURE_COUNT + k]);
  const unknown = (k: number) => Float64Array.from({ length: draws }, (_, d) => x[d * count + k]);
  const { seen } = evidence.sightings[evidence.sightings.length - 1];
  const marks = FLANKS.map((flank): Candidate => {
    const at = featureAt(flank);
    return {
      reading: flank,
      how: seen[flank] ? 'again' : 'first',
      values: [feature(at), feature(at + 1), feature(at + 2), feature(at + 3)],
      sds: [SD.patch, SD.patch, SD.patch, SD.patch],
    };
  });
  return [
    ...marks,
    {
      reading: 'backlash',
      how: seen.backlash.length > 0 ? 'again' : 'first',
      values: [feature(DIAL_FEATURE)],
      sds: [SD.dial],
    },
    { reading: 'pinion-depth', how: 'first', values: [unknown(0)], sds: [SD.depth] },
    { reading: 'housing-offset', how: 'first', values: [unknown(2)], sds: [SD.offset] },
    { reading: 'shaft-angle', how: 'first', values: [unknown(3)], sds: [SD.angle] },
  ];
};

/** Share of the summed, scaled variance of `decision` that linear regression on noisy `values` explains. */
const shareExplained = (
  { weights, draws }: Posterior,
  decision: readonly Float64Array[],
  values: readonly Float64Array[],
  sds: readonly number[],
): number => {
  const usable = Float64Array.from(weights, (w, d) =>
    values.every((value) => !Number.isNaN(value[d])) ? w : 0,
  );
  const total = usable.reduce((sum, w) => sum + w, 0);
  const center = (value: Float64Array): Float64Array => {
    let mean = 0;
    for (let d = 0; d < draws; d++) if (usable[d] > 0) mean += (usable[d] / total) * value[d];
    return value.map((v, d) => (usable[d] > 0 ? v - mean : 0));
  };
  const covariance = (a: Float64Array, b: Float64Array): number => {
    let sum = 0;
    for (let d = 0; d < draws; d++) sum += (usable[d] / total) * a[d] * b[d];
    return sum;
  };
  const ys = values.map(center);
  const n = ys.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      matrix[i * n + j] = covariance(ys[i], ys[j]) + (i === j ? sds[i] ** 2 : 0);
    }
  }
  const inverse = invert(matrix, n);
  let all = 0;
  let explained = 0;
  for (const one of decision) {
    const own = center(one);
    const cross = ys.map((y) => covariance(y, own));
    all += covariance(own, own);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) explained += cross[i] * inverse[i * n + j] * cross[j];
    }
  }
  return all > 0 ? explained / all : 0;
};
