import { Button } from '../../../app/ui/controls.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { type AnswerStore, hasSomethingSeen, useAnswer } from '../../../state/answer.ts';
import { useArea } from '../../../state/area.ts';
import { type Look, useLook } from '../../../state/look.ts';
import { useText } from '../../../text/useText.ts';
import { KeepTrial } from '../trials/KeepTrial.tsx';
import { AdviceHead } from './AdviceHead.tsx';
import styles from './answer.module.css';
import { ExpectedTable } from './ExpectedTable.tsx';
import { failureReason } from './failureReason.ts';
import { MatchMap } from './MatchMap.tsx';
import { NextPlates } from './NextPlates.tsx';
import { showInExplore } from './showInExplore.ts';
import { Why } from './Why.tsx';

/** What was found, first the shim to fit and what it costs. */
export function AnswerPanel({ id, look }: { readonly id: string; readonly look: Look }) {
  const t = useText();
  const { answered, pending, failure } = useAnswer();
  return (
    <section id={id} className={styles.answer} aria-label={t('match.answer.title')} aria-busy={pending}>
      <div role="status" className={styles.status} data-pending={pending}>
        {failure !== null ? (
          <p className={styles.failure}>{t('match.answer.failed', { reason: failureReason(failure) })}</p>
        ) : answered === null ? (
          <p className={styles.quiet}>
            {t(pending && hasSomethingSeen(look) ? 'match.answer.working' : 'match.answer.nothing')}
          </p>
        ) : (
          <AdviceHead answer={answered.answer} look={answered.look} />
        )}
      </div>
      {answered !== null && failure === null && (
        <Rest answered={answered} current={!pending && answered.look === look} />
      )}
    </section>
  );
}

/** The next look at the same set: with the advised shims, or the same ones. */
function LookAgain({ answered }: { readonly answered: NonNullable<AnswerStore['answered']> }) {
  const t = useText();
  const { answer, look } = answered;
  const change = answer.advice.kind === 'refused' ? null : answer.advice.change;
  const { lookAgain } = useLook.getState();
  return (
    <div className={styles.actions}>
      {change !== null && (
        <Button onPress={() => lookAgain(look.axleId, change.fitment)}>{t('match.answer.fitted')}</Button>
      )}
      <Button quiet onPress={() => lookAgain(look.axleId, look.fitment)}>
        {t('match.answer.again')}
      </Button>
    </div>
  );
}

interface RestProps {
  readonly answered: NonNullable<AnswerStore['answered']>;
  /** the answer is that to the present look */
  readonly current: boolean;
}

function Rest({ answered, current }: RestProps) {
  const t = useText();
  const lengths = useLengths();
  const { answer, look } = answered;
  const go = (state: 'now' | 'then') => {
    showInExplore(look, answer, state);
    useArea.getState().go('explore');
  };
  return (
    <>
      {answer.advice.kind !== 'refused' && (
        <ExpectedTable advice={answer.advice} look={look} lengths={lengths} />
      )}
      {answer.advice.kind !== 'refused' && <MatchMap answered={answered} />}
      {answer.next !== null && <NextPlates axleId={look.axleId} next={answer.next} />}
      <div className={styles.actions}>
        {answer.next !== null && (
          <Button icon="right" onPress={() => go('then')}>
            {t('match.answer.explore')}
          </Button>
        )}
        <Button quiet onPress={() => go('now')}>
          {t('match.answer.explore.now')}
        </Button>
      </div>
      <p className={styles.small}>{t('match.answer.explore.why')}</p>
      <LookAgain answered={answered} />
      <KeepTrial key={look.axleId} answered={answered} current={current} />
      <Why answer={answer} look={look} lengths={lengths} />
      <p className={styles.small}>{t('match.answer.caution')}</p>
    </>
  );
}
