import type { AdviceAnswer, Expected, Spread } from '../../../../sim/worker/diagnoseProtocol.ts';
import { type Lengths, SHIM_DIGITS } from '../../../app/ui/useLengths.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { axleOf } from '../../../state/axles.ts';
import type { Look } from '../../../state/look.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import styles from './answer.module.css';

export interface ExpectedTableProps {
  readonly advice: Exclude<AdviceAnswer, { readonly kind: 'refused' }>;
  readonly look: Look;
  readonly lengths: Lengths;
}

const WISHES_SHOWN = ['backlash', 'noEdge', 'drive', 'coast'] as const;

/** What paint and dial show now and should show then, with how sure that is. */
export function ExpectedTable({ advice, look, lengths }: ExpectedTableProps) {
  const t = useText();
  const film = lengths.say(axleOf(look.axleId).axle.film_mm, SHIM_DIGITS);
  const { now, change } = advice;
  const columns: readonly { readonly key: 'now' | 'then'; readonly expected: Expected }[] =
    change === null
      ? [{ key: 'now', expected: now }]
      : [
          { key: 'now', expected: now },
          { key: 'then', expected: change.expected },
        ];
  return (
    <table className={styles.expected}>
      <caption>
        {t('match.answer.next.title')} <span>{t('match.answer.next.as', { film })}</span>
      </caption>
      <thead>
        <tr>
          <td />
          {columns.map(({ key }) => (
            <th key={key} scope="col">
              {t(`match.answer.next.${key}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {FLANK_ORDER.map((flank) => (
          <tr key={flank}>
            <th scope="row">{t(`flank.name.${flank}`)}</th>
            {columns.map(({ key, expected }) => (
              <td key={key}>
                {placeWords(expected[flank].toeHeel, 'along', t)}
                <br />
                {placeWords(expected[flank].rootFace, 'up', t)}
              </td>
            ))}
          </tr>
        ))}
        <tr>
          <th scope="row">{t('match.answer.next.dial')}</th>
          {columns.map(({ key, expected }) => (
            <td key={key} className={styles.reading}>
              {readingWords(expected.backlash, lengths, t)}
            </td>
          ))}
        </tr>
        {WISHES_SHOWN.map((wish) => (
          <tr key={wish} className={styles.wish}>
            <th scope="row">{t(`match.answer.wish.${wish}`)}</th>
            {columns.map(({ key, expected }) => (
              <td key={key}>
                {t('match.answer.next.percent', { percent: Math.round(expected.met[wish] * 100) })}
              </td>
            ))}
          </tr>
        ))}
        <tr className={styles.wish}>
          <th scope="row">{t('match.answer.next.all')}</th>
          {columns.map(({ key, expected }) => (
            <td key={key}>
              {t('match.answer.next.percent', { percent: Math.round(expected.allMet * 100) })}
            </td>
          ))}
        </tr>
      </tbody>
    </table>
  );
}

function placeWords({ mean, sd }: Spread, way: 'along' | 'up', t: Translate): string {
  if (!Number.isFinite(mean)) return t('match.answer.next.none');
  const amount = Math.abs(Math.round(mean * 100));
  const spread = Math.round(sd * 100);
  return way === 'along'
    ? t('match.answer.next.along', { amount, sd: spread, end: mean < 0 ? 'toe' : 'heel' })
    : t('match.answer.next.up', { amount, sd: spread, end: mean < 0 ? 'root' : 'face' });
}

function readingWords({ mean, sd }: Spread, lengths: Lengths, t: Translate): string {
  if (!Number.isFinite(mean)) return t('match.answer.next.unread');
  return t('match.answer.next.reading', {
    mean: lengths.number(mean, SHIM_DIGITS),
    sd: lengths.say(sd, SHIM_DIGITS),
  });
}
