import type { EdgeName } from '../contact/report.ts';

/** Borders at which a mark ends in a hard line or runs off; left out when nobody looked. */
interface EdgesSeen {
  readonly edges?: readonly EdgeName[] | undefined;
}

/** A mark as a person would state it, in flank coordinates (docs/model.md §4, §7). */
export interface DescribedMark extends EdgesSeen {
  readonly kind: 'descriptors';
  /** middle of the mark, −1 toe … +1 heel, and −1 working root … +1 face */
  readonly toeHeel: number;
  readonly rootFace: number;
  /** extents halved; null when not judged */
  readonly length: number | null;
  readonly height: number | null;
}

/** A closed outline, corners in flank coordinates [toeHeel, rootFace]. */
export interface OutlinedMark extends EdgesSeen {
  readonly kind: 'outline';
  readonly outline: ReadonlyArray<readonly [number, number]>;
}

/** A raster over the flank square: first row at the working root, first column at the toe; 1 = marked. */
export interface MaskedMark extends EdgesSeen {
  readonly kind: 'mask';
  readonly columns: number;
  readonly rows: number;
  /** row by row, columns·rows entries */
  readonly data: ArrayLike<number>;
}

export type SeenMark = DescribedMark | OutlinedMark | MaskedMark;

/** One look at the axle: what the paint shows on either flank or both, and the dial. */
export interface Observation {
  readonly drive: SeenMark | null;
  readonly coast: SeenMark | null;
  /** mm, square to the drive flank at the heel, one per place round the ring; may be empty */
  readonly backlash: readonly number[];
  readonly uncertainty: Uncertainty;
  /** mm, when the film is known; null: the workshop's film, less surely */
  readonly film: number | null;
}

export interface Uncertainty {
  /** flank coordinates, standard deviation of every number read off a mark */
  readonly patch: number;
  /** mm, standard deviation of one dial reading */
  readonly backlash: number;
}

export const CAREFUL: Uncertainty = { patch: 0.05, backlash: 0.01 };
export const ROUGH: Uncertainty = { patch: 0.1, backlash: 0.02 };

/**
 * A look at the axle together with where pinion and ring stood then, relative to now: the same set seen with other
 * shims says more than twice as much. mm of pinionIn and ringAway; zero for the present look.
 */
export interface Sighting {
  readonly seen: Observation;
  readonly pinionIn: number;
  readonly ringAway: number;
}

/** Most earlier looks that a diagnosis uses; the oldest go first. */
export const MOST_EARLIER = 7;
