import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { Distribution, MarkSpread, Spread, Tendency } from '../../../../sim/worker/longProtocol.ts';
import type { Translate } from '../../../text/translate.ts';

/** Share of the sets from which on an answer is called robust. */
export const ROBUST = 0.9;

const percent = (share: number): number => Math.round(100 * Math.abs(share));

type Ends = readonly [below: 'toe' | 'root', above: 'heel' | 'face'];

const place = (share: number, [below, above]: Ends, t: Translate): string =>
  t('spread.place', { percent: percent(share), edge: t(`flank.edge.${share < 0 ? below : above}`) });

const band = ({ low, high }: Distribution, ends: Ends, t: Translate): string =>
  t('spread.band', { from: place(low, ends, t), to: place(high, ends, t) });

/** Where the middle of the mark lies in nine of ten sets. */
export function bandWords({ toeHeel, rootFace }: MarkSpread, t: Translate): string {
  return t('spread.middle', {
    along: band(toeHeel, ['toe', 'heel'], t),
    up: band(rootFace, ['root', 'face'], t),
  });
}

/** Which way a step takes the mark, and in how many of the sets. */
export interface WayWords {
  readonly robust: boolean;
  readonly words: string;
}

/** Root or face first: depth is what a shim is chosen by. */
export function wayWords(spread: Spread, step: number, flank: FlankName, t: Translate): WayWords {
  const { toeHeel, rootFace } = spread.moves[step][flank];
  const ways = [wayOf(rootFace, ['root', 'face']), wayOf(toeHeel, ['toe', 'heel'])];
  if (ways.some(({ share }) => !Number.isFinite(share))) return { robust: false, words: t('spread.noMark') };
  const say = ({ edge, share }: Way): string =>
    t('spread.way', { edge: t(`flank.edge.${edge}`), percent: percent(share) });
  const firm = ways.filter(({ share }) => share >= ROBUST).map(say);
  const open = ways.filter(({ share }) => share < ROBUST).map(say);
  const words = [
    ...(firm.length > 0 ? [t('spread.robust', { ways: firm.join(t('spread.and')) })] : []),
    ...(open.length > 0 ? [t('spread.open', { ways: open.join(t('spread.and')) })] : []),
  ].join('; ');
  return { robust: ways[0].share >= ROBUST, words };
}

interface Way {
  readonly edge: Ends[number];
  /** of the sets that have a mark to move */
  readonly share: number;
}

const wayOf = ({ positive, negative }: Tendency, [below, above]: Ends): Way =>
  positive >= negative ? { edge: above, share: positive } : { edge: below, share: negative };
