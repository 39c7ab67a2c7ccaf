import { memo, type Ref, useImperativeHandle, useRef } from 'react';
import type { AxleLimits } from '../../../../models/axle.ts';
import { type DialScale, needleTurn, numberAt } from '../../../units/dialScale.ts';
import styles from './dial.module.css';

export interface DialFaceHandle {
  /** Turns the needle to where a plunger `out` mm from zero has it; cheap enough for every frame. */
  show(out: number): void;
}

export interface DialFaceProps {
  readonly ref: Ref<DialFaceHandle>;
  readonly scale: DialScale;
  /** limits marked on the face; null where they are not read like this */
  readonly limits: AxleLimits['backlash'] | null;
  readonly label: string;
  /** what one line stands for */
  readonly division: string;
}

const SIZE = 240;
const MIDDLE = SIZE / 2;
const RIM = 106;
const BAND = 112;

const at = (turn: number, radius: number): string =>
  `${(MIDDLE + Math.sin(turn) * radius).toFixed(2)} ${(MIDDLE - Math.cos(turn) * radius).toFixed(2)}`;

/** The dial large enough for the back row: zero at the top, numbers rising both ways. */
export const DialFace = memo(function DialFace({ ref, scale, limits, label, division }: DialFaceProps) {
  const needle = useRef<SVGGElement>(null);
  useImperativeHandle(
    ref,
    () => ({
      show: (out) => {
        const degrees = (needleTurn(scale, out) * 180) / Math.PI;
        needle.current?.setAttribute('transform', `rotate(${degrees.toFixed(3)} ${MIDDLE} ${MIDDLE})`);
      },
    }),
    [scale],
  );
  return (
    <svg className={styles.face} viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-label={label}>
      <circle className={styles.faceRim} cx={MIDDLE} cy={MIDDLE} r={117} />
      <circle className={styles.facePaper} cx={MIDDLE} cy={MIDDLE} r={BAND + 1} />
      <Divisions scale={scale} />
      <text className={styles.faceDivision} x={MIDDLE} y={MIDDLE + 44}>
        {division}
      </text>
      {limits !== null && <Limits scale={scale} limits={limits} />}
      <g ref={needle} data-part="needle">
        <path className={styles.needle} d={`M${MIDDLE} ${MIDDLE - RIM + 8}l3.2 12 -1 112h-4.4l-1 -112z`} />
        <circle className={styles.needle} cx={MIDDLE} cy={MIDDLE} r={8} />
      </g>
      <circle className={styles.facePaper} cx={MIDDLE} cy={MIDDLE} r={2.5} />
    </svg>
  );
});

const Divisions = memo(function Divisions({ scale }: { readonly scale: DialScale }) {
  const paths = { fine: '', long: '', numbered: '' };
  const numbers: { readonly text: string; readonly turn: number; readonly line: number }[] = [];
  for (let line = 0; line < scale.lines; line++) {
    const turn = (2 * Math.PI * line) / scale.lines;
    const text = numberAt(scale, line);
    if (text !== null) numbers.push({ text, turn, line });
    const kind = text !== null ? 'numbered' : line % scale.longEvery === 0 ? 'long' : 'fine';
    const inner = RIM - (kind === 'numbered' ? 17 : kind === 'long' ? 12 : 8);
    paths[kind] += `M${at(turn, RIM)}L${at(turn, inner)}`;
  }
  return (
    <>
      <path className={styles.lineFine} d={paths.fine} />
      <path className={styles.lineLong} d={paths.long} />
      <path className={styles.lineNumbered} d={paths.numbered} />
      {numbers.map(({ text, turn, line }) => {
        const [x, y] = [Math.sin(turn), -Math.cos(turn)];
        return (
          <text
            key={line}
            className={styles.faceNumber}
            x={MIDDLE + x * (RIM - 29)}
            y={MIDDLE + y * (RIM - 29)}
          >
            {text}
          </text>
        );
      })}
    </>
  );
});

interface LimitsProps {
  readonly scale: DialScale;
  readonly limits: AxleLimits['backlash'];
}

/** The two limit markers of the rim and the way between them. */
const Limits = memo(function Limits({ scale, limits }: LimitsProps) {
  const [from, to] = [needleTurn(scale, limits.min), needleTurn(scale, limits.max)];
  const large = Math.abs(to - from) > Math.PI ? 1 : 0;
  return (
    <g data-part="limits">
      <path
        className={styles.faceBand}
        d={`M${at(from, RIM + 4)}A${RIM + 4} ${RIM + 4} 0 ${large} 0 ${at(to, RIM + 4)}`}
      />
      <path
        className={styles.faceMarker}
        d={[from, to].map((turn) => `M${at(turn, BAND + 4)}L${at(turn, RIM - 6)}`).join('')}
      />
    </g>
  );
});
