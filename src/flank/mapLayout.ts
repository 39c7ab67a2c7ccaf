import type { FlankProjection } from './flankGeometry.ts';

/** Where the tooth stands in a drawing `width` px wide, true proportions. */
export interface MapLayout {
  readonly width: number;
  readonly height: number;
  /** px per map mm */
  readonly scale: number;
  /** px of the origin of map mm */
  readonly originX: number;
  readonly originY: number;
}

/** Room round the tooth for the strokes of its edges, px. */
const PADDING = 7;

export function layOutMap(projection: FlankProjection, width: number): MapLayout {
  const { bounds } = projection;
  const scale = Math.max(1, width - 2 * PADDING) / bounds.width;
  return {
    width,
    height: Math.ceil(bounds.height * scale + 2 * PADDING),
    scale,
    originX: PADDING - bounds.x * scale,
    originY: PADDING - bounds.y * scale,
  };
}
