import { useMemo } from 'react';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { HomePatch } from '../../../../sim/worker/longProtocol.ts';
import { markTilt } from '../../../../sim/worker/markTilt.ts';
import { useDraftMesh } from './draftMesh.ts';

/** The mark of the draft as it is; null without one. */
export function usePresentPatch(flank: FlankName): HomePatch | null {
  const result = useDraftMesh((state) => state.made?.result ?? null);
  return useMemo(() => {
    if (result === null) return null;
    const { toeHeel, rootFace, length, height, separation, tipClearance } = result[flank];
    if (toeHeel === null || rootFace === null) return null;
    const { columns, rows } = result.grid;
    const tilt = markTilt({ separation, tipClearance }, columns, rows, result.film);
    return { toeHeel, rootFace, length, height, tilt: Number.isFinite(tilt) ? tilt : 0 };
  }, [result, flank]);
}
