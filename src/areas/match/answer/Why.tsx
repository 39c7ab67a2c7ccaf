import type { Estimate, MatchAnswer } from '../../../../sim/worker/diagnoseProtocol.ts';
import { COARSE_DIGITS, type Lengths, SHIM_DIGITS } from '../../../app/ui/useLengths.ts';
import type { Look } from '../../../state/look.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { formatNumber } from '../../../units/format.ts';
import { roundFactor } from './AdviceHead.tsx';
import styles from './answer.module.css';

export interface WhyProps {
  readonly answer: MatchAnswer;
  readonly look: Look;
  readonly lengths: Lengths;
}

/** The reasoning, down to the numbers. */
export function Why({ answer: { diagnosis }, lengths }: WhyProps) {
  const t = useText();
  const { pose, film, housing, shimmable, alternatives, nextReading, quality } = diagnosis;
  const rows: readonly (readonly [string, string])[] = [
    [t('match.answer.why.row.pinionIn'), pinionPlace(pose.pinionIn, lengths, t)],
    [t('match.answer.why.row.ringAway'), ringPlace(pose.ringAway, lengths, t)],
    [
      t('match.answer.why.row.offsetError'),
      t('match.answer.why.offset', {
        way: wayOf(pose.offsetError.mean, 0.005),
        amount: lengths.amount(pose.offsetError.mean, COARSE_DIGITS),
        sd: lengths.amount(pose.offsetError.sd, COARSE_DIGITS),
      }),
    ],
    [
      t('match.answer.why.row.shaftAngleError'),
      t('match.answer.why.angle', {
        way: wayOf(pose.shaftAngleError.mean, 0.005),
        amount: `${formatNumber(Math.abs(pose.shaftAngleError.mean), 2)}°`,
        sd: `${formatNumber(pose.shaftAngleError.sd, 2)}°`,
      }),
    ],
    [
      t('match.answer.why.row.film'),
      t('match.answer.why.plain', {
        mean: lengths.number(film.mean, SHIM_DIGITS),
        sd: lengths.say(film.sd, SHIM_DIGITS),
      }),
    ],
  ];
  return (
    <details className={styles.why}>
      <summary>{t('match.answer.why')}</summary>
      {nextReading !== null && (
        <p>
          {t('match.answer.why.reading', {
            what: readWords(nextReading, t),
            percent: Math.round(nextReading.narrows * 100),
          })}
        </p>
      )}
      <dl>
        {rows.map(([name, words]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <p>
        {shimmable === false
          ? t('match.answer.why.housing.false', { factor: roundFactor(housing.factor) })
          : t(shimmable === null ? 'match.answer.why.housing.null' : 'match.answer.why.housing.true')}
      </p>
      {alternatives.length > 0 && (
        <>
          <p>{t('match.answer.why.alternatives')}</p>
          <ul>
            {alternatives.map((one) => (
              <li key={`${one.housing}${one.chance}`}>
                {t('match.answer.why.alternative', {
                  percent: Math.round(one.chance * 100),
                  pinion: pinionPlace(one.pose.pinionIn, lengths, t),
                  ring: ringPlace(one.pose.ringAway, lengths, t),
                  housing: one.housing === 'sound' ? '' : t(`match.answer.why.alternative.${one.housing}`),
                })}
              </li>
            ))}
          </ul>
        </>
      )}
      <p className={styles.small}>{t('match.answer.why.draws', { draws: quality.draws })}</p>
    </details>
  );
}

function readWords(reading: NonNullable<MatchAnswer['diagnosis']['nextReading']>, t: Translate): string {
  const { reading: name, how } = reading;
  return name === 'drive' || name === 'coast' || name === 'backlash'
    ? t(`match.answer.why.read.${name}`, { how })
    : t(`match.answer.why.read.${name}`);
}

const wayOf = (value: number, nothing: number): 'more' | 'less' | 'none' =>
  Math.abs(value) < nothing ? 'none' : value > 0 ? 'more' : 'less';

function pinionPlace({ mean, sd }: Estimate, lengths: Lengths, t: Translate): string {
  return t('match.answer.why.pinion', {
    amount: Math.abs(mean) < 0.005 ? 'none' : lengths.amount(mean, COARSE_DIGITS),
    way: mean > 0 ? 'in' : 'out',
    sd: lengths.amount(sd, COARSE_DIGITS),
  });
}

function ringPlace({ mean, sd }: Estimate, lengths: Lengths, t: Translate): string {
  return t('match.answer.why.ring', {
    amount: Math.abs(mean) < 0.005 ? 'none' : lengths.amount(mean, COARSE_DIGITS),
    way: mean > 0 ? 'out' : 'in',
    sd: lengths.amount(sd, COARSE_DIGITS),
  });
}
