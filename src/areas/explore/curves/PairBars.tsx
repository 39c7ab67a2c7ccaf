import { memo, type PointerEvent } from 'react';
import { useText } from '../../../text/useText.ts';
import { MINUS } from '../../../units/format.ts';
import { frameOf, placeAt } from './chartFrame.ts';
import styles from './curves.module.css';
import { PitchAxis } from './LineChart.tsx';
import type { FlankPairs, Stretch } from './pairRows.ts';
import { useChartSize } from './useChartSize.ts';

export interface PairBarsProps {
  readonly label: string;
  readonly pairs: FlankPairs;
  readonly places: number;
  readonly place: number;
  readonly onPlace: (place: number) => void;
}

/** "0", "+1", "−1": which tooth pair, counted from the one in the middle of its way at place 0. */
export const pairName = (pair: number): string =>
  pair === 0 ? '0' : `${pair > 0 ? '+' : MINUS}${Math.abs(pair)}`;

/** One bar per tooth pair: thin where it meets, thick where it marks, full where it carries. */
export const PairBars = memo(function PairBars({ label, pairs, places, place, onPlace }: PairBarsProps) {
  const t = useText();
  const [ref, size] = useChartSize();
  const { rem } = size;
  const frame = frameOf(size);
  const row = Math.round(1.15 * rem);
  const bottom = Math.round(pairs.rows.length * row + 0.3 * rem);
  const height = bottom + Math.round(1.8 * rem);
  const bars = (stretches: readonly Stretch[], part: string, middle: number, thick: number) =>
    stretches.map(({ from, to }) => (
      <rect
        key={`${part} ${from}`}
        data-part={part}
        x={frame.x(from)}
        width={frame.x(to) - frame.x(from)}
        y={middle - thick / 2}
        height={thick}
      />
    ));
  const move = (event: PointerEvent<SVGSVGElement>) => onPlace(placeAt(event, frame, places));
  const at = frame.x(place / places);
  return (
    <div ref={ref} className={styles.chart}>
      <svg
        width={size.width}
        height={height}
        viewBox={`0 0 ${size.width} ${height}`}
        role="img"
        aria-label={label}
        onPointerMove={move}
        onPointerDown={move}
      >
        {pairs.rows.map((one, index) => {
          const middle = (index + 0.5) * row;
          return (
            <g key={one.pair} data-pair={one.pair} className={styles.pair}>
              <text className={styles.tickY} x={frame.left - 0.4 * rem} y={middle}>
                {pairName(one.pair)}
              </text>
              <path className={styles.grid} d={`M${frame.left} ${middle}H${frame.right}`} />
              {bars(one.meets, 'meets', middle, 0.22 * rem)}
              {bars(one.marks, 'marks', middle, 0.62 * rem)}
              {bars(one.carries, 'carries', middle, 0.62 * rem)}
            </g>
          );
        })}
        <path className={styles.axis} d={`M${frame.left} ${bottom}H${frame.right}`} />
        <path className={styles.cursor} d={`M${at} 0V${bottom}`} />
        <PitchAxis frame={frame} y={bottom} rem={rem} foot={t('curves.axis')} />
      </svg>
    </div>
  );
});
