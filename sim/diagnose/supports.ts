import { invert } from '../math/invert.ts';
import type { HousedMode } from './modes.ts';

/** A place of the leading unknowns for which the following ones are known. */
export interface Support {
  readonly lead: Float64Array;
  readonly follow: Float64Array;
  /** slopes of the residuals there; null at a mode, where they have not been asked for */
  readonly slopes: Float64Array | null;
}

/**
 * Where the following unknowns are known already, as starts for places near by. Distance and how the following turn with
 * the leading are taken from the best mode.
 */
export class Supports {
  private readonly all: Support[] = [];
  private readonly leading: readonly number[];
  private readonly following: readonly number[];
  /** leading × leading, inverse covariance at the best mode; own units */
  private readonly metric: Float64Array;
  /** following × leading, own units */
  private readonly turn: Float64Array;

  /** `spread`: prior standard deviations */
  constructor(
    leading: readonly number[],
    following: readonly number[],
    spread: Float64Array,
    modes: readonly HousedMode[],
  ) {
    this.leading = leading;
    this.following = following;
    const { mode } = modes.reduce((best, one) => (one.mode.cost < best.mode.cost ? one : best));
    const n = spread.length;
    const size = leading.length;
    const covariance = invert(mode.curvature, n);
    const own = Float64Array.from(leading.flatMap((i) => leading.map((j) => covariance[i * n + j])));
    const inverse = invert(own, size);
    this.metric = Float64Array.from(
      leading.flatMap((i, a) => leading.map((j, b) => inverse[a * size + b] / (spread[i] * spread[j]))),
    );
    this.turn = Float64Array.from(
      following.flatMap((i) =>
        leading.map((j, b) => {
          let sum = 0;
          leading.forEach((k, c) => {
            sum += covariance[i * n + k] * inverse[c * size + b];
          });
          return (sum * spread[i]) / spread[j];
        }),
      ),
    );
    for (const { mode: known } of modes) this.add(known.x, null);
  }

  /** `x`: all unknowns, own units */
  add(x: Float64Array, slopes: Float64Array | null): void {
    this.all.push({
      lead: Float64Array.from(this.leading, (i) => x[i]),
      follow: Float64Array.from(this.following, (i) => x[i]),
      slopes,
    });
  }

  /** The support nearest to the leading unknowns of `x`, whose following ones are set as it lets expect; squared distance. */
  startFor(x: Float64Array): { readonly support: Support; readonly distance: number } {
    const { leading, following, metric, turn } = this;
    const size = leading.length;
    const off = new Float64Array(size);
    let support = this.all[0];
    let distance = Number.POSITIVE_INFINITY;
    for (const one of this.all) {
      for (let a = 0; a < size; a++) off[a] = x[leading[a]] - one.lead[a];
      let squares = 0;
      for (let a = 0; a < size; a++) {
        for (let b = 0; b < size; b++) squares += off[a] * metric[a * size + b] * off[b];
      }
      if (squares >= distance) continue;
      distance = squares;
      support = one;
    }
    for (let a = 0; a < size; a++) off[a] = x[leading[a]] - support.lead[a];
    following.forEach((i, k) => {
      let value = support.follow[k];
      for (let b = 0; b < size; b++) value += turn[k * size + b] * off[b];
      x[i] = value;
    });
    return { support, distance };
  }
}
