import { climb, isSame, type Mode } from './climb.ts';
import type { Evidence } from './evidence.ts';
import type { HousedMode } from './modes.ts';
import { type Posterior, samplePosterior } from './posterior.ts';
import { HOUSINGS, type Housing, type Priors, spreadOf } from './unknowns.ts';

/** Starts of the search in prior standard deviations of pinionIn and ringAway: combined faults are found from them. */
const STARTS: ReadonlyArray<readonly [number, number]> = [
  [0, 0],
  [1.2, 0.4],
  [-1.2, -0.4],
  [0.3, -1.2],
  [-0.3, 1.2],
];
/** Starts of a housing fault, in its prior standard deviations, beside the best sound explanation. */
const FAULT_STARTS = [-0.8, 0.8] as const;
/** A mode this much worse (sum of squares) than the best weighs less than a hundred-thousandth. */
const HOPELESS = 24;

export interface Inference {
  readonly modes: readonly HousedMode[];
  readonly posterior: Posterior;
  readonly spreads: Readonly<Record<Housing, Float64Array>>;
}

/** All explanations of the evidence and the posterior around them. */
export const infer = (evidence: Evidence, priors: Priors): Inference => {
  const stated = evidence.sightings.map(({ seen }) => seen.film !== null);
  const spreads = Object.fromEntries(
    HOUSINGS.map((housing) => [housing, spreadOf(evidence.layout, priors, housing, stated)]),
  ) as Record<Housing, Float64Array>;
  const modes = findModes(evidence, spreads);
  return { modes, spreads, posterior: samplePosterior(evidence, modes, spreads, priors) };
};

const findModes = (
  evidence: Evidence,
  spreads: Readonly<Record<Housing, Float64Array>>,
): readonly HousedMode[] => {
  const sound = climbAll(
    evidence,
    spreads.sound,
    STARTS.map(([p, r]) => {
      const start = new Float64Array(evidence.layout.count);
      start[0] = p * spreads.sound[0];
      start[1] = r * spreads.sound[1];
      return start;
    }),
  );
  const found: HousedMode[] = sound.map((mode) => ({ housing: 'sound', mode }));
  for (const housing of ['offset', 'shaft-angle'] as const) {
    const at = housing === 'offset' ? 2 : 3;
    const spread = spreads[housing];
    const starts = FAULT_STARTS.map((step) => {
      const start = sound[0].x.slice();
      start[at] += step * spread[at];
      return start;
    });
    for (const mode of climbAll(evidence, spread, starts, turned(sound[0], spreads.sound, spread)))
      found.push({ housing, mode });
  }
  const best = Math.min(...found.map(({ mode }) => mode.cost));
  return found.filter(({ mode }) => mode.cost < best + HOPELESS);
};

/** Slopes of a mode per standard deviation of another prior. */
const turned = ({ slopes }: Mode, from: Float64Array, to: Float64Array): Float64Array =>
  slopes.map((slope, k) => (slope * to[k % to.length]) / from[k % from.length]);

/** Modes reached from the starts, best first, none twice. */
const climbAll = (
  evidence: Evidence,
  spread: Float64Array,
  starts: readonly Float64Array[],
  slopes: Float64Array | null = null,
): readonly Mode[] => {
  const reached: Mode[] = [];
  for (const start of starts) {
    const mode = climb(evidence, spread, start, reached, slopes);
    if (mode) reached.push(mode);
  }
  const kept: Mode[] = [];
  for (const mode of reached.sort((a, b) => a.cost - b.cost)) {
    if (!kept.some((other) => isSame(other.x, mode.x, spread))) kept.push(mode);
  }
  return kept;
};
