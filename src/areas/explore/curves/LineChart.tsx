import { scaleLinear } from 'd3-scale';
import { memo, type PointerEvent } from 'react';
import { formatNumber } from '../../../units/format.ts';
import { frameOf, placeAt } from './chartFrame.ts';
import styles from './curves.module.css';
import { curvePath, decimalsOf, type PhaseCurve } from './phaseCurves.ts';
import { useChartSize } from './useChartSize.ts';

export interface ChartLine {
  readonly id: string;
  readonly values: PhaseCurve;
}

export interface ChartBand {
  readonly from: number;
  readonly to: number;
}

export interface LineChartProps {
  /** what the picture shows, in words with its numbers */
  readonly label: string;
  readonly lines: readonly ChartLine[];
  /** shown at least; grows with the lines */
  readonly domain: readonly [least: number, most: number];
  readonly band?: ChartBand | undefined;
  readonly unitText: string;
  /** under the axis, or nothing where another chart below has it */
  readonly foot?: string | undefined;
  /** place of the pitch that is read, in tabulated places */
  readonly place: number;
  readonly onPlace: (place: number) => void;
}

const TICKS = 4;
/** of the text size */
const HEIGHT = 10;

/** Curves over one pitch on plain axes, with the place that is read. */
export const LineChart = memo(function LineChart({
  label,
  lines,
  domain,
  band,
  unitText,
  foot,
  place,
  onPlace,
}: LineChartProps) {
  const [ref, size] = useChartSize();
  const { rem } = size;
  const frame = frameOf(size);
  const places = lines[0].values.length;
  const height = Math.round(HEIGHT * rem);
  const top = Math.round(0.7 * rem);
  const bottom = height - Math.round((foot === undefined ? 0.7 : 1.8) * rem);
  const y = scaleLinear(domain, [bottom, top]).nice(TICKS);
  const ticks = y.ticks(TICKS);
  const decimals = decimalsOf(ticks.length > 1 ? ticks[1] - ticks[0] : 1);
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
        {band !== undefined && (
          <g>
            <rect
              className={styles.band}
              x={frame.left}
              width={frame.right - frame.left}
              y={y(band.to)}
              height={y(band.from) - y(band.to)}
            />
            <path
              className={styles.bandEdge}
              d={`M${frame.left} ${y(band.to)}H${frame.right}M${frame.left} ${y(band.from)}H${frame.right}`}
            />
          </g>
        )}
        {ticks.map((tick) => (
          <g key={tick}>
            <path className={styles.grid} d={`M${frame.left} ${y(tick)}H${frame.right}`} />
            <text className={styles.tickY} x={frame.left - 0.4 * rem} y={y(tick)}>
              {formatNumber(tick, decimals)}
            </text>
          </g>
        ))}
        <path className={styles.axis} d={`M${frame.left} ${top}V${bottom}H${frame.right}V${top}`} />
        <text className={styles.unit} transform={`translate(${0.8 * rem} ${(top + bottom) / 2}) rotate(-90)`}>
          {unitText}
        </text>
        {lines.map(({ id, values }) => (
          <path key={id} className={styles.line} data-line={id} d={curvePath(values, frame.x, y)} />
        ))}
        <path className={styles.cursor} d={`M${at} ${top}V${bottom}`} />
        {lines.map(({ id, values }) =>
          Number.isNaN(values[place]) ? null : (
            <circle
              key={id}
              className={styles.dot}
              data-line={id}
              cx={at}
              cy={y(values[place])}
              r={0.3 * rem}
            />
          ),
        )}
        {foot !== undefined && <PitchAxis frame={frame} y={bottom} rem={rem} foot={foot} />}
      </svg>
    </div>
  );
});

export function PitchAxis({
  frame,
  y,
  rem,
  foot,
}: {
  readonly frame: ReturnType<typeof frameOf>;
  readonly y: number;
  readonly rem: number;
  readonly foot: string;
}) {
  return (
    <g>
      {[0, 0.25, 0.5, 0.75, 1].map((share) => (
        <path key={share} className={styles.axis} d={`M${frame.x(share)} ${y}v${0.3 * rem}`} />
      ))}
      {[0, 1].map((share) => (
        <text
          key={share}
          className={styles.tickX}
          data-end={share === 1 ? '' : undefined}
          x={frame.x(share)}
          y={y + 1.3 * rem}
        >
          {formatNumber(share, 0)}
        </text>
      ))}
      <text className={styles.tickX} x={frame.x(0.5)} y={y + 1.3 * rem}>
        {foot}
      </text>
    </g>
  );
}
