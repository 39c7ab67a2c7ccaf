import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { Button } from '../../../app/ui/controls.tsx';
import type { AnswerStore } from '../../../state/answer.ts';
import { axleOf } from '../../../state/axles.ts';
import type { Look } from '../../../state/look.ts';
import { MOST_NOTE_CHARACTERS } from '../../../state/trial.ts';
import { keepTrial, trialOfLook, useTrials } from '../../../state/trials.ts';
import { useText } from '../../../text/useText.ts';
import { keptWords } from './keptWords.ts';
import styles from './trials.module.css';

export interface KeepTrialProps {
  readonly answered: NonNullable<AnswerStore['answered']>;
  /** the answer is that to the present look: only then do the two belong together in a record */
  readonly current: boolean;
}

/** Look and answer go into the record of the job, with a note. */
export function KeepTrial({ answered, current }: KeepTrialProps) {
  const t = useText();
  const { look } = answered;
  const trials = useTrials((state) => state.trials);
  const kept = useMemo(() => trialOfLook(trials, look), [trials, look]);
  const [typed, setTyped] = useState<string | null>(null);
  // what was said of one look is not true of the next
  const [said, setSaid] = useState<{ readonly of: Look; readonly text: string } | null>(null);
  const status = useRef<HTMLParagraphElement>(null);
  // the button may be the last thing in sight, and what became of it below
  useEffect(() => {
    if (said !== null) status.current?.scrollIntoView({ block: 'nearest' });
  }, [said]);
  const note = typed ?? kept?.note ?? '';
  // told while it is written, and never cut: nothing that was put in is lost
  const characters = note.trim().length;
  const tooLong = characters > MOST_NOTE_CHARACTERS;
  const tooLongId = useId();
  const able = current && !tooLong;
  const keep = () => {
    const outcome = keepTrial(answered, note);
    setSaid({ of: look, text: keptWords(outcome, axleOf(look.axleId).axle.name, t) });
    if (outcome.kind === 'new' || outcome.kind === 'already') setTyped(null);
  };
  return (
    <div className={styles.keep}>
      {tooLong && (
        <p id={tooLongId} role="alert" className={styles.tooLong}>
          {t('match.trial.note.long', { count: characters, most: MOST_NOTE_CHARACTERS })}
        </p>
      )}
      <label className={styles.note}>
        <span>{t('match.trial.note')}</span>
        <input
          type="text"
          autoComplete="off"
          aria-invalid={tooLong}
          aria-describedby={tooLong ? tooLongId : undefined}
          value={note}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter' && able) keep();
          }}
        />
      </label>
      <Button disabled={!able} onPress={keep}>
        {t('match.trial.keep')}
      </Button>
      <p ref={status} role="status" className={styles.said}>
        {said?.of === look && said.text}
      </p>
    </div>
  );
}
