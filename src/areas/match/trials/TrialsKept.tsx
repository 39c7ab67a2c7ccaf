import { useRef, useState } from 'react';
import { Button } from '../../../app/ui/controls.tsx';
import type { Trial } from '../../../state/trial.ts';
import { deleteTrial, openTrial, restoreTrial, useTrials } from '../../../state/trials.ts';
import { MOST_DELETED } from '../../../storage/storedList.ts';
import { useText } from '../../../text/useText.ts';
import inputs from '../inputs/inputs.module.css';
import { refusedWords } from './keptWords.ts';
import { TrialLine } from './TrialLine.tsx';
import styles from './trials.module.css';

/** The trials of an axle, newest first; nothing while there are none. */
export function TrialsKept({ axleId }: { readonly axleId: string }) {
  const t = useText();
  const { trials, deleted, unread } = useTrials();
  const [said, setSaid] = useState('');
  const section = useRef<HTMLElement>(null);
  const ofAxle = (all: readonly Trial[]) =>
    all.filter((trial) => trial.axleId === axleId).sort((a, b) => b.number - a.number);
  const [kept, gone] = [ofAxle(trials), ofAxle(deleted)];
  if (kept.length === 0 && gone.length === 0 && unread.length === 0) return null;

  const open = (trial: Trial) => {
    openTrial(trial);
    setSaid(t('match.trial.said.opened', { number: trial.number }));
  };
  const remove = (trial: Trial) => {
    const outcome = deleteTrial(trial.id);
    // the button that had the focus goes with its line
    section.current?.focus();
    setSaid(
      outcome.ok ? t('match.trial.said.deleted', { number: trial.number }) : refusedWords(outcome.problem, t),
    );
  };
  const restore = (trial: Trial) => {
    const outcome = restoreTrial(trial.id);
    section.current?.focus();
    setSaid(
      outcome.ok
        ? t('match.trial.said.restored', { number: trial.number })
        : refusedWords(outcome.problem, t),
    );
  };
  const action = (what: 'open' | 'delete' | 'restore', { number }: Trial, onPress: () => void) => (
    <Button quiet onPress={onPress}>
      {t(`match.trial.${what}`)} <span className="visually-hidden">{t('match.trial.which', { number })}</span>
    </Button>
  );
  return (
    <section ref={section} className={inputs.block} aria-label={t('match.trial.title')} tabIndex={-1}>
      <details className={styles.kept}>
        <summary>
          <h3>{t('match.trial.summary', { count: kept.length })}</h3>
        </summary>
        <p role="status" className={styles.said}>
          {said}
        </p>
        <ol className={styles.list}>
          {kept.map((trial) => (
            <TrialLine key={trial.id} trial={trial}>
              {action('open', trial, () => open(trial))}
              {action('delete', trial, () => remove(trial))}
            </TrialLine>
          ))}
        </ol>
        {gone.length > 0 && (
          <>
            <h4 className={styles.deletedTitle}>{t('match.trial.deleted')}</h4>
            <p className={inputs.why}>{t('match.trial.deleted.why', { most: MOST_DELETED })}</p>
            <ul className={styles.list} aria-label={t('match.trial.deleted')}>
              {gone.map((trial) => (
                <TrialLine key={trial.id} trial={trial}>
                  {action('restore', trial, () => restore(trial))}
                </TrialLine>
              ))}
            </ul>
          </>
        )}
      </details>
      {unread.length > 0 && (
        <p className={inputs.why}>{t('match.trial.unread', { count: unread.length, ...unread[0] })}</p>
      )}
    </section>
  );
}
