import { memo, useMemo } from 'react';
import { useText } from '../../../text/useText.ts';
import type { MapFields } from './fields.ts';
import { mapLabels } from './mapLabels.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';

export interface MapNamesProps {
  readonly fields: MapFields;
  /** mm, as the fields are read */
  readonly limits: { readonly min: number; readonly max: number };
  readonly scales: Scales;
  /** px */
  readonly em: number;
}

/** What the regions are called, written on them. */
export const MapNames = memo(function MapNames({ fields, limits, scales, em }: MapNamesProps) {
  const t = useText();
  const labels = useMemo(() => mapLabels(fields, limits, scales, em, t), [fields, limits, scales, em, t]);
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
