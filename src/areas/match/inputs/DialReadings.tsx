import { useState } from 'react';
import { Button, Choice, IconButton } from '../../../app/ui/controls.tsx';
import { MeasureField } from '../../../app/ui/MeasureField.tsx';
import { SHIM_DIGITS, useLengths } from '../../../app/ui/useLengths.ts';
import { DIAL_MANNERS, type Look, MOST_READINGS, useLook } from '../../../state/look.ts';
import { useText } from '../../../text/useText.ts';
import styles from './inputs.module.css';

/** mm; a dial that shows more than this is not on the tooth */
const READING_RANGE = { least: 0, most: 2 } as const;

/** What the dial read, place by place. */
export function DialReadings({ look }: { readonly look: Look }) {
  const t = useText();
  const lengths = useLengths();
  const { readings, axleId } = look;
  const put = (next: readonly number[]) => useLook.getState().change(axleId, { readings: next });
  // a place whose reading is yet to be typed: nothing counts as read before somebody has read it
  const [adding, setAdding] = useState(false);
  const next = readings.length;
  return (
    <section className={styles.block} aria-label={t('match.dial.title')}>
      <header className={styles.head}>
        <h3>{t('match.dial.title')}</h3>
        <Choice
          label={t('match.dial.manner')}
          name="look-dial"
          options={DIAL_MANNERS.map((value) => ({ value, text: t(`match.dial.${value}`) }))}
          value={look.manner}
          onChoose={(manner) => useLook.getState().change(axleId, { manner })}
        />
      </header>
      <p className={styles.why}>{t(readings.length === 0 ? 'match.dial.none' : 'match.dial.why')}</p>
      <div className={styles.readings}>
        {readings.map((reading, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a place has no other name than its number
          <div key={place} className={styles.reading}>
            <span aria-hidden="true">{place + 1}</span>
            <MeasureField
              label={t('match.dial.place', { place: place + 1 })}
              text={lengths.number(reading, SHIM_DIGITS)}
              unit={lengths.unitText}
              read={(typed) => lengths.read(typed, READING_RANGE, SHIM_DIGITS)}
              onEnter={(value) => put(readings.map((old, k) => (k === place ? value : old)))}
            />
            <IconButton
              icon="close"
              label={t('match.dial.remove', { place: place + 1 })}
              onPress={() => put(readings.filter((_, k) => k !== place))}
            />
          </div>
        ))}
        {adding && (
          <div className={styles.reading}>
            <span aria-hidden="true">{next + 1}</span>
            <MeasureField
              label={t('match.dial.place', { place: next + 1 })}
              text=""
              unit={lengths.unitText}
              focused
              read={(typed) => lengths.read(typed, READING_RANGE, SHIM_DIGITS)}
              onEnter={(value) => {
                put([...readings, value]);
                setAdding(false);
              }}
            />
            <IconButton
              icon="close"
              label={t('match.dial.remove', { place: next + 1 })}
              onPress={() => setAdding(false)}
            />
          </div>
        )}
      </div>
      {next < MOST_READINGS && !adding && (
        <Button icon="plus" onPress={() => setAdding(true)}>
          {t(next === 0 ? 'match.dial.first' : 'match.dial.add')}
        </Button>
      )}
    </section>
  );
}
