import { Icon } from '../../app/ui/Icon.tsx';
import {
  COARSE_DIGITS,
  type Digits,
  type Lengths,
  SHIM_DIGITS,
  useLengths,
} from '../../app/ui/useLengths.ts';
import { axleOf } from '../../state/axles.ts';
import { useMesh } from '../../state/mesh.ts';
import type { Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { BacklashScale } from './BacklashScale.tsx';
import { type BacklashReading, judgeBacklash } from './backlash.ts';
import styles from './explore.module.css';

const READING_DIGITS: Digits = { mm: 3, in: 4 };

/** The dial at the heel, both ways of holding it, against the limits of the axle that is shown. */
export function BacklashPanel() {
  const t = useText();
  const lengths = useLengths();
  const shown = useMesh((state) => state.shown);
  if (shown === null) {
    return (
      <section className={styles.backlash} aria-label={t('explore.backlash.title')}>
        <h3 className={styles.blockTitle}>{t('explore.backlash.title')}</h3>
        <p className={styles.words}>{t('explore.backlash.waiting')}</p>
      </section>
    );
  }
  const limits = axleOf(shown.axleId).axle.limits.backlash;
  const report = shown.result.backlash;
  const reading = judgeBacklash(report, limits);
  const say = (mm: number | null) => (mm === null ? '–' : lengths.number(mm, READING_DIGITS));
  const rows = [
    { way: 'square', least: report.normal, mean: report.normalMean },
    { way: 'tangential', least: report.tangential, mean: report.tangentialMean },
  ] as const;
  const words = verdictWords(reading, t, lengths);
  return (
    <section
      className={styles.backlash}
      aria-label={t('explore.backlash.title')}
      data-verdict={reading.verdict}
    >
      <table className={`${styles.readings} numbers`}>
        <caption className={styles.readingsCaption}>
          <span className={styles.blockTitle}>{t('explore.backlash.title')}</span>{' '}
          <span className={styles.blockNote}>
            {lengths.unitText}, {t('explore.backlash.head')}
          </span>
        </caption>
        <thead>
          <tr>
            <td />
            <th scope="col">{t('explore.backlash.least')}</th>
            <th scope="col">{t('explore.backlash.mean')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.way} data-read={row.way === limits.reads ? '' : undefined}>
              <th scope="row">{t(`explore.backlash.${row.way}`)}</th>
              <td data-reading={`${row.way}-least`}>{say(row.least)}</td>
              <td data-reading={`${row.way}-mean`}>{say(row.mean)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <BacklashScale
        reading={reading}
        limits={limits}
        lengths={lengths}
        label={t('explore.backlash.scale', { words })}
      />
      <p className={styles.verdict} data-verdict={reading.verdict}>
        <Icon name={reading.verdict === 'inside' ? 'check' : 'caution'} size={18} />
        <span>
          <strong>{words}</strong>{' '}
          <span className={styles.limitsText}>
            {t('explore.backlash.limits', {
              least: lengths.number(limits.min, COARSE_DIGITS),
              most: lengths.say(limits.max, COARSE_DIGITS),
              reads: limits.reads,
            })}
          </span>
        </span>
      </p>
    </section>
  );
}

export function verdictWords(reading: BacklashReading, t: Translate, lengths: Lengths): string {
  switch (reading.verdict) {
    case 'binds':
      return t('explore.backlash.binds');
    case 'inside':
      return t('explore.backlash.inside');
    case 'below':
    case 'above':
      return t(`explore.backlash.${reading.verdict}`, {
        amount: lengths.amount(reading.beyond, SHIM_DIGITS),
      });
    case 'unknown':
      return t('explore.backlash.unknown');
  }
}
