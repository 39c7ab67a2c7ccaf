import type { MapFrame } from './FlankMap.tsx';

/** px of the drawing under a pointer; the drawing may be shown smaller than it was laid out while a window changes its size. */
export function drawingPoint(
  { layout }: Pick<MapFrame, 'layout'>,
  box: { readonly left: number; readonly top: number; readonly width: number },
  pointer: { readonly clientX: number; readonly clientY: number },
): readonly [x: number, y: number] {
  const shrink = layout.width / box.width;
  return [(pointer.clientX - box.left) * shrink, (pointer.clientY - box.top) * shrink];
}

/** px of the drawing → flank coordinates, also beyond the edges: the way back from `MapFrame.place`. */
export function flankPoint(
  { layout, projection }: Pick<MapFrame, 'layout' | 'projection'>,
  [x, y]: readonly [x: number, y: number],
): readonly [toeHeel: number, rootFace: number] {
  return projection.toFlank((x - layout.originX) / layout.scale, (y - layout.originY) / layout.scale);
}
