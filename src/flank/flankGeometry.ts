import type { Hand } from '../../sim/assembly/hardware.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { FlankOutline } from '../../sim/worker/protocol.ts';

/** The order in which flanks are drawn and described. */
export const FLANK_ORDER: readonly FlankName[] = ['drive', 'coast'];

export type HeightLine = 'face' | 'workingRoot' | 'root';

/**
 * The developed ring flank as it is drawn: looking square at it from its slot, face up, in true proportions.
 * Map millimetres: x to the right, y downward, origin on the pitch cone at mid face width.
 * Flank coordinates u, v as in docs/model.md §4.
 */
export interface FlankProjection {
  readonly heelOnRight: boolean;
  readonly halfWidth: number;
  /** (u, v) → map x, mm */
  mapX(u: number): number;
  /** (u, v) → map y, mm */
  mapY(u: number, v: number): number;
  /** map mm → (u, v) */
  toFlank(x: number, y: number): readonly [u: number, v: number];
  /** map y of a height line at u, mm */
  lineY(line: HeightLine, u: number): number;
  /** bounding box of the whole tooth down to the root line, map mm */
  readonly bounds: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
}

/** Reverse-cut sets are the mirror image: the numbers by flank stay, the drawing is mirrored (docs/model.md §1). */
export function isHeelOnRight(outline: FlankOutline, flank: FlankName, hand: Hand): boolean {
  return hand === 'reverse-cut' ? !outline.heelOnRight[flank] : outline.heelOnRight[flank];
}

export function projectFlank(outline: FlankOutline, flank: FlankName, hand: Hand): FlankProjection {
  const halfWidth = outline.faceWidth / 2;
  const heelOnRight = isHeelOnRight(outline, flank, hand);
  const sense = heelOnRight ? 1 : -1;
  const { face, workingRoot } = outline;

  const lineY = (line: HeightLine, u: number): number =>
    -(outline[line].d0 + outline[line].slope * u * halfWidth);
  const mapY = (u: number, v: number): number => {
    const l = u * halfWidth;
    const top = face.d0 + face.slope * l;
    const bottom = workingRoot.d0 + workingRoot.slope * l;
    return -(bottom + 0.5 * (v + 1) * (top - bottom));
  };
  const toFlank = (x: number, y: number): readonly [number, number] => {
    const u = (sense * x) / halfWidth;
    const top = lineY('face', u);
    const bottom = lineY('workingRoot', u);
    return [u, (2 * (bottom - y)) / (bottom - top) - 1];
  };

  const highest = Math.min(lineY('face', -1), lineY('face', 1));
  const lowest = Math.max(lineY('root', -1), lineY('root', 1));
  return {
    heelOnRight,
    halfWidth,
    mapX: (u) => sense * u * halfWidth,
    mapY,
    toFlank,
    lineY,
    bounds: { x: -halfWidth, y: highest, width: outline.faceWidth, height: lowest - highest },
  };
}
