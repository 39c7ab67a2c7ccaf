import { memo, type ReactNode, useMemo } from 'react';
import styles from './FlankMap.module.css';
import type { FlankProjection } from './flankGeometry.ts';
import { toothPaths } from './mapPaths.ts';

export interface ToothLayerProps {
  readonly projection: FlankProjection;
  /** map mm → px */
  readonly transform: string;
}

/** The tooth itself: drawn once per gear set and size, left alone by every solve. */
export const ToothLayer = memo(function ToothLayer({ projection, transform }: ToothLayerProps): ReactNode {
  const paths = useMemo(() => toothPaths(projection), [projection]);
  return (
    <g transform={transform} data-layer="tooth">
      <path className={styles.working} d={paths.working} />
      <path className={styles.below} d={paths.belowWorking} data-part="below-working-depth" />
      <path className={styles.middle} d={paths.middle} />
      <path className={styles.ticks} d={paths.ticks} />
      <path className={styles.outline} d={paths.whole} data-part="tooth" />
    </g>
  );
});
