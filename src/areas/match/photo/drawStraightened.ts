import type { FlankProjection } from '../../../flank/flankGeometry.ts';
import type { Photo } from './photos.ts';
import { straighten } from './straighten.ts';

/** How far beyond the flank's borders the photo is shown, flank coordinates: the eye needs the edge to judge by. */
const MARGIN = 0.06;

/**
 * Draws the tooth of a photo as its flank map shows it: `canvas` covers the map's bounds. False when the corners give
 * no picture; the canvas is then left empty.
 */
export function drawStraightened(
  photo: Photo,
  projection: FlankProjection,
  canvas: HTMLCanvasElement,
): boolean {
  const context = canvas.getContext('2d');
  const source = photo.picture.getContext('2d', { willReadFrequently: true });
  const { width, height } = canvas;
  context?.clearRect(0, 0, width, height);
  const map = straighten(photo.points);
  if (context === null || source === null || map === null) return false;
  const from = source.getImageData(0, 0, photo.picture.width, photo.picture.height);
  const to = context.createImageData(width, height);
  const { bounds } = projection;
  for (let row = 0; row < height; row += 1) {
    const y = bounds.y + ((row + 0.5) / height) * bounds.height;
    for (let column = 0; column < width; column += 1) {
      const x = bounds.x + ((column + 0.5) / width) * bounds.width;
      const [u, v] = projection.toFlank(x, y);
      if (Math.abs(u) > 1 + MARGIN || Math.abs(v) > 1 + MARGIN) continue;
      const { x: px, y: py } = map(u, v);
      sample(from, px - 0.5, py - 0.5, to.data, 4 * (row * width + column));
    }
  }
  context.putImageData(to, 0, 0);
  return true;
}

/** The colour between four pixels; nothing outside the photo. */
function sample(from: ImageData, x: number, y: number, out: Uint8ClampedArray, at: number): void {
  const { width, height, data } = from;
  const i = Math.floor(x);
  const j = Math.floor(y);
  if (i < 0 || j < 0 || i + 1 >= width || j + 1 >= height) return;
  const s = x - i;
  const t = y - j;
  const a = 4 * (j * width + i);
  const b = a + 4 * width;
  for (let k = 0; k < 3; k += 1) {
    const top = data[a + k] + s * (data[a + 4 + k] - data[a + k]);
    const bottom = data[b + k] + s * (data[b + 4 + k] - data[b + k]);
    out[at + k] = top + t * (bottom - top);
  }
  out[at + 3] = 255;
}
