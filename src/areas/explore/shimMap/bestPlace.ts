import type { AxleLimits } from '../../../../models/axle.ts';
import { type Combination, type Combinations, pointOf } from '../../../shimMap/combinations.ts';
import type { MapFields } from '../../../shimMap/fields.ts';
import { sampleAt } from '../../../shimMap/plane.ts';
import { isClearOfEdges, readingAt } from './placeState.ts';

export interface BestPlace {
  readonly combination: Combination;
  readonly offHome: number;
  /** false: no combination within the limits keeps both marks clear of the edges */
  readonly clearOfEdges: boolean;
}

/**
 * Of the combinations with the backlash within the limits and both marks clear of every edge, the one with the marks
 * nearest to home. Where none is clear of the edges, nearest to home within the limits. Null where none is within the limits.
 */
export function bestPlace(
  fields: MapFields,
  limits: AxleLimits['backlash'],
  combinations: Combinations,
): BestPlace | null {
  let best: BestPlace | null = null;
  combinations.shims.forEach((_, shim) => {
    combinations.rings.forEach((__, ring) => {
      const combination = { shim, ring };
      const point = pointOf(combinations, combination);
      if (readingAt(fields, limits, point).verdict !== 'inside') return;
      const found: BestPlace = {
        combination,
        offHome: sampleAt(fields.offHome, fields.plane, point),
        clearOfEdges: isClearOfEdges(fields, point),
      };
      if (best === null || isBetter(found, best)) best = found;
    });
  });
  return best;
}

const isBetter = (a: BestPlace, b: BestPlace): boolean =>
  a.clearOfEdges === b.clearOfEdges ? a.offHome < b.offHome - 1e-9 : a.clearOfEdges;
