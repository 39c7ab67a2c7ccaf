import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import type { HomePatch } from '../../../../sim/worker/longProtocol.ts';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { drawingPoint, flankPoint } from '../../../flank/mapPointer.ts';
import { useText } from '../../../text/useText.ts';
import styles from './pattern.module.css';
import { hold, usePatternWish, wish } from './patternWish.ts';
import { usePresentPatch } from './usePresentPatch.ts';
import {
  draggedTo,
  HANDLES,
  type HandleName,
  KEY_STEP,
  ovalOf,
  placeOfHandle,
  pressed,
  WISHES_OF,
} from './wantedPatch.ts';
import { handleWords } from './wishWords.ts';

/** Handles on the mark of the draft: dragged or pressed, the ease-off follows. */
export function PatternHandles({ frame }: { readonly frame: MapFrame }) {
  const { flank } = frame;
  const present = usePresentPatch(flank);
  const { wanted, refusal, stopped } = usePatternWish((state) => state[flank]);
  const shape = wanted ?? present;
  if (shape === null) return null;
  const oval = ovalOf(shape)
    .map((place) => frame.place(...place).join(' '))
    .join('L');
  const { width, height } = frame.layout;
  return (
    <div className={styles.over}>
      <svg className={styles.drawing} viewBox={`0 0 ${width} ${height}`} aria-hidden="true" focusable="false">
        {wanted !== null && (
          <>
            <path className={styles.halo} d={`M${oval}Z`} />
            <path
              className={styles.wanted}
              d={`M${oval}Z`}
              data-refused={refusal !== null || stopped !== null ? '' : undefined}
            />
          </>
        )}
      </svg>
      {HANDLES.map((handle) => (
        <Handle key={handle} frame={frame} handle={handle} shape={shape} />
      ))}
    </div>
  );
}

interface HandleProps {
  readonly frame: MapFrame;
  readonly handle: HandleName;
  readonly shape: HomePatch;
}

function Handle({ frame, handle, shape }: HandleProps) {
  const t = useText();
  const grip = useRef<{ readonly dx: number; readonly dy: number } | null>(null);
  const { flank, projection, layout } = frame;
  const [x, y] = frame.place(...placeOfHandle(shape, handle));
  const shares = { left: `${(100 * x) / layout.width}%`, top: `${(100 * y) / layout.height}%` };

  const pointAt = (event: PointerEvent<HTMLDivElement>): readonly [number, number] | null => {
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    if (box === undefined || box.width === 0) return null;
    return drawingPoint(frame, box, event);
  };
  const down = (event: PointerEvent<HTMLDivElement>) => {
    const point = pointAt(event);
    if (point === null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    // taken where it was touched: it does not jump under the finger
    grip.current = { dx: x - point[0], dy: y - point[1] };
    hold(flank, true);
  };
  const move = (event: PointerEvent<HTMLDivElement>) => {
    const point = pointAt(event);
    if (grip.current === null || point === null) return;
    const { dx, dy } = grip.current;
    const place = flankPoint(frame, [point[0] + dx, point[1] + dy]);
    wish(flank, draggedTo(shape, handle, place), WISHES_OF[handle]);
  };
  const letGo = () => {
    grip.current = null;
    hold(flank, false);
  };
  const press = (event: KeyboardEvent<HTMLDivElement>) => {
    const step = event.shiftKey ? KEY_STEP.fine : KEY_STEP.usual;
    const next = pressed(shape, handle, event.key, step, projection.heelOnRight);
    if (next === null) return;
    event.preventDefault();
    event.stopPropagation();
    wish(flank, next, WISHES_OF[handle]);
  };
  return (
    <div
      className={styles.handle}
      style={shares}
      role="slider"
      tabIndex={0}
      aria-label={t(`ownAxle.p.handle.${handle}`, { flank: t(`flank.name.${flank}`) })}
      aria-valuemin={-100}
      aria-valuemax={100}
      aria-valuenow={Math.round(100 * mainValue(shape, handle))}
      aria-valuetext={handleWords(shape, handle, t)}
      data-handle={handle}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onKeyDown={press}
    >
      <span className={styles.dot} data-handle={handle} />
    </div>
  );
}

const mainValue = (shape: HomePatch, handle: HandleName): number =>
  handle === 'centre' ? shape.toeHeel : handle === 'end' ? shape.length : shape.height;
