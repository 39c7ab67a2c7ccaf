import { climb } from './climb.ts';
import type { Evidence, ReadingName } from './evidence.ts';
import type { HousedMode } from './modes.ts';
import type { Housing } from './unknowns.ts';

/** Readings that no pose, housing and set the priors allow can explain together. */
export interface Contradiction {
  /** those whose leaving out would settle it; all of them when no single one would */
  readonly readings: readonly ReadingName[];
  /** chance of a misfit this bad if everything were as assumed */
  readonly chance: number;
}

/** Below this the evidence contradicts itself. */
const TOO_UNLIKELY = 0.001;
/** Leaving a reading out settles it when the rest is at least this likely. */
const SETTLED = 0.02;
/** A dial reading this many standard deviations off the middle one stands alone; sd includes ordinary runout, mm. */
const ALONE = 5;
const ORDINARY_RUNOUT = 0.02;

/** Chance that a sum of `n` squared standard normals exceeds `x` (Wilson and Hilferty's cube root). */
const chanceAbove = (x: number, n: number): number => {
  if (n <= 0) return 1;
  const z = (Math.cbrt(x / n) - (1 - 2 / (9 * n))) / Math.sqrt(2 / (9 * n));
  return 0.5 * erfc(z / Math.SQRT2);
};

/** Abramowitz and Stegun's rational form 7.1.26; error below 2e-7. */
const erfc = (x: number): number => {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return x >= 0 ? tail : 2 - tail;
};

/**
 * The best explanation's cost (misfit and prior together) is distributed as χ² with as many degrees of freedom as
 * data, if everything is as assumed. Null when it is believable.
 */
export const findContradiction = (
  evidence: Evidence,
  modes: readonly HousedMode[],
  spreads: Readonly<Record<Housing, Float64Array>>,
): Contradiction | null => {
  const scattered = scatteredDial(evidence);
  if (scattered) return scattered;
  const best = modes.reduce((a, b) => (b.mode.cost < a.mode.cost ? b : a));
  const chance = chanceAbove(best.mode.cost, evidence.data.length);
  if (chance >= TOO_UNLIKELY) return null;
  const groups = new Map<string, { readonly reading: ReadingName; readonly sighting: number }>();
  for (const { reading, sighting } of evidence.data) {
    groups.set(`${reading} ${sighting}`, { reading, sighting });
  }
  const suspects: ReadingName[] = [];
  for (const { reading, sighting } of groups.values()) {
    const rest = evidence.without(reading, sighting);
    if (rest.data.length === 0) continue;
    const costs = modes.flatMap(({ housing, mode }) => climb(rest, spreads[housing], mode.x)?.cost ?? []);
    if (chanceAbove(Math.min(...costs), rest.data.length) > SETTLED) suspects.push(reading);
  }
  const named = suspects.length > 0 ? suspects : [...groups.values()].map(({ reading }) => reading);
  return { readings: [...new Set(named)], chance };
};

const scatteredDial = ({ sightings }: Evidence): Contradiction | null => {
  for (const { seen } of sightings) {
    if (seen.backlash.length < 3) continue;
    const sorted = [...seen.backlash].sort((a, b) => a - b);
    const middle = sorted[sorted.length >> 1];
    const sd = Math.hypot(seen.uncertainty.backlash, ORDINARY_RUNOUT);
    const worst = Math.max(...sorted.map((reading) => Math.abs(reading - middle))) / sd;
    if (worst > ALONE) return { readings: ['backlash'], chance: chanceAbove(worst * worst, 1) };
  }
  return null;
};
