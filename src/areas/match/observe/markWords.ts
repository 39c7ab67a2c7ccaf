import { percent } from '../../../flank/describePattern.ts';
import type { MarkShape } from '../../../state/paintedMark.ts';
import type { Translate } from '../../../text/translate.ts';

/** "Middle 18 % toe, 5 % face; covers 60 % of length, 72 % of height", in the words of every map. */
export function markWords(shape: MarkShape | null, t: Translate): string {
  if (shape === null) return t('match.paint.none');
  const along = percent(shape.toeHeel);
  const up = percent(shape.rootFace);
  const middle = t('flank.centre.value', {
    along:
      along === 0
        ? t('flank.centre.midLength')
        : t('flank.centre.share', {
            percent: Math.abs(along),
            edge: t(along < 0 ? 'flank.edge.toe' : 'flank.edge.heel'),
          }),
    up:
      up === 0
        ? t('flank.centre.midHeight')
        : t('flank.centre.share', {
            percent: Math.abs(up),
            edge: t(up < 0 ? 'flank.edge.root' : 'flank.edge.face'),
          }),
  });
  return t('match.paint.shape', {
    middle,
    length: percent(shape.length),
    height: percent(shape.height),
  });
}
