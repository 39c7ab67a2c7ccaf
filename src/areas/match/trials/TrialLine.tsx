import type { ReactNode } from 'react';
import { SHIM_DIGITS, useLengths } from '../../../app/ui/useLengths.ts';
import { axleOf } from '../../../state/axles.ts';
import type { Trial } from '../../../state/trial.ts';
import { useText } from '../../../text/useText.ts';
import { listWords } from '../answer/answerWords.ts';
import { shimsWords } from '../shimsWords.ts';
import styles from './trials.module.css';

export interface TrialLineProps {
  readonly trial: Trial;
  /** what can be done with it */
  readonly children: ReactNode;
}

/** A trial in words: when, what was fitted and read, what was advised. */
export function TrialLine({ trial, children }: TrialLineProps) {
  const t = useText();
  const lengths = useLengths();
  const { axle } = axleOf(trial.axleId);
  const { look, advised, note } = trial;
  const { readings } = look;
  const say = readings.map((reading) => lengths.say(reading, SHIM_DIGITS));
  return (
    <li>
      <p className={styles.name}>
        {t('match.trial.name', { number: trial.number })}{' '}
        <time dateTime={trial.when}>{t('match.trial.when', { when: new Date(trial.when) })}</time>
      </p>
      <p>
        {t('match.trial.fitted', { shims: shimsWords(look.fitment, axle, lengths, t) })}{' '}
        {t('match.trial.dial', {
          count: say.length,
          readings: say.length === 0 ? '' : listWords(say, t),
        })}
      </p>
      <p>
        {advised.kind === 'change' && advised.fitment !== null
          ? t('match.trial.advised.change', { shims: shimsWords(advised.fitment, axle, lengths, t) })
          : t(`match.trial.advised.${advised.kind === 'refused' ? 'refused' : 'leave'}`)}
      </p>
      {note !== '' && <p className={styles.written}>{note}</p>}
      <div className={styles.actions}>{children}</div>
    </li>
  );
}
