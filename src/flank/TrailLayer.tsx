import { memo, type ReactNode, useLayoutEffect, useRef } from 'react';
import { useTraces } from '../state/traces.ts';
import type { MapFrame } from './FlankMap.tsx';
import styles from './layers.module.css';
import { trailPaths } from './trailPaths.ts';

/**
 * The way of the mark's middle since the last change began. It grows at every step of a slider: it writes its paths
 * itself and leaves React out.
 */
export const TrailLayer = memo(function TrailLayer({ frame }: { readonly frame: MapFrame }): ReactNode {
  const group = useRef<SVGGElement>(null);
  const { flank, place } = frame;
  useLayoutEffect(() => {
    const draw = (): void => {
      const { line, dots } = trailPaths(
        useTraces.getState().trail.map((point) => point[flank]),
        place,
      );
      const paths = group.current?.children;
      [line, line, ...dots].forEach((d, index) => {
        const path = paths?.[index];
        if (path?.getAttribute('d') !== d) path?.setAttribute('d', d);
      });
    };
    draw();
    return useTraces.subscribe(draw);
  }, [flank, place]);
  return (
    <g ref={group} data-layer="trail">
      <path className={styles.trailHalo} />
      <path className={styles.trail} data-part="trail" />
      <path className={styles.trailOld} />
      <path className={styles.trailMiddle} />
      <path className={styles.trailNew} />
    </g>
  );
});
