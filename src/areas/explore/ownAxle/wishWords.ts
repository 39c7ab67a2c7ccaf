import type { HomePatch, PatternRefusal, WishName } from '../../../../sim/worker/longProtocol.ts';
import type { Entries } from '../../../state/axleDraft.ts';
import type { Translate } from '../../../text/translate.ts';
import { withFieldNames } from './problemText.ts';
import type { HandleName } from './wantedPatch.ts';

const percent = (share: number): number => Math.round(100 * Math.abs(share));

const along = (toeHeel: number, t: Translate): string =>
  t('ownAxle.p.along', { percent: percent(toeHeel), end: toeHeel < 0 ? 'toe' : 'heel' });
const up = (rootFace: number, t: Translate): string =>
  t('ownAxle.p.up', { percent: percent(rootFace), end: rootFace < 0 ? 'root' : 'face' });
const lean = (tilt: number, t: Translate): string =>
  t('ownAxle.p.lean', { percent: percent(tilt), end: tilt < 0 ? 'root' : 'face' });
const share = (part: 'length' | 'height', value: number, t: Translate): string =>
  t(`ownAxle.p.${part}`, { percent: percent(value) });

/** What a handle stands at. */
export function handleWords(patch: HomePatch, handle: HandleName, t: Translate): string {
  if (handle === 'centre') return `${along(patch.toeHeel, t)}, ${up(patch.rootFace, t)}`;
  if (handle === 'end') return `${share('length', patch.length, t)}, ${lean(patch.tilt, t)}`;
  return share('height', patch.height, t);
}

const one = (name: WishName, value: number, t: Translate): string => {
  switch (name) {
    case 'toeHeel':
      return along(value, t);
    case 'rootFace':
      return up(value, t);
    case 'tilt':
      return lean(value, t);
    default:
      return share(name, value, t);
  }
};

/** What is asked of the mark. */
export const wishWords = (patch: HomePatch, asked: readonly WishName[], t: Translate): string =>
  WISHES.filter((name) => asked.includes(name))
    .map((name) => one(name, patch[name], t))
    .join(', ');

const WISHES: readonly WishName[] = ['toeHeel', 'rootFace', 'length', 'tilt', 'height'];

/** Why the wish cannot be met. */
export function refusalWords(refusal: PatternRefusal, entries: Entries, t: Translate): string {
  if (refusal.kind === 'unmakeable') {
    return t('ownAxle.p.spoils', {
      value: refusal.value,
      allowed: withFieldNames(refusal.allowed, entries, t),
    });
  }
  const { wish, asked, reachable } = refusal;
  const wanted = one(wish, asked, t);
  return Number.isFinite(reachable)
    ? t('ownAxle.p.refused', { wanted, nearest: one(wish, reachable, t) })
    : t('ownAxle.p.refusedNoMark', { wanted });
}
