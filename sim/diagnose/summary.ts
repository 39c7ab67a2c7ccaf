import type { Pose } from '../contact/pose.ts';
import { POSE_COUNT, POSE_FIELDS } from './poseBasis.ts';
import type { Posterior } from './posterior.ts';
import { HOUSINGS, type Housing } from './unknowns.ts';

/** mm, degrees for the shaft angle */
export interface Estimate {
  readonly mean: number;
  readonly sd: number;
}

export type PoseEstimate = Readonly<Record<keyof Pose, Estimate>>;

/** Weighted mean and standard deviation of the unknown at `index`. */
export const estimateOf = (posterior: Posterior, index: number, weights = posterior.weights): Estimate => {
  const { x, count, draws } = posterior;
  let total = 0;
  let mean = 0;
  for (let d = 0; d < draws; d++) {
    total += weights[d];
    mean += weights[d] * x[d * count + index];
  }
  mean /= total;
  let variance = 0;
  for (let d = 0; d < draws; d++) variance += weights[d] * (x[d * count + index] - mean) ** 2;
  return { mean, sd: Math.sqrt(variance / total) };
};

export const estimatePose = (posterior: Posterior, weights = posterior.weights): PoseEstimate =>
  Object.fromEntries(
    POSE_FIELDS.map((field, i) => [field, estimateOf(posterior, i, weights)]),
  ) as PoseEstimate;

/** 4 × 4, in the order of POSE_FIELDS. */
export const correlate = (posterior: Posterior): readonly (readonly number[])[] => {
  const { x, count, draws, weights } = posterior;
  const estimates = POSE_FIELDS.map((_, i) => estimateOf(posterior, i));
  return POSE_FIELDS.map((_, i) =>
    POSE_FIELDS.map((__, j) => {
      if (i === j) return 1;
      let sum = 0;
      for (let d = 0; d < draws; d++) {
        sum += weights[d] * (x[d * count + i] - estimates[i].mean) * (x[d * count + j] - estimates[j].mean);
      }
      return sum / (estimates[i].sd * estimates[j].sd);
    }),
  );
};

/** Another explanation, far enough from the first to matter. */
export interface Alternative {
  readonly housing: Housing;
  /** share of the posterior */
  readonly chance: number;
  readonly pose: PoseEstimate;
}

/** Explanations with less than this are not told. */
const LEAST_CHANCE = 0.05;
/** Really different: some part of the pose differs by this many joint standard deviations. */
const APART = 1.5;

/**
 * The posterior split by what is wrong with the housing, and each part split in two where it falls apart along
 * pinionIn; likeliest first. The first is the explanation the others are alternatives to.
 */
export const explanations = (posterior: Posterior): readonly Alternative[] => {
  const parts = HOUSINGS.flatMap((housing, h) => {
    const weights = posterior.weights.map((w, d) => w * posterior.housing[d * HOUSINGS.length + h]);
    return splitHeaps(posterior, weights).map((own): Alternative => {
      const chance = own.reduce((sum, w) => sum + w, 0);
      return { housing, chance, pose: estimatePose(posterior, own) };
    });
  });
  const told = parts.filter(({ chance }) => chance >= LEAST_CHANCE).sort((a, b) => b.chance - a.chance);
  const kept: Alternative[] = [];
  for (const part of told) if (kept.every((other) => areApart(part, other))) kept.push(part);
  return kept;
};

const areApart = (a: Alternative, b: Alternative): boolean =>
  POSE_FIELDS.some((field) => {
    const joint = Math.hypot(a.pose[field].sd, b.pose[field].sd);
    return Math.abs(a.pose[field].mean - b.pose[field].mean) > APART * joint;
  });

/** How much a split must shrink the squares about the means before two heaps are seen in one cloud. */
const SPLIT_GAIN = 0.12;

/** Two heaps along one of the first two unknowns where the cloud has a gap, else one. */
const splitHeaps = (posterior: Posterior, weights: Float64Array): readonly Float64Array[] => {
  for (let i = 0; i < POSE_COUNT / 2; i++) {
    const whole = estimateOf(posterior, i, weights);
    if (!(whole.sd > 0)) continue;
    const side = (high: boolean) =>
      weights.map((w, d) => (posterior.x[d * posterior.count + i] > whole.mean === high ? w : 0));
    const parts = [side(false), side(true)];
    const total = weights.reduce((sum, w) => sum + w, 0);
    const within = parts.reduce((sum, part) => {
      const share = part.reduce((s, w) => s + w, 0) / total;
      return sum + share * estimateOf(posterior, i, part).sd ** 2;
    }, 0);
    // Halving a single bell leaves 0.36 of its squares, two heaps far less.
    if (within < SPLIT_GAIN * whole.sd ** 2) return parts;
  }
  return [weights];
};
