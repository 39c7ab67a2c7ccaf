import { MathUtils, Quaternion, Vector3 } from 'three';
import { FIELD_OF_VIEW, type View } from './rig.ts';

/** Share of the picture left free at each side, so that labels and controls have room. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const inverse = new Quaternion();
const seen = new Vector3();
const shift = new Vector3();

/**
 * Moves a view along its own axes until all points (mm, packed xyz) lie inside the picture less its margins,
 * as large and as central as they go. `aspect` is width / height. The orientation stays as it is.
 */
export function frame(view: View, points: ArrayLike<number>, aspect: number, margins: Margins): void {
  const tanY = Math.tan(MathUtils.degToRad(FIELD_OF_VIEW / 2));
  const tanX = tanY * aspect;
  // Screen coordinates −1…1 the points may use.
  const left = -1 + 2 * margins.left;
  const right = 1 - 2 * margins.right;
  const bottom = -1 + 2 * margins.bottom;
  const top = 1 - 2 * margins.top;
  inverse.copy(view.orientation).invert();
  const count = points.length / 3;
  view.target.set(0, 0, 0);
  for (let i = 0; i < count; i++) {
    view.target.x += points[3 * i] / count;
    view.target.y += points[3 * i + 1] / count;
    view.target.z += points[3 * i + 2] / count;
  }
  // Each side is a plane through the camera: x ≤ right·tanX·depth and so on. For a given distance the offsets that
  // keep two opposite planes' points inside form an interval; the least distance is where both intervals just exist.
  let lowX = Number.NEGATIVE_INFINITY;
  let highX = Number.NEGATIVE_INFINITY;
  let lowY = Number.NEGATIVE_INFINITY;
  let highY = Number.NEGATIVE_INFINITY;
  let nearest = 0;
  for (let i = 0; i < count; i++) {
    seen
      .set(points[3 * i], points[3 * i + 1], points[3 * i + 2])
      .sub(view.target)
      .applyQuaternion(inverse);
    highX = Math.max(highX, seen.x + right * tanX * seen.z);
    lowX = Math.max(lowX, -seen.x - left * tanX * seen.z);
    highY = Math.max(highY, seen.y + top * tanY * seen.z);
    lowY = Math.max(lowY, -seen.y - bottom * tanY * seen.z);
    nearest = Math.max(nearest, seen.z);
  }
  const distanceX = (highX + lowX) / ((right - left) * tanX);
  const distanceY = (highY + lowY) / ((top - bottom) * tanY);
  view.distance = Math.max(distanceX, distanceY, nearest * 1.05, 1e-3);
  // Middle of the interval each way.
  const x = 0.5 * (highX - right * tanX * view.distance - (lowX + left * tanX * view.distance));
  const y = 0.5 * (highY - top * tanY * view.distance - (lowY + bottom * tanY * view.distance));
  view.target.add(shift.set(x, y, 0).applyQuaternion(view.orientation));
}
