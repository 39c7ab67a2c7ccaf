import { memo, useId, useMemo } from 'react';
import type { MapFields } from './fields.ts';
import { Hatches, hatchName } from './Hatches.tsx';
import { linePathOf, pathOf, type Regions } from './regions.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';

export interface MapGroundProps {
  readonly fields: MapFields;
  readonly regions: Regions;
  readonly scales: Scales;
}

/** The coloured ground: marks off home in bands, what is outside the limits pale, edge contact hatched, binding barred. */
export const MapGround = memo(function MapGround({ fields, regions, scales }: MapGroundProps) {
  const id = useId();
  const { box } = scales;
  const paths = useMemo(() => {
    const line = (outlines: Regions['binds']) => linePathOf(outlines, fields, scales);
    return {
      offHome: regions.offHome.map((outlines) => pathOf(outlines, scales)),
      below: pathOf(regions.below, scales),
      above: pathOf(regions.above, scales),
      binds: pathOf(regions.binds, scales),
      unknown: pathOf(regions.unknown, scales),
      edges: regions.edges.map(({ flank, edge, outlines }) => ({
        name: hatchName(flank, edge),
        area: pathOf(outlines, scales),
        line: line(outlines),
      })),
      limits: line(regions.below) + line(regions.above),
      bindsLine: line(regions.binds),
    };
  }, [fields, regions, scales]);

  return (
    <g>
      <defs>
        <Hatches id={id} />
        <clipPath id={`${id}-plot`}>
          <rect x={box.left} y={box.top} width={box.width} height={box.height} />
        </clipPath>
      </defs>
      <g clipPath={`url(#${id}-plot)`}>
        <rect
          className={styles.band}
          data-band={0}
          x={box.left}
          y={box.top}
          width={box.width}
          height={box.height}
        />
        {paths.offHome.map((path, k) => (
          // the steps never change their number or order
          // biome-ignore lint/suspicious/noArrayIndexKey: a band is its place in the scale
          <path key={k} className={styles.band} data-band={k + 1} d={path} fillRule="evenodd" />
        ))}
        {paths.edges.map(({ name, area, line }) => (
          <g key={name}>
            <path d={area} fill={`url(#${id}-${name})`} fillRule="evenodd" />
            <path className={styles.edgeLine} d={line} />
          </g>
        ))}
        <path className={styles.veil} d={paths.below} fillRule="evenodd" />
        <path className={styles.veil} d={paths.above} fillRule="evenodd" />
        <path className={styles.unknown} d={paths.unknown} fillRule="evenodd" />
        <path className={styles.binds} d={paths.binds} fillRule="evenodd" />
        <path d={paths.binds} fill={`url(#${id}-bars)`} fillRule="evenodd" />
        <path className={styles.limitHalo} d={paths.limits} />
        <path className={styles.limitLine} d={paths.limits} />
        <path className={styles.bindsLine} d={paths.bindsLine} />
      </g>
    </g>
  );
});
