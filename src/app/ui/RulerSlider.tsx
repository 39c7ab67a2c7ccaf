import { Slider } from '@base-ui/react/slider';
import { memo, useMemo, useRef } from 'react';
import styles from './RulerSlider.module.css';

export interface RulerMark {
  readonly at: number;
  readonly kind: 'found' | 'design';
}

export interface RulerSliderProps {
  readonly label: string;
  /** every value that can be taken, ascending */
  readonly positions: readonly number[];
  /** may lie between positions */
  readonly value: number;
  readonly valueText: string;
  readonly marks?: readonly RulerMark[];
  /** words at the ends of the ruler */
  readonly leastText?: string;
  readonly mostText?: string;
  readonly onPreview: (value: number) => void;
  readonly onCommit: () => void;
}

/** A ruler with a blade on it: one tick for every value that can be had, a pointer for the present one. */
export const RulerSlider = memo(function RulerSlider({
  label,
  positions,
  value,
  valueText,
  marks = [],
  leastText,
  mostText,
  onPreview,
  onCommit,
}: RulerSliderProps) {
  const last = positions.length - 1;
  // a held arrow key is one change, like a drag: it ends when the key is let go
  const keyIsHeld = useRef(false);
  const letGo = () => {
    if (!keyIsHeld.current) return;
    keyIsHeld.current = false;
    onCommit();
  };
  return (
    <Slider.Root
      className={styles.root}
      onKeyUp={letGo}
      onBlur={letGo}
      min={0}
      max={last}
      step={1}
      largeStep={Math.max(5, Math.round(last / 20))}
      value={nearestIndex(positions, value)}
      onValueChange={(index) => onPreview(positions[index])}
      onValueCommitted={(_, { reason }) => {
        if (reason === 'keyboard') keyIsHeld.current = true;
        else onCommit();
      }}
    >
      <Slider.Control className={styles.control}>
        <Slider.Track className={styles.track}>
          <Ticks positions={positions} marks={marks} />
          <Slider.Thumb className={styles.thumb} aria-label={label} aria-valuetext={valueText} />
        </Slider.Track>
      </Slider.Control>
      {leastText !== undefined && (
        <div className={styles.ends} aria-hidden="true">
          <span>{leastText}</span>
          <span>{mostText}</span>
        </div>
      )}
    </Slider.Root>
  );
});

const WIDTH = 1000;
/** More ticks than this would run together. */
const MOST_TICKS = 60;

const Ticks = memo(function Ticks({
  positions,
  marks,
}: {
  readonly positions: readonly number[];
  readonly marks: readonly RulerMark[];
}) {
  const { minor, major } = useMemo(() => tickPaths(positions), [positions]);
  return (
    <>
      <svg
        className={styles.ticks}
        viewBox={`0 0 ${WIDTH} 20`}
        preserveAspectRatio="none"
        aria-hidden="true"
        focusable="false"
      >
        <path d={minor} className={styles.minor} vectorEffect="non-scaling-stroke" />
        <path d={major} className={styles.major} vectorEffect="non-scaling-stroke" />
      </svg>
      {marks.map((mark) => (
        <span
          key={mark.kind}
          className={mark.kind === 'found' ? styles.found : styles.design}
          style={{ left: `${share(positions, mark.at) * 100}%` }}
          aria-hidden="true"
        />
      ))}
    </>
  );
});

function tickPaths(positions: readonly number[]): { minor: string; major: string } {
  const last = Math.max(1, positions.length - 1);
  const every = Math.ceil(last / MOST_TICKS);
  let minor = '';
  let major = '';
  for (let index = 0; index <= last; index += every) {
    const x = ((index / last) * WIDTH).toFixed(1);
    if ((index / every) % 5 === 0) major += `M${x} 0V20`;
    else minor += `M${x} 0V11`;
  }
  return { minor, major };
}

/** Where a value lies along the ruler, 0…1; between ticks when it is not one of them. */
function share(positions: readonly number[], value: number): number {
  const last = positions.length - 1;
  if (last <= 0) return 0;
  const above = positions.findIndex((position) => position >= value - 1e-9);
  if (above === -1) return 1;
  if (above === 0) return 0;
  const [low, high] = [positions[above - 1], positions[above]];
  return (above - 1 + (value - low) / (high - low)) / last;
}

export function nearestIndex(positions: readonly number[], value: number): number {
  let best = 0;
  for (let index = 1; index < positions.length; index += 1) {
    if (Math.abs(positions[index] - value) < Math.abs(positions[best] - value)) best = index;
  }
  return best;
}
