import { type PointerEvent, useRef } from 'react';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { drawingPoint, flankPoint } from '../../../flank/mapPointer.ts';
import type { FlankPoint, MarkShape } from '../../../state/paintedMark.ts';
import styles from './paint.module.css';

export interface OvalHandlesProps {
  readonly frame: MapFrame;
  readonly shape: MarkShape;
  readonly onShape: (shape: MarkShape) => void;
  readonly onDone: () => void;
}

type Handle = 'middle' | 'end' | 'top';

const LEAST = 0.04;
const within = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));

/** The shape after a handle was taken to a point of the flank. */
function dragHandle(shape: MarkShape, handle: Handle, [u, v]: FlankPoint): MarkShape {
  if (handle === 'middle') return { ...shape, toeHeel: within(u, -1, 1), rootFace: within(v, -1, 1) };
  if (handle === 'top') return { ...shape, height: within(v - shape.rootFace, LEAST, 1) };
  return {
    ...shape,
    length: within(u - shape.toeHeel, LEAST, 1),
    tilt: within((v - shape.rootFace) / shape.height, -0.9, 0.9),
  };
}

/** Points to take the oval by: its middle, its heel end (how long, how it leans) and its top (how high). */
export function OvalHandles({ frame, shape, onShape, onDone }: OvalHandlesProps) {
  const held = useRef<Handle | null>(null);
  const { place } = frame;
  const at: Readonly<Record<Handle, readonly [number, number]>> = {
    middle: place(shape.toeHeel, shape.rootFace),
    end: place(shape.toeHeel + shape.length, shape.rootFace + shape.tilt * shape.height),
    top: place(shape.toeHeel, shape.rootFace + shape.height),
  };
  const move = (event: PointerEvent<SVGCircleElement>) => {
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    if (held.current === null || box === undefined) return;
    onShape(dragHandle(shape, held.current, flankPoint(frame, drawingPoint(frame, box, event))));
  };
  const letGo = () => {
    if (held.current === null) return;
    held.current = null;
    onDone();
  };
  return (
    <g data-layer="handles">
      {(Object.keys(at) as Handle[]).map((handle) => {
        const [x, y] = at[handle];
        return (
          <g key={handle}>
            <circle className={styles.handle} cx={x} cy={y} r={handle === 'middle' ? 9 : 7} />
            <circle
              className={styles.grip}
              cx={x}
              cy={y}
              r={22}
              data-handle={handle}
              onPointerDown={(event) => {
                event.currentTarget.setPointerCapture(event.pointerId);
                held.current = handle;
              }}
              onPointerMove={move}
              onPointerUp={letGo}
              onPointerCancel={letGo}
            />
          </g>
        );
      })}
    </g>
  );
}
