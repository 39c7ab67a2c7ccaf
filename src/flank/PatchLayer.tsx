import { memo, type ReactNode, useId } from 'react';
import type { CompoundTones } from './compoundTones.ts';
import styles from './FlankMap.module.css';
import type { MapLayout } from './mapLayout.ts';
import type { ContourLine, PatchScene } from './patchScene.ts';

export interface PatchLayerProps {
  readonly scene: PatchScene;
  readonly contours: readonly ContourLine[];
  readonly formatSeparation: (mm: number) => string;
  readonly tones: CompoundTones;
  readonly layout: MapLayout;
  /** map mm → px */
  readonly transform: string;
}

/** px from the middle of the mark to the tip of its cross */
const CROSS = 9;

/** Everything a solve changes. */
export const PatchLayer = memo(function PatchLayer({
  scene,
  contours,
  formatSeparation,
  tones,
  layout,
  transform,
}: PatchLayerProps): ReactNode {
  const grain = useId();
  const { centre } = scene;
  const px = (x: number): number => layout.originX + layout.scale * x;
  const py = (y: number): number => layout.originY + layout.scale * y;
  const cross =
    centre === null
      ? ''
      : `M${px(centre.x) - CROSS} ${py(centre.y)}h${2 * CROSS}M${px(centre.x)} ${py(centre.y) - CROSS}v${2 * CROSS}`;
  return (
    <g data-layer="patch">
      <defs>
        {/* in map mm like the path it fills, scaled back so that the grain keeps its size on screen */}
        <pattern
          id={grain}
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform={`scale(${1 / layout.scale}) rotate(-24)`}
        >
          <path d="M0 3.5H7" stroke={tones.grain} strokeWidth="1" />
        </pattern>
      </defs>
      <g transform={transform}>
        <path className={styles.reach} d={scene.reach} data-part="reach" />
        <path d={scene.patch} fill={tones.rubbed} />
        <path d={scene.patch} fill={`url(#${grain})`} />
        <path className={styles.patch} d={scene.patch} stroke={tones.rim} data-part="patch" />
      </g>
      <g transform={transform}>
        {contours.map(({ level, path }) => (
          <g key={level} data-level={level}>
            <path className={styles.contourHalo} d={path} />
            <path className={styles.contour} d={path} />
          </g>
        ))}
        {scene.edges.map(({ edge, path }) => (
          <g key={edge} data-contact={edge}>
            <path className={styles.edgeHalo} d={path} />
            <path className={styles.edge} d={path} />
          </g>
        ))}
      </g>
      {contours.map(({ level, label }) => (
        <text key={level} className={styles.contourLabel} x={px(label.x)} y={py(label.y)}>
          {formatSeparation(level)}
        </text>
      ))}
      <path className={styles.crossHalo} d={cross} />
      <path className={styles.cross} d={cross} data-part="centre" />
    </g>
  );
});
