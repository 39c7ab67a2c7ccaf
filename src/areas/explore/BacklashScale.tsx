import { memo } from 'react';
import type { AxleLimits } from '../../../models/axle.ts';
import type { Lengths } from '../../app/ui/useLengths.ts';
import { mmFrom, mmTo } from '../../units/length.ts';
import type { BacklashReading } from './backlash.ts';
import styles from './explore.module.css';

export interface BacklashScaleProps {
  readonly reading: BacklashReading;
  readonly limits: AxleLimits['backlash'];
  readonly lengths: Lengths;
  readonly label: string;
}

const WIDTH = 320;
const HEIGHT = 52;
const SIDE = 10;
const BASE = 26;
/** mm of scale beyond which its numbers stand too close */
const CROWDED = 0.42;

/** The reading on a drawn scale: the axle's limits as a bracket, the least as a pointer, the mean as the end of its bar. */
export const BacklashScale = memo(function BacklashScale({
  reading,
  limits,
  lengths,
  label,
}: BacklashScaleProps) {
  const { unit } = lengths;
  const most = limits.max + 1.25 * (limits.max - limits.min) + 0.05;
  const [from, to] = [mmTo(unit, -0.03), mmTo(unit, most)];
  const perUnit = (WIDTH - 2 * SIDE) / (to - from);
  const x = (value: number) => SIDE + perUnit * (Math.min(Math.max(value, from), to) - from);
  const at = (mm: number) => x(mmTo(unit, mm));
  const fine = unit === 'mm' ? 0.01 : 0.0005;
  // numbers at twice the distance where they would run together
  const coarse = (unit === 'mm' ? 0.05 : 0.002) * (most > CROWDED ? 2 : 1);
  const marks = marksBetween(0, mmTo(unit, most), fine, coarse);
  const least = reading.least === null ? null : at(reading.least);
  const mean = reading.mean === null ? null : at(reading.mean);
  return (
    <svg className={styles.scale} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      <rect
        className={styles.scaleBand}
        x={at(limits.min)}
        width={at(limits.max) - at(limits.min)}
        y={BASE - 15}
        height={15}
      />
      <path
        className={styles.scaleBracket}
        d={`M${at(limits.min)} ${BASE}V${BASE - 17}H${at(limits.min) + 6}M${at(limits.max)} ${BASE}V${BASE - 17}H${at(limits.max) - 6}`}
      />
      <path className={styles.scaleLine} d={`M${SIDE} ${BASE}H${WIDTH - SIDE}`} />
      {marks.map((mark) => (
        <path
          key={mark.value}
          className={mark.major ? styles.scaleMajor : styles.scaleMinor}
          d={`M${x(mark.value)} ${BASE}v${mark.major ? 8 : 4}`}
        />
      ))}
      {marks
        .filter((mark) => mark.major)
        .map((mark) => (
          <text key={mark.value} className={styles.scaleText} x={x(mark.value)} y={HEIGHT - 4}>
            {unit === 'mm' ? mark.value.toFixed(2) : mark.value.toFixed(3)}
          </text>
        ))}
      {least !== null && mean !== null && (
        <path className={styles.scaleSpan} d={`M${least} ${BASE - 6}H${mean}`} data-scale="mean" />
      )}
      {least !== null && (
        <path
          className={styles.scalePointer}
          d={`M${least} ${BASE}l-6 -11v-9h12v9z`}
          data-scale="least"
          data-mm={mmFrom(unit, from + (least - SIDE) / perUnit).toFixed(4)}
        />
      )}
    </svg>
  );
});

function marksBetween(from: number, to: number, fine: number, coarse: number) {
  const every = Math.round(coarse / fine);
  const count = Math.floor((to - from) / fine + 1e-6);
  return Array.from({ length: count + 1 }, (_, index) => ({
    value: from + index * fine,
    major: index % every === 0,
  }));
}
