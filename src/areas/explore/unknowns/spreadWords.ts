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
  const up = way(rootFace, ['root', 'face'], t);
  const along = way(toeHeel, ['toe', 'heel'], t);
  return { robust: up.robust, words: t('spread.ways', { up: up.words, along: along.words }) };
}

function way({ positive, negative }: Tendency, [below, above]: Ends, t: Translate): WayWords {
  const share = Math.max(positive, negative);
  if (!Number.isFinite(share)) return { robust: false, words: t('spread.noMark') };
  const robust = share >= ROBUST;
  const edge = t(`flank.edge.${positive >= negative ? above : below}`);
  return { robust, words: t(robust ? 'spread.robust' : 'spread.open', { edge, percent: percent(share) }) };
}
