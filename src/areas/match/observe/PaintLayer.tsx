import { memo, type PointerEvent, useMemo, useRef } from 'react';
import type { CompoundTones } from '../../../flank/compoundTones.ts';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { drawingPoint, flankPoint } from '../../../flank/mapPointer.ts';
import { paintedPath } from '../../../flank/paintedPath.ts';
import type { FlankPoint, PaintedMark } from '../../../state/paintedMark.ts';
import styles from './paint.module.css';

export interface PaintLayerProps {
  readonly frame: MapFrame;
  readonly mark: PaintedMark;
  readonly tones: CompoundTones;
  /** something lies under the paint that must stay visible */
  readonly seeThrough: boolean;
  /** what the painting hand does; flank coordinates, also beyond the edges */
  readonly onDown: (at: FlankPoint) => void;
  readonly onMove: (at: FlankPoint) => void;
  readonly onUp: () => void;
}

/** The painted mark on its map, and the surface that takes finger, pen and mouse. */
export const PaintLayer = memo(function PaintLayer({
  frame,
  mark,
  tones,
  seeThrough,
  onDown,
  onMove,
  onUp,
}: PaintLayerProps) {
  const { projection, layout, transform } = frame;
  const path = useMemo(() => paintedPath(mark, projection), [mark, projection]);
  const holding = useRef(false);
  const pointOf = (event: PointerEvent<SVGRectElement>): FlankPoint =>
    flankPoint(frame, drawingPoint(frame, event.currentTarget.getBoundingClientRect(), event));
  const letGo = () => {
    if (!holding.current) return;
    holding.current = false;
    onUp();
  };
  return (
    <>
      <g transform={transform} data-layer="painted">
        <path d={path} fill={tones.rubbed} fillOpacity={seeThrough ? 0.55 : 1} data-part="painted" />
        <path className={styles.rim} d={path} stroke={tones.rim} />
      </g>
      <rect
        className={styles.surface}
        width={layout.width}
        height={layout.height}
        data-part="surface"
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          holding.current = true;
          onDown(pointOf(event));
        }}
        onPointerMove={(event) => {
          if (holding.current) onMove(pointOf(event));
        }}
        onPointerUp={letGo}
        onPointerCancel={letGo}
      />
    </>
  );
});
