import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { keptPatchScene } from '../../../flank/patchScene.ts';
import styles from './answer.module.css';

export interface NearestLayerProps {
  readonly frame: MapFrame;
  readonly flank: FlankName;
  readonly nearest: SolveResult;
}

/** Outline of the nearest simulated mark over what was painted. */
export function NearestLayer({ frame, flank, nearest }: NearestLayerProps) {
  const { patch } = keptPatchScene(nearest, flank, frame.projection);
  return (
    <g transform={frame.transform} className={styles.nearest} data-layer="nearest">
      <path className={styles.nearestHalo} d={patch} />
      <path className={styles.nearestLine} d={patch} data-part="nearest" />
    </g>
  );
}
