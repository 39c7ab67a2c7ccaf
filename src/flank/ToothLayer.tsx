import { memo, type ReactNode, useMemo } from 'react';
import styles from './FlankMap.module.css';
import type { FlankProjection } from './flankGeometry.ts';
import { toothPaths } from './mapPaths.ts';

export interface ToothLayerProps {
  readonly projection: FlankProjection;
  /** compound on the working part of the flank, #rrggbb */
  readonly coat: string;
  /** map mm → px */
  readonly transform: string;
}

/** The tooth itself: drawn once per gear set and size, left alone by every solve. */
export const ToothLayer = memo(function ToothLayer({
  projection,
  coat,
  transform,
}: ToothLayerProps): ReactNode {
  const paths = useMemo(() => toothPaths(projection), [projection]);
  return (
    <g transform={transform} data-layer="tooth">
      <path d={paths.working} fill={coat} data-part="coat" />
      <path className={styles.below} d={paths.belowWorking} data-part="below-working-depth" />
      <path className={styles.middle} d={paths.middle} />
      <path className={styles.ticks} d={paths.ticks} />
      <path className={styles.outline} d={paths.whole} data-part="tooth" />
    </g>
  );
});
