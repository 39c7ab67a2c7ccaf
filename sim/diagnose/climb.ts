import { solveNormalEquations } from '../math/leastSquares.ts';
import type { Evidence } from './evidence.ts';
import { POSE_COUNT } from './poseBasis.ts';
import { FILM_AT } from './unknowns.ts';

/** A best explanation near a start, and how steeply others get worse around it. */
export interface Mode {
  readonly converged: boolean;
  /** unknowns in their own units */
  readonly x: Float64Array;
  /** sum of squares of residuals and of unknowns over their prior spread */
  readonly cost: number;
  /** count × count, the normal matrix in units of the prior spread: JᵀJ + 1 */
  readonly curvature: Float64Array;
  /** data × count: slopes of the residuals there per prior standard deviation, as nearly as the descent needed them */
  readonly slopes: Float64Array;
}

/** Steps, tried ones included, after which a descent counts as not converged. */
const CAP = 20;
/** In prior standard deviations: the difference for slopes, and the longest change of any unknown in a step. */
export const DIFFERENCE = 0.08;
export const LONGEST_STEP = 1.5;
/** Sum of squares: a step that gains less ends the descent. */
const SMALL_GAIN = 0.01;

/**
 * Levenberg and Marquardt's descent on residuals and prior together, from `start` (own units). `spread` holds the prior
 * standard deviations; the slopes are differences of the forward model, carried on from step to step and taken anew where
 * they no longer lead down; `slopes` are those to begin with, of a place near by. Null when the way leads to one of those
 * `known` already.
 */
export const climb = (
  evidence: Evidence,
  spread: Float64Array,
  start: Float64Array,
  known: readonly Mode[] = [],
  slopes: Float64Array | null = null,
): Mode | null => {
  const n = spread.length;
  const m = evidence.data.length;
  const x = start.slice();
  const trial = new Float64Array(n);
  const here = new Float64Array(m);
  const there = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const matrix = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  const step = new Float64Array(n);
  let cost = costAt(evidence, spread, x, here);
  let damping = 0.01;
  let converged = false;
  let iterations = 0;
  /** slopes anew where it stands; true: they are exact */
  const refresh = (): true => {
    differentiate(evidence, spread, x, here, there, jacobian);
    return true;
  };
  if (slopes) jacobian.set(slopes);
  let exact = slopes ? false : refresh();
  while (iterations < CAP && !converged) {
    iterations++;
    normalEquations(jacobian, here, spread, x, matrix, gradient);
    const damped = matrix.slice();
    for (let i = 0; i < n; i++) {
      damped[i * n + i] *= 1 + damping;
      step[i] = -gradient[i];
    }
    if (!solveNormalEquations(damped, step, n)) break;
    let length = 0;
    for (let i = 0; i < n; i++) length = Math.max(length, Math.abs(step[i]));
    const scale = length > LONGEST_STEP ? LONGEST_STEP / length : 1;
    for (let i = 0; i < n; i++) {
      step[i] *= scale;
      trial[i] = x[i] + step[i] * spread[i];
    }
    const trialCost = costAt(evidence, spread, trial, there);
    if (trialCost < cost) {
      const little = cost - trialCost < SMALL_GAIN && scale === 1;
      carryOn(jacobian, here, there, step);
      cost = trialCost;
      x.set(trial);
      here.set(there);
      damping *= 0.2;
      if (known.some((mode) => mode.cost <= cost && isSame(mode.x, x, spread))) return null;
      converged = little && exact;
      // slopes carried on are good enough to walk by, not to say that there is nowhere to go
      exact = false;
      if (little && !converged) exact = refresh();
    } else if (!exact) {
      exact = refresh();
    } else {
      converged = length < 0.02 || damping > 1e3;
      damping = Math.max(damping, 1e-3) * 8;
    }
  }
  if (!converged && !exact) refresh();
  normalEquations(jacobian, here, spread, x, matrix, gradient);
  return { converged, x, cost, curvature: matrix, slopes: jacobian };
};

/** Modes this near in every unknown (prior standard deviations) are one. */
const SAME = 0.25;

/** Whether two places are one mode; own units. */
export const isSame = (a: Float64Array, b: Float64Array, spread: Float64Array): boolean =>
  a.every((value, i) => Math.abs(value - b[i]) < SAME * spread[i]);

/** Broyden's rank-one update: the slopes now agree with the step just taken (in prior standard deviations). */
export const carryOn = (
  jacobian: Float64Array,
  before: Float64Array,
  after: Float64Array,
  step: Float64Array,
): void => {
  const n = step.length;
  let squares = 0;
  for (const s of step) squares += s * s;
  if (!(squares > 0)) return;
  for (let k = 0; k < before.length; k++) {
    let miss = after[k] - before[k];
    for (let i = 0; i < n; i++) miss -= jacobian[k * n + i] * step[i];
    for (let i = 0; i < n; i++) jacobian[k * n + i] += (miss * step[i]) / squares;
  }
};

const costAt = (
  evidence: Evidence,
  spread: Float64Array,
  x: Float64Array,
  residuals: Float64Array,
): number => {
  evidence.predict(x);
  evidence.residuals(residuals);
  let sum = 0;
  for (let k = 0; k < residuals.length; k++) sum += residuals[k] * residuals[k];
  for (let i = 0; i < x.length; i++) sum += (x[i] / spread[i]) ** 2;
  return sum;
};

/** Slopes of the residuals per prior standard deviation, m × n. What leaves the pose alone goes first: it is cheap. */
const differentiate = (
  evidence: Evidence,
  spread: Float64Array,
  x: Float64Array,
  here: Float64Array,
  there: Float64Array,
  jacobian: Float64Array,
): void => {
  const n = x.length;
  const films = evidence.layout.films;
  for (let order = 0; order < n; order++) {
    const i = order < n - POSE_COUNT ? order + POSE_COUNT : order - (n - POSE_COUNT);
    const kept = x[i];
    // the film of an earlier look changes that look alone
    const only = i >= FILM_AT && i < FILM_AT + films - 1 ? i - FILM_AT : -1;
    if (only >= 0) evidence.predict(x);
    x[i] = kept + DIFFERENCE * spread[i];
    evidence.predict(x, only);
    evidence.residuals(there);
    x[i] = kept;
    for (let k = 0; k < here.length; k++) jacobian[k * n + i] = (there[k] - here[k]) / DIFFERENCE;
  }
};

const normalEquations = (
  jacobian: Float64Array,
  residuals: Float64Array,
  spread: Float64Array,
  x: Float64Array,
  matrix: Float64Array,
  gradient: Float64Array,
): void => {
  const n = x.length;
  matrix.fill(0);
  for (let i = 0; i < n; i++) {
    gradient[i] = x[i] / spread[i];
    matrix[i * n + i] = 1;
  }
  for (let k = 0; k < residuals.length; k++) {
    for (let i = 0; i < n; i++) {
      const slope = jacobian[k * n + i];
      gradient[i] += slope * residuals[k];
      for (let j = 0; j <= i; j++) matrix[i * n + j] += slope * jacobian[k * n + j];
    }
  }
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) matrix[i * n + j] = matrix[j * n + i];
};
