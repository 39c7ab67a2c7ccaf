import type { AxleLimits } from '../../../../models/axle.ts';
import type { DialDirection } from '../../../../sim/assembly/dial.ts';
import type { Lengths } from '../../../app/ui/useLengths.ts';
import { type DialPlace, useDial } from '../../../state/dial.ts';
import { useText } from '../../../text/useText.ts';
import { READING_DIGITS } from './DialReading.tsx';
import styles from './dial.module.css';
import { readingAt } from './judgeRound.ts';

const SIZE = 300;
const MIDDLE = SIZE / 2;
/** radii of the least and the most allowed, and of the places' buttons; px of the drawing */
const LEAST = 62;
const MOST = 88;
const CHIP = 124;
const INNER = 30;
const OUTER = 98;

export interface RoundRingProps {
  readonly places: readonly DialPlace[];
  readonly chosen: number | null;
  readonly direction: DialDirection;
  /** null where the limits are not read like this */
  readonly limits: AxleLimits['backlash'] | null;
  readonly lengths: Lengths;
  /** reading of a ring that runs true, mm */
  readonly mean: number | null;
}

/** The ring seen from its teeth: at each place its reading as a distance from the middle, and the button to go there. */
export function RoundRing({ places, chosen, direction, limits, lengths, mean }: RoundRingProps) {
  const t = useText();
  const readings = places.map((place) => readingAt(place, direction));
  const radius = radiusFor(readings, limits);
  const point = (index: number, r: number) => {
    const turn = (2 * Math.PI * index) / places.length;
    return { x: MIDDLE + r * Math.sin(turn), y: MIDDLE - r * Math.cos(turn) };
  };
  const say = (mm: number | null) => (mm === null ? '–' : lengths.say(mm, READING_DIGITS));
  const corners = readings.flatMap((reading, index) =>
    reading === null ? [] : [point(index, radius(reading))],
  );
  return (
    <fieldset className={styles.ring}>
      <legend className="visually-hidden">{t('dial.round.choose')}</legend>
      <svg
        className={styles.ringDrawing}
        viewBox={`0 0 ${SIZE} ${SIZE}`}
        aria-hidden="true"
        focusable="false"
      >
        {limits !== null && (
          <>
            <circle
              className={styles.ringBand}
              cx={MIDDLE}
              cy={MIDDLE}
              r={(radius(limits.min) + radius(limits.max)) / 2}
              strokeWidth={radius(limits.max) - radius(limits.min)}
            />
            {[limits.min, limits.max].map((mm) => (
              <circle key={mm} className={styles.ringLimit} cx={MIDDLE} cy={MIDDLE} r={radius(mm)} />
            ))}
          </>
        )}
        {mean !== null && <circle className={styles.ringMean} cx={MIDDLE} cy={MIDDLE} r={radius(mean)} />}
        {places.map((place, index) => {
          const from = point(index, INNER);
          const to = point(index, OUTER);
          return (
            <path key={place.tooth} className={styles.ringSpoke} d={`M${from.x} ${from.y}L${to.x} ${to.y}`} />
          );
        })}
        {corners.length === places.length && (
          <polygon className={styles.ringLine} points={corners.map(({ x, y }) => `${x},${y}`).join(' ')} />
        )}
        {corners.map(({ x, y }, index) => (
          <circle
            key={places[index].tooth}
            className={index === chosen ? styles.ringDotChosen : styles.ringDot}
            cx={x}
            cy={y}
            r={index === chosen ? 6 : 4.5}
          />
        ))}
      </svg>
      <Chip
        x={MIDDLE}
        y={MIDDLE}
        label={t('dial.round.mean', { reading: say(mean) })}
        head={t('dial.round.mean.short')}
        value={mean === null ? '–' : lengths.number(mean, SHORT_DIGITS)}
        checked={chosen === null}
        onChoose={() => useDial.getState().goTo(null)}
      />
      {places.map((place, index) => (
        <Chip
          key={place.tooth}
          {...point(index, CHIP)}
          label={t('dial.round.place', {
            place: index + 1,
            tooth: place.tooth + 1,
            reading: say(readings[index]),
          })}
          head={String(index + 1)}
          value={readings[index] === null ? '–' : lengths.number(readings[index] ?? 0, SHORT_DIGITS)}
          checked={index === chosen}
          onChoose={() => useDial.getState().goTo(index)}
        />
      ))}
    </fieldset>
  );
}

const SHORT_DIGITS = { mm: 3, in: 4 };

interface ChipProps {
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly head: string;
  readonly value: string;
  readonly checked: boolean;
  readonly onChoose: () => void;
}

function Chip({ x, y, label, head, value, checked, onChoose }: ChipProps) {
  return (
    <label className={styles.chip} style={{ left: `${(x / SIZE) * 100}%`, top: `${(y / SIZE) * 100}%` }}>
      <input type="radio" name="dial-place" aria-label={label} checked={checked} onChange={onChoose} />
      <span className={styles.chipHead} aria-hidden="true">
        {head}
      </span>
      <span className={`${styles.chipValue} numbers`} aria-hidden="true">
        {value}
      </span>
    </label>
  );
}

/** Where a reading lies: the limits have fixed radii; without them the readings fill the same span. */
function radiusFor(
  readings: readonly (number | null)[],
  limits: AxleLimits['backlash'] | null,
): (mm: number) => number {
  const known = readings.filter((reading) => reading !== null);
  let [low, high] = limits === null ? [Math.min(...known), Math.max(...known)] : [limits.min, limits.max];
  if (!Number.isFinite(low) || !Number.isFinite(high)) [low, high] = [0, 0.1];
  const span = Math.max(high - low, 0.03);
  const middle = (low + high) / 2;
  return (mm) => {
    const r = (LEAST + MOST) / 2 + ((mm - middle) / span) * (MOST - LEAST);
    return Math.min(Math.max(r, INNER), OUTER);
  };
}
