import type { ReactNode } from 'react';
import { IconButton } from '../../../app/ui/controls.tsx';
import { Icon } from '../../../app/ui/Icon.tsx';
import { COARSE_DIGITS, type Lengths, SHIM_DIGITS, useLengths } from '../../../app/ui/useLengths.ts';
import { PLACES_RANGE, useDial } from '../../../state/dial.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { READING_DIGITS } from './DialReading.tsx';
import styles from './dial.module.css';
import { extremesOf, judgeRound, type RoundVerdict } from './judgeRound.ts';
import { RoundRing } from './RoundRing.tsx';
import type { DialView } from './useDialView.ts';

export interface RoundReadingsProps {
  readonly view: DialView;
  /** after the verdict */
  readonly children: ReactNode;
}

/** Readings at places round the ring, and what they say about it. */
export function RoundReadings({ view, children }: RoundReadingsProps) {
  const t = useText();
  const lengths = useLengths();
  const count = useDial((state) => state.count);
  const chosen = useDial((state) => state.place);
  const failed = useDial((state) => state.failure !== null);
  const { round, direction, axle } = view;
  const { backlash: limits } = axle.limits;
  const asRead = direction === limits.reads;
  const mean = round?.mesh.result.backlash;
  const step = (by: 1 | -1) => () => useDial.getState().setCount(count + by);
  return (
    <section className={`${styles.round} fades`} aria-label={t('dial.round.title')}>
      <header className={styles.roundHead}>
        <h3 className={styles.title}>{t('dial.round.title')}</h3>
        {/* biome-ignore lint/a11y/useSemanticElements: buttons, not a form's fields */}
        <div className={styles.counter} role="group" aria-label={t('dial.round.count', { count })}>
          <IconButton
            icon="minus"
            label={t('dial.round.fewer')}
            disabled={count <= PLACES_RANGE.least}
            onPress={step(-1)}
          />
          <output className="numbers">{t('dial.round.count', { count })}</output>
          <IconButton
            icon="plus"
            label={t('dial.round.more')}
            disabled={count >= PLACES_RANGE.most}
            onPress={step(1)}
          />
        </div>
      </header>
      {failed && (
        <p className={styles.note} data-caution="" role="alert">
          <Icon name="caution" size={18} />
          <span>{t('dial.round.failed')}</span>
        </p>
      )}
      {round === null ? (
        <p className={styles.note}>{t('dial.waiting')}</p>
      ) : (
        <>
          <RoundRing
            places={round.places}
            chosen={chosen}
            direction={direction}
            limits={asRead ? limits : null}
            lengths={lengths}
            mean={(direction === 'square' ? mean?.normal : mean?.tangential) ?? null}
          />
          <div className={styles.roundWords}>
            <Verdict view={view} />
            {children}
          </div>
        </>
      )}
    </section>
  );
}

/** Least, greatest and variation as the dial is held, and the verdict in the direction the axle's limits are read in. */
function Verdict({ view }: { readonly view: DialView }) {
  const t = useText();
  const lengths = useLengths();
  const { round, direction, axle } = view;
  if (round === null) return null;
  const { backlash: limits } = axle.limits;
  const wobbles = round.runout.full > 0;
  const extremes = extremesOf(round.places, direction);
  const verdict = judgeRound(round.places, limits);
  const { variationBeyond, worst } = verdict;
  const say = (mm: number) => lengths.say(mm, READING_DIGITS);
  const varies =
    variationBeyond > 0
      ? t('dial.round.varies', {
          amount: lengths.amount(variationBeyond, SHIM_DIGITS),
          most: lengths.say(limits.variation, COARSE_DIGITS),
        })
      : null;
  const good = worst.reading.verdict === 'inside' && varies === null;
  const kind = worst.reading.verdict === 'binds' ? 'binds' : good ? 'inside' : 'outside';
  return (
    <>
      {extremes !== null && (
        <dl className={`${styles.extremes} numbers`}>
          <Figure
            name="least"
            mm={say(extremes.least.reading)}
            place={wobbles ? extremes.least.place : null}
          />
          <Figure
            name="greatest"
            mm={say(extremes.greatest.reading)}
            place={wobbles ? extremes.greatest.place : null}
          />
          <Figure name="variation" mm={say(extremes.variation)} place={null} />
        </dl>
      )}
      <p className={styles.verdict} data-verdict={kind} role="status">
        <Icon name={good ? 'check' : 'caution'} size={18} />
        <span>
          <strong>{varies ?? placeWords(verdict, t, lengths)}</strong>{' '}
          {varies === null
            ? t('dial.round.steady', { most: lengths.say(limits.variation, COARSE_DIGITS) })
            : placeWords(verdict, t, lengths)}{' '}
          {direction !== limits.reads && t('dial.round.judged', { reads: limits.reads })}
        </span>
      </p>
      <p className={styles.note}>
        {wobbles && extremes !== null
          ? t('dial.round.hides', {
              least: lengths.number(extremes.least.reading, READING_DIGITS),
              most: say(extremes.greatest.reading),
            })
          : t('dial.round.same')}
      </p>
    </>
  );
}

interface FigureProps {
  readonly name: 'least' | 'greatest' | 'variation';
  readonly mm: string;
  readonly place: number | null;
}

function Figure({ name, mm, place }: FigureProps) {
  const t = useText();
  return (
    <div data-extreme={name}>
      <dt>{t(`dial.round.${name}`)}</dt>
      <dd>
        <strong>{mm}</strong>
        {place !== null && <span>{t('dial.round.at', { place: place + 1 })}</span>}
      </dd>
    </div>
  );
}

function placeWords({ worst }: RoundVerdict, t: Translate, lengths: Lengths): string {
  const place = worst.place + 1;
  const { verdict, beyond } = worst.reading;
  switch (verdict) {
    case 'inside':
      return t('dial.round.inside');
    case 'binds':
      return t('dial.round.binds', { place });
    case 'unknown':
      return t('dial.round.unknown', { place });
    case 'below':
    case 'above':
      return t(`dial.round.${verdict}`, { place, amount: lengths.amount(beyond, SHIM_DIGITS) });
  }
}
