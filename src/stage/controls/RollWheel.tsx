import { type KeyboardEvent, type PointerEvent, type Ref, useImperativeHandle, useRef } from 'react';
import { useText } from '../../text/useText.ts';
import styles from './controls.module.css';

export interface RollWheelHandle {
  /** Shows a ring angle, rad; cheap enough for every frame. */
  show(ringAngle: number, tooth: number): void;
}

export interface RollWheelProps {
  readonly ref: Ref<RollWheelHandle>;
  readonly teeth: number;
  /** rad of ring angle to turn by */
  readonly onTurn: (by: number) => void;
}

const RAD = Math.PI / 180;
/** degrees of ring angle per pixel of drag, and per arrow key */
const DEGREES_PER_PIXEL = 0.05;
const KEY_DEGREES = 0.1;
/** px the knurl repeats after */
const KNURL = 8;

/** A knurled wheel without ends: drag it, or use the arrow keys; Page Up and Page Down turn one tooth. */
export function RollWheel({ ref, teeth, onTurn }: RollWheelProps) {
  const t = useText();
  const wheel = useRef<HTMLDivElement>(null);
  const reading = useRef<HTMLOutputElement>(null);
  const grip = useRef<number | null>(null);

  useImperativeHandle(
    ref,
    () => ({
      show(ringAngle, tooth) {
        const element = wheel.current;
        if (element === null) return;
        const degrees = ringAngle / RAD;
        element.setAttribute('aria-valuenow', degrees.toFixed(1));
        element.setAttribute('aria-valuetext', t('stage.roll.place', { degrees, tooth: tooth + 1, teeth }));
        element.style.backgroundPositionX = `${((degrees / DEGREES_PER_PIXEL) % KNURL).toFixed(1)}px`;
        if (reading.current !== null) reading.current.textContent = t('stage.roll.read', { degrees });
      },
    }),
    [t, teeth],
  );

  const down = (event: PointerEvent<HTMLDivElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    grip.current = event.clientX;
  };
  const move = (event: PointerEvent<HTMLDivElement>) => {
    if (grip.current === null) return;
    onTurn((event.clientX - grip.current) * DEGREES_PER_PIXEL * RAD);
    grip.current = event.clientX;
  };
  const release = () => {
    grip.current = null;
  };

  const key = (event: KeyboardEvent) => {
    const steps: Record<string, number> = {
      ArrowRight: KEY_DEGREES * RAD,
      ArrowUp: KEY_DEGREES * RAD,
      ArrowLeft: -KEY_DEGREES * RAD,
      ArrowDown: -KEY_DEGREES * RAD,
      PageUp: (2 * Math.PI) / teeth,
      PageDown: (-2 * Math.PI) / teeth,
    };
    const step = steps[event.key];
    if (step === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    onTurn(event.shiftKey ? step * 10 : step);
  };

  return (
    <div className={styles.roller}>
      <div
        ref={wheel}
        className={styles.wheel}
        role="slider"
        tabIndex={0}
        aria-label={t('stage.roll.wheel')}
        title={t('stage.roll.wheel')}
        aria-valuemin={0}
        aria-valuemax={360}
        aria-valuenow={0}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={release}
        onPointerCancel={release}
        onKeyDown={key}
      />
      <output ref={reading} className={styles.reading} aria-hidden="true" />
    </div>
  );
}
