import type { FlankName } from '../../sim/gearset/definition.ts';
import type { PatchMove } from '../../sim/worker/longProtocol.ts';
import type { FlankOutline } from '../../sim/worker/protocol.ts';

/** Middle of a mark and the moves that start there, flank coordinates. */
export interface MarkMoves {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly moves: readonly PatchMove[];
}

/** So many times as long as the move arrows may be drawn. */
const TIMES: readonly number[] = [1, 10, 100, 1000, 10_000]
  .flatMap((decade) => [1, 1.5, 2, 3, 4, 5, 6, 8].map((step) => step * decade))
  .filter(Number.isInteger);
/** Shares of the face width: longer arrows hide the mark, shorter ones show no direction. */
const LONGEST = 0.25;
const SHORTEST = 0.045;

/** Length of a move on the map as a share of the face width. */
function lengthOf(move: PatchMove, toeHeel: number, outline: FlankOutline): number {
  const { faceWidth, face, workingRoot } = outline;
  const along = 0.5 * toeHeel * faceWidth;
  const height = face.d0 - workingRoot.d0 + (face.slope - workingRoot.slope) * along;
  return Math.hypot(0.5 * move.toeHeel, (0.5 * move.rootFace * height) / faceWidth);
}

/**
 * How many times as long all arrows of both maps are drawn: one factor, so that they compare. The largest with which
 * every tip stays on its flank and no arrow is too long; more than that where the longest would be a dot.
 */
export function arrowTimes(marks: readonly MarkMoves[], outline: FlankOutline): number {
  let longest = 0;
  let room = Number.POSITIVE_INFINITY;
  for (const { toeHeel, rootFace, moves } of marks) {
    for (const move of moves) {
      longest = Math.max(longest, lengthOf(move, toeHeel, outline));
      room = Math.min(room, roomFor(toeHeel, move.toeHeel), roomFor(rootFace, move.rootFace));
    }
  }
  if (longest === 0) return 1;
  const inside = TIMES.findLast((times) => times <= room && times * longest <= LONGEST) ?? 1;
  const seen = TIMES.find((times) => times * longest >= SHORTEST) ?? inside;
  return Math.max(inside, seen);
}

/** How many times the step fits between here and the border at ±1. */
const roomFor = (from: number, step: number): number =>
  step === 0 ? Number.POSITIVE_INFINITY : Math.max(0, (Math.sign(step) - from) / step);

export interface PlacedArrow<Name> {
  readonly name: Name;
  readonly from: readonly [x: number, y: number];
  readonly to: readonly [x: number, y: number];
  /** middle of its sign */
  readonly sign: readonly [x: number, y: number];
}

/** px: from the tip to the middle of its sign, nearest first, and how near two signs may come */
const SIGN_GAPS = [12, 24, 36] as const;
const SIGN_APART = 17;
/** rad from straight on */
const SIGN_TURNS = [0, 1, -1, 2, -2, 3, -3].map((eighth) => (eighth * Math.PI) / 4);

/** Arrows in px of the drawing, signs beyond their tips and clear of each other. */
export function placeArrows<Name>(
  { toeHeel, rootFace }: Pick<MarkMoves, 'toeHeel' | 'rootFace'>,
  moves: readonly { readonly name: Name; readonly move: PatchMove }[],
  times: number,
  place: (u: number, v: number) => readonly [x: number, y: number],
): readonly PlacedArrow<Name>[] {
  const from = place(toeHeel, rootFace);
  const placed: PlacedArrow<Name>[] = [];
  for (const { name, move } of moves) {
    const to = place(toeHeel + times * move.toeHeel, rootFace + times * move.rootFace);
    const [x, y] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(x, y);
    const [ex, ey] = length < 1e-9 ? [1, 0] : [x / length, y / length];
    const at = (gap: number, turn: number): readonly [number, number] => [
      to[0] + gap * (ex * Math.cos(turn) - ey * Math.sin(turn)),
      to[1] + gap * (ex * Math.sin(turn) + ey * Math.cos(turn)),
    ];
    const isClear = ([sx, sy]: readonly [number, number]): boolean =>
      placed.every(({ sign }) => Math.hypot(sx - sign[0], sy - sign[1]) >= SIGN_APART);
    // round the tip, from straight on to either side, until it is clear of those before it
    const places = SIGN_GAPS.flatMap((gap) => SIGN_TURNS.map((turn) => at(gap, turn)));
    const sign = places.find(isClear) ?? places[0];
    placed.push({ name, from, to, sign });
  }
  return placed;
}

/** The moves of one flank that there are. */
export const movesOfFlank = <Name>(
  list: readonly { readonly name: Name; readonly moves: Readonly<Record<FlankName, PatchMove | null>> }[],
  flank: FlankName,
): readonly { readonly name: Name; readonly move: PatchMove }[] =>
  list.flatMap(({ name, moves }) => {
    const move = moves[flank];
    return move === null ? [] : [{ name, move }];
  });
