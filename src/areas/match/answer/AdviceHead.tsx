import type { MatchAnswer, NextReadingName, ShimChange } from '../../../../sim/worker/diagnoseProtocol.ts';
import { sayNotches } from '../../../app/ui/notches.ts';
import { digitsFor, digitsToShow, type Lengths, useLengths } from '../../../app/ui/useLengths.ts';
import { axleOf } from '../../../state/axles.ts';
import type { Look } from '../../../state/look.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import styles from './answer.module.css';
import { costWords, listWords, pinionWords, sidesWords } from './answerWords.ts';

export interface AdviceHeadProps {
  readonly answer: MatchAnswer;
  readonly look: Look;
}

/** The shim to fit and what it costs, in words, before anything else. */
export function AdviceHead({ answer: { advice, diagnosis }, look }: AdviceHeadProps) {
  const t = useText();
  const lengths = useLengths();
  if (advice.kind === 'refused') {
    return (
      <>
        <p className={styles.first}>{t('match.answer.refused')}</p>
        <p className={styles.line}>
          {t('match.answer.refused.look', {
            readings: listWords(
              advice.readings.map((reading) => t(`match.answer.reading.${reading}`)),
              t,
            ),
          })}
        </p>
      </>
    );
  }
  const { change, cheaper, outOfReach, notTogether, exceedsStep } = advice;
  const wishes = (list: typeof outOfReach) =>
    listWords(
      list.map((wish) => t(`match.answer.wish.${wish}`)),
      t,
    );
  return (
    <>
      {advice.housingFirst && (
        <div className={styles.housing}>
          <p className={styles.first}>{t('match.answer.housing')}</p>
          <p className={styles.line}>
            {t('match.answer.housing.why', { factor: roundFactor(diagnosis.housing.factor) })}
          </p>
        </div>
      )}
      {change === null ? (
        <>
          <p className={styles.first}>{t('match.answer.leave')}</p>
          <p className={styles.line}>{t('match.answer.leave.why')}</p>
        </>
      ) : (
        <>
          {[pinionWords(change, lengths, t), sidesWords(change, lengths, t)]
            .filter((words) => words !== null)
            .map((words) => (
              <p key={words} className={styles.first}>
                {words}
              </p>
            ))}
          <p className={styles.line}>
            {costWords(change.costs, t)} {change.both && t('match.answer.both')}
          </p>
          <FitList change={change} look={look} />
          {change.pinionPreload.spacerChange !== 0 && (
            <p className={styles.line}>
              {t('match.answer.spacer', {
                amount: lengths.move(Math.abs(change.pinionPreload.spacerChange)),
                change: change.pinionPreload.spacerChange > 0 ? 'thicker' : 'thinner',
              })}
            </p>
          )}
        </>
      )}
      {advice.lookFirst !== null && isLook(advice.lookFirst.reading) && (
        <p className={styles.caution}>
          {t(`match.answer.lookFirst.${advice.lookFirst.reading}`, { how: advice.lookFirst.how })}
        </p>
      )}
      {notTogether.length > 0 && (
        <p className={styles.caution}>{t('match.answer.notTogether', { wishes: wishes(notTogether) })}</p>
      )}
      {outOfReach.length > 0 && (
        <p className={styles.caution}>{t('match.answer.outOfReach', { wishes: wishes(outOfReach) })}</p>
      )}
      {(['pinionIn', 'ringAway'] as const)
        .filter((field) => exceedsStep[field])
        .map((field) => (
          <p key={field} className={styles.line}>
            {t(`match.answer.exceeds.${field}`)}
          </p>
        ))}
      {cheaper !== null && (
        <p className={styles.line}>
          {t('match.answer.cheaper', {
            what: [
              pinionWords(cheaper, lengths, t),
              sidesWords(cheaper, lengths, t),
              costWords(cheaper.costs, t),
            ]
              .filter((words) => words !== null)
              .join(' '),
          })}
        </p>
      )}
    </>
  );
}

/** Asked for are only those that paint and dial give. */
const isLook = (reading: NextReadingName): reading is 'drive' | 'coast' | 'backlash' =>
  reading === 'drive' || reading === 'coast' || reading === 'backlash';

/** Two figures are all that such a factor is worth. */
export const roundFactor = (factor: number): number =>
  factor > 99 ? 99 : Number(factor.toPrecision(factor < 10 ? 1 : 2));

/** What to lay ready: thickness by thickness. */
function FitList({ change, look }: { readonly change: ShimChange; readonly look: Look }) {
  const t = useText();
  const lengths = useLengths();
  const { axle } = axleOf(look.axleId);
  const { fitment, stacks } = change;
  const parts = [
    change.pinionShim.change === 'same'
      ? null
      : t('match.answer.fit.pinion', {
          thickness: thicknessWords(
            fitment.pinionShim,
            stacks.pinionShim,
            axle.pinionShim.stock.step,
            lengths,
            t,
          ),
        }),
    ...(['ringSide', 'oppositeSide'] as const).map((side) => {
      if (change.sides[side].change === 'same') return null;
      const device = axle.sides[side];
      const thickness =
        device.kind === 'adjuster'
          ? sayNotches(fitment[side], t)
          : thicknessWords(fitment[side], stacks[side], device.stock.step, lengths, t);
      return t(`match.answer.fit.${side}`, { thickness });
    }),
  ].filter((part) => part !== null);
  return (
    <ul className={styles.fit} aria-label={t('match.answer.fit')}>
      {parts.map((part) => (
        <li key={part}>{part}</li>
      ))}
    </ul>
  );
}

function thicknessWords(
  total: number,
  stack: readonly number[] | null,
  step: number,
  lengths: Lengths,
  t: Translate,
): string {
  const say = (mm: number) => lengths.say(mm, digitsToShow(digitsFor(step), mm));
  if (stack === null || stack.length < 2) return say(total);
  const together = stack.map(say).reduce((first, second) => t('match.answer.fit.plus', { first, second }));
  return `${say(total)} ${t('match.answer.fit.stack', { stack: together })}`;
}
