import type { Distribution } from '../../../../sim/worker/longProtocol.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { arrowTimes } from '../../../flank/moveArrows.ts';
import type { AdjustmentName } from '../../../state/adjustments.ts';
import type { ShownSpread } from '../../../state/spread.ts';

export interface DrawnStep {
  readonly name: AdjustmentName;
  /** the median move */
  readonly move: { readonly toeHeel: number; readonly rootFace: number };
  readonly along: Distribution;
  readonly up: Distribution;
}

export interface DrawnFlank {
  /** the median middle of the mark; null where most sets show none */
  readonly centre: { readonly toeHeel: number; readonly rootFace: number } | null;
  readonly steps: readonly DrawnStep[];
}

export interface DrawnSpread {
  readonly flanks: Readonly<Record<(typeof FLANK_ORDER)[number], DrawnFlank>>;
  /** all arrows and their bands are drawn so many times as long */
  readonly times: number;
}

const kept = new WeakMap<ShownSpread, DrawnSpread>();

/** What both maps draw; worked out once. */
export function drawnSpread(shown: ShownSpread): DrawnSpread {
  const found = kept.get(shown);
  if (found !== undefined) return found;
  const { spread, adjustments, of } = shown;
  const flankOf = (flank: (typeof FLANK_ORDER)[number]): DrawnFlank => {
    const { toeHeel, rootFace } = spread[flank];
    if (!Number.isFinite(toeHeel.median)) return { centre: null, steps: [] };
    const steps = adjustments.flatMap(({ name }, i): readonly DrawnStep[] => {
      const { toeHeel: along, rootFace: up } = spread.moves[i][flank];
      if (!Number.isFinite(along.median)) return [];
      return [{ name, move: { toeHeel: along.median, rootFace: up.median }, along, up }];
    });
    return { centre: { toeHeel: toeHeel.median, rootFace: rootFace.median }, steps };
  };
  const flanks = { drive: flankOf('drive'), coast: flankOf('coast') };
  const marks = FLANK_ORDER.flatMap((flank) => {
    const { centre, steps } = flanks[flank];
    return centre === null ? [] : [{ ...centre, moves: steps.map(({ move }) => move) }];
  });
  const drawn = { flanks, times: arrowTimes(marks, of.loaded.outline) };
  kept.set(shown, drawn);
  return drawn;
}
