import { memo, useLayoutEffect, useRef } from 'react';
import type { MapPicture } from './pictureProtocol.ts';
import styles from './ShimMap.module.css';
import type { BoxSize } from './useBoxSize.ts';

export interface MapGroundProps {
  readonly ground: MapPicture['ground'];
  /** until it is painted for a new size, the one before is stretched to it */
  readonly size: BoxSize;
}

/** The coloured ground: marks off home in bands, what is outside the limits pale, edge contact hatched, binding barred. */
export const MapGround = memo(function MapGround({ ground, size }: MapGroundProps) {
  const ref = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const canvas = ref.current;
    const context = canvas?.getContext('2d', { willReadFrequently: true });
    if (!canvas || !context) return;
    canvas.width = ground.width;
    canvas.height = ground.height;
    context.drawImage(ground, 0, 0);
  }, [ground]);
  return <canvas ref={ref} className={styles.drawing} style={{ width: size.width, height: size.height }} />;
});
