import { factorNormalEquations, substituteInto } from '../math/leastSquares.ts';
import type { SeededNumbers } from './chance.ts';
import { carryOn, LONGEST_STEP } from './climb.ts';
import type { Evidence } from './evidence.ts';
import { followSlopes } from './followSlopes.ts';
import { followingOf, leadingOf } from './leading.ts';
import type { HousedMode } from './modes.ts';
import { Supports } from './supports.ts';

/** How closely what follows is followed. */
export interface Care {
  /** square of the distance, in the spread of the best mode, up to which the slopes of a support are good enough */
  readonly sameSlopes: number;
  /** a second step is taken after a first that gained more (sum of squares) */
  readonly little: number;
}

/** A draw may misfit by this much more (sum of squares) than its own bell says, else it is drawn nearer to the middle. */
const MISFIT = 6;
/** Coats drawn for every earlier look, over which the chance of the borders seen there is a mean. */
const COATS = 3;
/** Share of a draw's way from the middle below which it is put there altogether. */
const LEAST_PULL = 0.2;

/**
 * The unknowns that follow where pose and film stand (docs/model.md §12): what a flank must be like to show its mark
 * there is nearly fixed by the mark and nearly a bell, however bent the whole is. It finds the middle of that bell by
 * at most two steps of Gauss and Newton from the nearest place solved before, and draws from it.
 */
export class Follower {
  /** all unknowns, own units: leading as asked, following best; overwritten by `stand` */
  readonly x: Float64Array;
  private readonly evidence: Evidence;
  private readonly spread: Float64Array;
  private readonly care: Care;
  private readonly leading: readonly number[];
  private readonly following: readonly number[];
  private readonly supports: Supports;
  private readonly here: Float64Array;
  private readonly there: Float64Array;
  private readonly trial: Float64Array;
  private readonly factor: Float64Array;
  private readonly step: Float64Array;
  /** where in their bell the following unknowns were drawn, in standard deviations; overwritten by `draw` */
  readonly bell: Float64Array;
  private readonly slopes: Float64Array;
  /** squares of misfit and of the following unknowns over their spread, at `x` */
  private cost = 0;

  /** `spread`: prior standard deviations; those of the following unknowns are the same whatever the housing. */
  constructor(evidence: Evidence, spread: Float64Array, modes: readonly HousedMode[], care: Care) {
    const { layout } = evidence;
    this.evidence = evidence;
    this.spread = spread;
    this.care = care;
    this.leading = leadingOf(layout);
    this.following = followingOf(layout);
    const follow = this.following.length;
    this.x = new Float64Array(layout.count);
    this.trial = new Float64Array(layout.count);
    this.here = new Float64Array(evidence.data.length);
    this.there = new Float64Array(evidence.data.length);
    this.slopes = new Float64Array(evidence.data.length * follow);
    this.factor = new Float64Array(follow * follow);
    this.step = new Float64Array(follow);
    this.bell = new Float64Array(follow);
    this.supports = new Supports(this.leading, this.following, spread, modes);
  }

  /**
   * Stands the leading unknowns at `lead` (from `at` on) and the following where they fit best. Returns ln of the
   * likelihood of marks and dial there times the share of the following unknowns' prior that fits as well (Laplace's
   * integral).
   */
  stand(lead: Float64Array, at: number): number {
    const { x, evidence, following, leading, here } = this;
    leading.forEach((i, k) => {
      x[i] = lead[at + k];
    });
    const { support, distance } = this.supports.startFor(x);
    this.cost = this.costAt(x, here);
    if (following.length > 0) {
      if (support.slopes && distance < this.care.sameSlopes) this.slopes.set(support.slopes);
      else followSlopes(evidence, following, this.spread, x, here, this.slopes);
      this.fillFactor();
      if (this.walk() > this.care.little) this.walk();
      this.supports.add(x, this.slopes.slice());
    }
    let ln = -0.5 * this.cost;
    following.forEach((_, k) => {
      ln -= Math.log(this.factor[k * following.length + k]);
    });
    return ln;
  }

  /**
   * Draws the following unknowns about where they stand, into `x`; the evidence has then predicted the present look for
   * them. Returns ln of the likelihood of the borders seen. That is a step, not a bell, so it is not told by the middle:
   * a coat a little thicker may reach a border that the best one clears. `lean`: how far the bell is shifted, in its own
   * standard deviations; 0 for the films.
   */
  draw(numbers: SeededNumbers, lean: Float64Array): number {
    const { x, trial, evidence } = this;
    const present = evidence.sightings.length - 1;
    if (this.following.length === 0) return evidence.lnEdges(present);
    const pull = this.drawBell(numbers, lean);
    let ln = evidence.lnEdges(present);
    for (let look = 0; look < present; look++) ln += this.drawCoat(look, pull, numbers);
    x.set(trial);
    return ln;
  }

  /** Draws the following unknowns from their bell, into `trial`; predicted. Returns the share of the way gone, 0 to 1. */
  private drawBell(numbers: SeededNumbers, lean: Float64Array): number {
    const { x, trial, following, spread, step, bell, factor } = this;
    const n = following.length;
    let squares = 0;
    for (let k = 0; k < n; k++) {
      bell[k] = lean[k] + numbers.normal();
      squares += bell[k] * bell[k];
    }
    step.set(bell);
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) step[i] -= factor[k * n + i] * step[k];
      step[i] /= factor[i * n + i];
    }
    for (let share = 1; ; share /= 2) {
      // the bell is only nearly right: what the marks gainsay is drawn toward the middle, at last into it
      const pull = share < LEAST_PULL ? 0 : share;
      trial.set(x);
      for (const [k, i] of following.entries()) trial[i] += pull * step[k] * spread[i];
      if (this.costAt(trial, this.there) <= this.cost + squares * pull * pull + MISFIT || pull === 0)
        return pull;
    }
  }

  /**
   * Draws the coat of an earlier look some times more, the rest of `trial` as it is, and keeps one as likely as it shows
   * the borders seen then. Returns ln of their mean likelihood. Films come first among the following and move no mark of
   * another look, so the factor gives each its own bell.
   */
  private drawCoat(look: number, pull: number, numbers: SeededNumbers): number {
    const { x, trial, following, spread, step, factor, evidence } = this;
    const n = following.length;
    const film = following[look];
    let middle = 0;
    for (let k = look + 1; k < n; k++) middle -= factor[k * n + look] * step[k];
    let total = Math.exp(evidence.lnEdges(look));
    let chosen = trial[film];
    for (let coat = 1; coat < COATS; coat++) {
      const off = (middle + numbers.normal()) / factor[look * n + look];
      trial[film] = x[film] + pull * off * spread[film];
      evidence.predict(trial, look);
      const likely = Math.exp(evidence.lnEdges(look));
      total += likely;
      if (numbers.uniform() * total < likely) chosen = trial[film];
    }
    trial[film] = chosen;
    return Math.log(total / COATS);
  }

  /** Squares of misfit and of the following unknowns over their spread. */
  private costAt(x: Float64Array, residuals: Float64Array): number {
    const { evidence, following, spread } = this;
    evidence.predict(x);
    evidence.residuals(residuals);
    let sum = 0;
    for (const residual of residuals) sum += residual * residual;
    for (const i of following) sum += (x[i] / spread[i]) ** 2;
    return sum;
  }

  /** Cholesky factor of SᵀS + 1. */
  private fillFactor(): void {
    const { slopes, factor, here } = this;
    const n = this.following.length;
    factor.fill(0);
    for (let i = 0; i < n; i++) factor[i * n + i] = 1;
    for (let k = 0; k < here.length; k++) {
      for (let i = 0; i < n; i++) {
        for (let j = 0; j <= i; j++) factor[i * n + j] += slopes[k * n + i] * slopes[k * n + j];
      }
    }
    factorNormalEquations(factor, n);
  }

  /**
   * A step of Gauss and Newton from `x`, with the residuals there in `here`, taken if it leads down. Returns what it
   * gained; 0, with all as before but what the evidence predicts, if nothing.
   */
  private walk(): number {
    const { slopes, step, here, there, x, trial, following, spread } = this;
    const n = following.length;
    following.forEach((i, a) => {
      let down = -x[i] / spread[i];
      for (let k = 0; k < here.length; k++) down -= slopes[k * n + a] * here[k];
      step[a] = down;
    });
    substituteInto(this.factor, step, n);
    const longest = step.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
    const scale = Math.min(1, LONGEST_STEP / longest);
    trial.set(x);
    for (const [k, i] of following.entries()) {
      step[k] *= scale;
      trial[i] += step[k] * spread[i];
    }
    const cost = this.costAt(trial, there);
    const gain = this.cost - cost;
    if (!(gain > 0)) return 0;
    carryOn(slopes, here, there, step);
    this.fillFactor();
    x.set(trial);
    here.set(there);
    this.cost = cost;
    return gain;
  }
}
