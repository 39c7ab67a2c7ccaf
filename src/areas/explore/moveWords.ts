import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { PatchMove } from '../../../sim/worker/longProtocol.ts';
import type { EdgeName, SolveResult } from '../../../sim/worker/protocol.ts';
import type { Lengths } from '../../app/ui/useLengths.ts';
import type { AdjustmentMoves } from '../../state/patchMoves.ts';
import type { Translate } from '../../text/translate.ts';
import { formatDegrees, formatNumber } from '../../units/format.ts';

/** Percent of the way from mid-flank to an edge, with the digits a small step needs; null: less than can be said. */
function percentText(share: number): string | null {
  const percent = Math.abs(share) * 100;
  const decimals = percent >= 9.95 ? 0 : percent >= 0.095 ? 1 : 2;
  const text = formatNumber(percent, decimals);
  return /[1-9]/.test(text) ? text : null;
}

interface Part {
  readonly percent: string;
  readonly edge: string;
}

/** How far and to which edge, up the flank and along it; null: no way that can be said. */
function partsOf(
  { toeHeel, rootFace }: PatchMove,
  t: Translate,
): { readonly up: Part | null; readonly along: Part | null } {
  const part = (value: number, below: EdgeName, above: EdgeName): Part | null => {
    const percent = percentText(value);
    return percent === null ? null : { percent, edge: t(`flank.edge.${value < 0 ? below : above}`) };
  };
  return { up: part(rootFace, 'root', 'face'), along: part(toeHeel, 'toe', 'heel') };
}

/** "3.6 % toward root, 1.2 % toward toe" */
export function moveWords(move: PatchMove, t: Translate): string {
  const { up, along } = partsOf(move, t);
  if (up !== null && along !== null)
    return t('moves.both', { up: t('moves.share', { ...up }), along: t('moves.share', { ...along }) });
  const only = up ?? along;
  return only === null ? t('moves.stays') : t('moves.share', { ...only });
}

/** "toward root 3.6 %, toe 1.2 %": for a line of its own below a map */
export function shortMoveWords(move: PatchMove, t: Translate): string {
  const { up, along } = partsOf(move, t);
  if (up !== null && along !== null)
    return t('moves.short.both', {
      up: up.edge,
      upPercent: up.percent,
      along: along.edge,
      alongPercent: along.percent,
    });
  const only = up ?? along;
  return only === null ? t('moves.stays') : t('moves.short', { ...only });
}

/** "Pinion shim 0.025 mm thicker" */
export function stepWords(
  { adjustment: { name, amount }, backlashKept }: AdjustmentMoves,
  offset: number,
  t: Translate,
  lengths: Lengths,
): string {
  switch (name) {
    case 'pinion':
      return t(backlashKept ? 'moves.step.pinionKept' : 'moves.step.pinion', {
        amount: lengths.move(amount),
      });
    case 'ring':
      return t('moves.step.ring', { amount: lengths.move(amount) });
    case 'offset':
      // an offset below the ring's centre is negative: more of it is the same sign
      return t('moves.step.offset', { amount: lengths.move(amount), way: offset > 0 ? 'more' : 'less' });
    case 'angle':
      return t('moves.step.angle', { amount: formatDegrees(amount, { decimals: amount < 0.0095 ? 3 : 2 }) });
  }
}

/** How both marks moved from one mesh to another. */
export function changeWords(from: SolveResult, to: SolveResult, t: Translate): string {
  const of = (name: FlankName): string => {
    const flank = t(`flank.name.${name}`);
    const [was, is] = [from[name], to[name]];
    const before = was.toeHeel !== null && was.rootFace !== null;
    const now = is.toeHeel !== null && is.rootFace !== null;
    if (!before) return t(now ? 'moves.former.appeared' : 'moves.former.none', { flank });
    if (!now) return t('moves.former.gone', { flank });
    const move = {
      toeHeel: (is.toeHeel ?? 0) - (was.toeHeel ?? 0),
      rootFace: (is.rootFace ?? 0) - (was.rootFace ?? 0),
    };
    return t('moves.former.moved', { flank, move: moveWords(move, t) });
  };
  return t('moves.former', { drive: of('drive'), coast: of('coast') });
}
