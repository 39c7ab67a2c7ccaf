import type { AxleLimits } from '../../../../models/axle.ts';
import type { DialDirection } from '../../../../sim/assembly/dial.ts';
import type { DialPlace } from '../../../state/dial.ts';
import { type BacklashReading, judgeBacklash } from '../backlash.ts';

/** One place's least reading, mm; null without contact. */
export const readingAt = ({ result: { backlash } }: DialPlace, direction: DialDirection): number | null =>
  direction === 'square' ? backlash.normal : backlash.tangential;

export interface Extreme {
  /** index of the place */
  readonly place: number;
  /** mm */
  readonly reading: number;
}

/** What the readings of a dial held one way come to; null when some place has no contact. */
export interface RoundExtremes {
  readonly least: Extreme;
  readonly greatest: Extreme;
  /** mm, greatest less least */
  readonly variation: number;
}

export function extremesOf(places: readonly DialPlace[], direction: DialDirection): RoundExtremes | null {
  const readings = places.map((place) => readingAt(place, direction));
  let least: Extreme | null = null;
  let greatest: Extreme | null = null;
  for (const [place, reading] of readings.entries()) {
    if (reading === null) return null;
    if (least === null || reading < least.reading) least = { place, reading };
    if (greatest === null || reading > greatest.reading) greatest = { place, reading };
  }
  if (least === null || greatest === null) return null;
  return { least, greatest, variation: greatest.reading - least.reading };
}

export interface RoundVerdict {
  /** mm beyond the variation allowed; 0 inside */
  readonly variationBeyond: number;
  /** the place that is farthest from the limits, or the first one that binds or has no contact */
  readonly worst: { readonly place: number; readonly reading: BacklashReading };
}

const RANK = { inside: 0, above: 1, below: 2, unknown: 3, binds: 4 } as const;

/**
 * All readings round the ring held against the axle's limits, in the direction those are read in.
 * @throws RangeError without any place
 */
export function judgeRound(places: readonly DialPlace[], limits: AxleLimits['backlash']): RoundVerdict {
  let worst: RoundVerdict['worst'] | null = null;
  for (const [place, { result }] of places.entries()) {
    const reading = judgeBacklash(result.backlash, limits);
    const before: BacklashReading | undefined = worst?.reading;
    if (
      before === undefined ||
      RANK[reading.verdict] > RANK[before.verdict] ||
      (reading.verdict === before.verdict && reading.beyond > before.beyond)
    ) {
      worst = { place, reading };
    }
  }
  if (worst === null) throw new RangeError('places: none; at least one is needed');
  const variation = extremesOf(places, limits.reads)?.variation ?? 0;
  return { variationBeyond: Math.max(0, variation - limits.variation), worst };
}
