import type { FlankName } from '../../../sim/gearset/definition.ts';
import { arrowTimes, movesOfFlank } from '../../flank/moveArrows.ts';
import type { AdjustmentName } from '../../state/adjustments.ts';
import type { PatchMovesStore } from '../../state/patchMoves.ts';
import type { MarkCentre } from '../../state/traces.ts';

type ShownMoves = NonNullable<PatchMovesStore['shown']>;

export interface DrawnMoves {
  readonly flanks: Readonly<
    Record<
      FlankName,
      { readonly centre: MarkCentre; readonly moves: ReturnType<typeof movesOfFlank<AdjustmentName>> }
    >
  >;
  /** all arrows are drawn so many times as long */
  readonly times: number;
}

const kept = new WeakMap<ShownMoves, DrawnMoves>();

/** The arrows of both maps; worked out once for maps and key. */
export function drawnMoves(shown: ShownMoves): DrawnMoves {
  const found = kept.get(shown);
  if (found !== undefined) return found;
  const { result, loaded } = shown.of;
  const list = shown.list.map(({ adjustment, moves }) => ({ name: adjustment.name, moves }));
  const of = (flank: FlankName) => {
    const { toeHeel, rootFace } = result[flank];
    const centre: MarkCentre = toeHeel === null || rootFace === null ? null : { toeHeel, rootFace };
    return { centre, moves: movesOfFlank(list, flank) };
  };
  const flanks = { drive: of('drive'), coast: of('coast') };
  const marks = Object.values(flanks).flatMap(({ centre, moves }) =>
    centre === null ? [] : [{ ...centre, moves: moves.map(({ move }) => move) }],
  );
  const drawn = { flanks, times: arrowTimes(marks, loaded.outline) };
  kept.set(shown, drawn);
  return drawn;
}
