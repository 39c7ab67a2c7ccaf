import { memo, type ReactNode } from 'react';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import type { MapFrame } from './FlankMap.tsx';
import styles from './layers.module.css';
import { keptPatchScene } from './patchScene.ts';

export interface GhostLayerProps {
  readonly frame: MapFrame;
  /** of the same gear set as the map */
  readonly former: SolveResult;
}

/** Outline of the mark as it was before the last change. */
export const GhostLayer = memo(function GhostLayer({ frame, former }: GhostLayerProps): ReactNode {
  const { patch } = keptPatchScene(former, frame.flank, frame.projection);
  return (
    <g transform={frame.transform} data-layer="former">
      <path className={styles.ghostHalo} d={patch} />
      <path className={styles.ghost} d={patch} data-part="former" />
    </g>
  );
});
