import { useMemo } from 'react';
import type { Hand } from '../../../../sim/assembly/hardware.ts';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { FlankOutline, SolveResult } from '../../../../sim/worker/protocol.ts';
import { compoundTones } from '../../../flank/compoundTones.ts';
import { projectFlank } from '../../../flank/flankGeometry.ts';
import { toothPaths } from '../../../flank/mapPaths.ts';
import { keptPatchScene } from '../../../flank/patchScene.ts';
import styles from './gallery.module.css';

export interface MiniMapProps {
  readonly flank: FlankName;
  readonly outline: FlankOutline;
  readonly hand: Hand;
  readonly result: SolveResult;
  readonly compoundColour: string;
}

/** One flank with its mark, small, without words: they stand beside it. */
export function MiniMap({ flank, outline, hand, result, compoundColour }: MiniMapProps) {
  const projection = useMemo(() => projectFlank(outline, flank, hand), [outline, flank, hand]);
  const paths = useMemo(() => toothPaths(projection), [projection]);
  const tones = useMemo(() => compoundTones(compoundColour), [compoundColour]);
  const { patch } = keptPatchScene(result, flank, projection);
  const { x, y, width, height } = projection.bounds;
  const pad = 0.02 * width;
  return (
    <svg
      className={styles.mini}
      viewBox={`${x - pad} ${y - pad} ${width + 2 * pad} ${height + 2 * pad}`}
      aria-hidden="true"
      focusable="false"
    >
      <path d={paths.working} fill={tones.coat} />
      <path className={styles.below} d={paths.belowWorking} />
      <path d={patch} fill={tones.rubbed} />
      <path className={styles.line} d={patch} />
      <path className={styles.line} d={paths.whole} />
    </svg>
  );
}
