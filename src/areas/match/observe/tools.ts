import type { FlankProjection } from '../../../flank/flankGeometry.ts';
import type { Brush } from '../../../state/paintedMark.ts';

export const TOOLS = ['brush', 'wipe', 'outline', 'oval'] as const;
export type Tool = (typeof TOOLS)[number];

export const BRUSH_SIZES = ['small', 'middle', 'large'] as const;
export type BrushSize = (typeof BRUSH_SIZES)[number];

/** Radius as a share of the flank's working height. */
const RADIUS: Readonly<Record<BrushSize, number>> = { small: 0.07, middle: 0.14, large: 0.26 };

/** The brush of a size on this tooth: round in mm. */
export function brushOn(projection: FlankProjection, size: BrushSize): Brush {
  const height = projection.lineY('workingRoot', 0) - projection.lineY('face', 0);
  const radius = RADIUS[size] * height;
  return { along: radius / projection.halfWidth, across: (2 * radius) / height };
}
