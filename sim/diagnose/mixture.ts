import { type Cloud, lnDensity } from './cloud.ts';

/** ln of the sum of exponentials of `count` values from `at` on. */
export const lnSum = (values: Float64Array, at: number, count: number): number => {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) most = Math.max(most, values[at + i]);
  if (most === Number.NEGATIVE_INFINITY) return most;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += Math.exp(values[at + i] - most);
  return most + Math.log(sum);
};

/** What a round is drawn from. */
export interface Proposal {
  /** of the leading unknowns */
  readonly clouds: readonly Cloud[];
  /** how far the bell of the following ones is shifted, in its own standard deviations; as many as follow */
  readonly lean: Float64Array;
}

/**
 * Density of the mixture of all rounds at every draw, over that of the bell not shifted; a new round adds its clouds to
 * the draws already there.
 */
export class Mixture {
  /** density summed over rounds, relative to `floor` */
  private readonly sums: Float64Array;
  private readonly floor: Float64Array;
  private readonly count: number;
  private readonly scratch: Float64Array;
  private readonly follow: number;
  private readonly all: Proposal[] = [];
  private known = 0;

  /** `count` leading and `follow` following unknowns of each draw */
  constructor(draws: number, count: number, follow: number) {
    this.sums = new Float64Array(draws);
    this.floor = new Float64Array(draws).fill(Number.NaN);
    this.count = count;
    this.follow = follow;
    this.scratch = new Float64Array(count);
  }

  /**
   * `draws` are there, the last of them drawn from `proposal`. `x`: leading unknowns; `bells`: where in their bell the
   * following ones stand, in standard deviations.
   */
  add(proposal: Proposal, x: Float64Array, bells: Float64Array, draws: number): void {
    this.all.push(proposal);
    for (let d = 0; d < this.known; d++) this.put(proposal, x, bells, d);
    for (let d = this.known; d < draws; d++) for (const round of this.all) this.put(round, x, bells, d);
    this.known = draws;
  }

  lnAt(d: number): number {
    return this.floor[d] + Math.log(this.sums[d] / this.all.length);
  }

  private put({ clouds, lean }: Proposal, x: Float64Array, bells: Float64Array, d: number): void {
    let leaning = 0;
    for (let k = 0; k < this.follow; k++) leaning += lean[k] * (bells[d * this.follow + k] - lean[k] / 2);
    for (const cloud of clouds) {
      const ln = leaning + Math.log(cloud.share) + lnDensity(cloud, x, d * this.count, this.scratch);
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
