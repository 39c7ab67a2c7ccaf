import { memo, useCallback } from 'react';
import { drawGround, groundColours } from './drawGround.ts';
import type { MapFields } from './fields.ts';
import type { Regions } from './regions.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';
import { type Draw, useBitmap } from './useBitmap.ts';
import type { BoxSize } from './useBoxSize.ts';

export interface MapGroundProps {
  readonly fields: MapFields;
  readonly regions: Regions;
  readonly scales: Scales;
  readonly size: BoxSize;
}

/** The coloured ground: marks off home in bands, what is outside the limits pale, edge contact hatched, binding barred. */
export const MapGround = memo(function MapGround({ fields, regions, scales, size }: MapGroundProps) {
  const draw = useCallback<Draw>(
    (context, canvas) => drawGround(context, { fields, regions, scales }, groundColours(canvas)),
    [fields, regions, scales],
  );
  return <canvas ref={useBitmap(size, draw)} className={styles.drawing} />;
});
