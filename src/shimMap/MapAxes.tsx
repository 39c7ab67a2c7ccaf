import { memo } from 'react';
import type { AxleDefinition } from '../../models/axle.ts';
import { pinionInFromShim, pinionShimSign } from '../../sim/worker/assembly.ts';
import { useLengths } from '../app/ui/useLengths.ts';
import { useText } from '../text/useText.ts';
import { formatNumber } from '../units/format.ts';
import { mmTo } from '../units/length.ts';
import type { MapFields } from './fields.ts';
import { nameFits } from './layout.ts';
import { linesAtRight } from './limitLines.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';
import { decimalsOf, ticksBetween } from './ticks.ts';

export interface MapAxesProps {
  readonly axle: AxleDefinition;
  readonly axes: {
    readonly pinionIn: { readonly low: number; readonly high: number };
    readonly ringAway: { readonly low: number; readonly high: number };
  };
  readonly fields: MapFields | null;
  readonly scales: Scales;
  readonly em: number;
  /** numbers without words at the right */
  readonly narrow: boolean;
}

/** px between named ticks at least */
const TICK_ROOM = 62;

/** Frame, ticks and names: pinion shim across, side transfer up, the limits at the right. */
export const MapAxes = memo(function MapAxes({ axle, axes, fields, scales, em, narrow }: MapAxesProps) {
  const t = useText();
  const lengths = useLengths();
  const { unit } = lengths;
  const { box } = scales;
  const right = box.left + box.width;
  const bottom = box.top + box.height;
  const { pinionShim, limits } = axle;
  const ends = [axes.pinionIn.low, axes.pinionIn.high].map(
    (mm) => pinionShim.design + pinionShimSign(pinionShim.place) * mm,
  );
  const across = ticksBetween(Math.min(...ends), Math.max(...ends), unit, box.width / TICK_ROOM);
  const up = ticksBetween(axes.ringAway.low, axes.ringAway.high, unit, box.height / TICK_ROOM);
  const thickerIsIn = pinionInFromShim(pinionShim, pinionShim.design + 1) > 0;
  const number = (mm: number, decimals: number) => formatNumber(mmTo(unit, mm), decimals);
  const lines = (fields === null ? [] : linesAtRight(fields, limits.backlash, scales, em)).filter(
    ({ line }) => line !== 'none' || !narrow,
  );
  const middle = box.top + box.height / 2;
  const pinionEnds = [
    `← ${t('shimMap.end.pinion', { way: thickerIsIn ? 'out' : 'in' })}`,
    `${t('shimMap.end.pinion', { way: thickerIsIn ? 'in' : 'out' })} →`,
  ];
  const ringEnds = [
    `← ${t('shimMap.end.ring', { way: 'in' })}`,
    `${t('shimMap.end.ring', { way: 'out' })} →`,
  ];
  // the words at the ends say what the axis is too; what they do not say is its unit
  const axisName = (name: string, ends: readonly string[], length: number) =>
    [name, unit].find((text) => nameFits(text, ends, length, em)) ?? null;
  const nameX = em * 0.95;
  const nameY = bottom + em * 2.95;

  return (
    <g className={styles.axes}>
      <rect className={styles.frame} x={box.left} y={box.top} width={box.width} height={box.height} />
      <path
        className={styles.ticks}
        d={[
          ...across.ticks.map(({ mm, major }) => `M${scales.shim(mm)} ${bottom}v${major ? 7 : 4}`),
          ...up.ticks.map(({ mm, major }) => {
            const { y } = scales.toScreen({ pinionIn: 0, ringAway: mm });
            return `M${box.left} ${y}h${major ? -7 : -4}`;
          }),
        ].join('')}
      />
      <g className="numbers">
        {across.ticks
          .filter(({ major }) => major)
          .map(({ mm }) => (
            <text key={mm} className={styles.tickText} x={scales.shim(mm)} y={bottom + em * 1.4}>
              {number(mm, decimalsOf(across.step))}
            </text>
          ))}
        {up.ticks
          .filter(({ major }) => major)
          .map(({ mm }) => (
            <text
              key={mm}
              className={styles.tickTextUp}
              x={box.left - 10}
              y={scales.toScreen({ pinionIn: 0, ringAway: mm }).y}
            >
              {/* the words at the ends say which way */}
              {Math.abs(mm) < 1e-9 ? '0' : number(Math.abs(mm), decimalsOf(up.step))}
            </text>
          ))}
        {lines.map(({ line, y, mm }) => (
          <text key={line} className={styles.lineText} data-line={line} x={right + 7} y={y}>
            {!narrow && `${t(`shimMap.line.${line}`)} `}
            {line !== 'none' && (
              <tspan className={styles.lineReading}>{number(mm, unit === 'mm' ? 2 : 4)}</tspan>
            )}
          </text>
        ))}
      </g>
      <text className={styles.axisName} x={box.left + box.width / 2} y={nameY}>
        {axisName(t('shimMap.axis.pinion', { unit }), pinionEnds, box.width)}
      </text>
      <text className={styles.axisEnd} x={box.left} y={nameY}>
        {pinionEnds[0]}
      </text>
      <text className={styles.axisEnd} data-end="far" x={right} y={nameY}>
        {pinionEnds[1]}
      </text>
      <g transform={`translate(${nameX} ${middle}) rotate(-90)`}>
        <text className={styles.axisName}>
          {axisName(t('shimMap.axis.sides', { unit }), ringEnds, box.height)}
        </text>
        <text className={styles.axisEnd} x={-box.height / 2}>
          {ringEnds[0]}
        </text>
        <text className={styles.axisEnd} data-end="far" x={box.height / 2}>
          {ringEnds[1]}
        </text>
      </g>
    </g>
  );
});
