import { memo } from 'react';
import type { MapLabel } from './mapLabels.ts';
import styles from './ShimMap.module.css';

/** What the regions are called, written on them. */
export const MapNames = memo(function MapNames({ labels }: { readonly labels: readonly MapLabel[] }) {
  return (
    <g>
      {labels.map(({ kind, name, text, size, x, y }) => (
        <text
          key={name}
          className={kind === 'region' ? styles.regionName : styles.edgeName}
          data-region={name}
          x={x}
          y={y}
          fontSize={size}
        >
          {text}
        </text>
      ))}
    </g>
  );
});
