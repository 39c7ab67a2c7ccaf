import type { SolveResult } from '../../../../sim/worker/protocol.ts';

/** Values at equally spaced places of one pitch from its beginning, periodic; NaN where there is no contact. */
export type PhaseCurve = ArrayLike<number>;

/** mm on the dial at the heel per rad of ring free play. */
export interface DialScales {
  readonly square: number;
  readonly tangential: number;
}

/**
 * Read off the solved dial readings themselves, so that curve and panel never differ: each reading is the same number
 * of mm per rad. NaN without a reading.
 */
export function dialScales({ backlash, freePlayCurve }: SolveResult): DialScales {
  const { least, mean } = spanOf(freePlayCurve);
  const turned = Math.abs(least) + Math.abs(mean);
  const read = (a: number | null, b: number | null): number =>
    a === null || b === null || !(turned > 0) ? Number.NaN : (Math.abs(a) + Math.abs(b)) / turned;
  return {
    square: read(backlash.normal, backlash.normalMean),
    tangential: read(backlash.tangential, backlash.tangentialMean),
  };
}

export interface Span {
  readonly least: number;
  readonly most: number;
  readonly mean: number;
}

/** Over the places with contact; NaN when there are none. */
export function spanOf(curve: PhaseCurve): Span {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let count = 0;
  for (let k = 0; k < curve.length; k += 1) {
    const value = curve[k];
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
    sum += value;
    count += 1;
  }
  if (count === 0) return { least: Number.NaN, most: Number.NaN, mean: Number.NaN };
  return { least, most, mean: sum / count };
}

export const scaled = (curve: PhaseCurve, factor: number): number[] =>
  Array.from(curve, (value) => value * factor);

/** About its own mean: how a pose shifts the whole curve is a turn that nobody hears. */
export function aboutMean(curve: PhaseCurve, factor: number): number[] {
  const { mean } = spanOf(curve);
  return Array.from(curve, (value) => (value - mean) * factor);
}

/** SVG path over one whole pitch: the first value stands again at its end. Broken where there is no contact. */
export function curvePath(
  values: PhaseCurve,
  x: (pitches: number) => number,
  y: (value: number) => number,
): string {
  let path = '';
  let drawing = false;
  for (let k = 0; k <= values.length; k += 1) {
    const value = values[k % values.length];
    if (Number.isNaN(value)) {
      drawing = false;
      continue;
    }
    path += `${drawing ? 'L' : 'M'}${x(k / values.length).toFixed(1)} ${y(value).toFixed(1)}`;
    drawing = true;
  }
  return path;
}

/** Least number of decimals that shows every multiple of `step`, at most `most`. */
export function decimalsOf(step: number, most = 6): number {
  for (let decimals = 0; decimals < most; decimals += 1) {
    const shifted = step * 10 ** decimals;
    if (Math.abs(shifted - Math.round(shifted)) < 1e-6) return decimals;
  }
  return most;
}
