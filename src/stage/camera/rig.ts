import { MathUtils, type PerspectiveCamera, Quaternion, Vector3 } from 'three';

/** Vertical field of view, degrees: long enough that a tooth square-on is nearly without perspective. */
export const FIELD_OF_VIEW = 22;

/** Where the camera looks from: it stands `distance` mm from `target`, on its own +z side. */
export interface View {
  readonly target: Vector3;
  /** camera to world */
  readonly orientation: Quaternion;
  distance: number;
  /** unit; the axis a sideways drag turns about */
  readonly up: Vector3;
}

export const createView = (): View => ({
  target: new Vector3(),
  orientation: new Quaternion(),
  distance: 1,
  up: new Vector3(0, 0, 1),
});

export function copyView(to: View, from: View): void {
  to.target.copy(from.target);
  to.orientation.copy(from.orientation);
  to.distance = from.distance;
  to.up.copy(from.up);
}

/** Nearest the camera comes to looking straight along the turning axis, rad. */
const POLE = MathUtils.degToRad(3);

const turn = new Quaternion();
const axis = new Vector3();

/** Turns the view: `sideways` about its up axis, `over` about the camera's own horizontal, rad; stops short of the poles. */
export function orbit(view: View, sideways: number, over: number): void {
  turn.setFromAxisAngle(view.up, sideways);
  view.orientation.premultiply(turn);
  const elevation = Math.asin(
    MathUtils.clamp(axis.set(0, 0, 1).applyQuaternion(view.orientation).dot(view.up), -1, 1),
  );
  const limit = Math.PI / 2 - POLE;
  const wanted = MathUtils.clamp(elevation + over, Math.min(-limit, elevation), Math.max(limit, elevation));
  turn.setFromAxisAngle(axis.set(1, 0, 0), elevation - wanted);
  view.orientation.multiply(turn).normalize();
}

/** Multiplies the distance, kept between `nearest` and `farthest` mm. */
export function zoom(view: View, factor: number, nearest: number, farthest: number): void {
  view.distance = MathUtils.clamp(view.distance * factor, nearest, farthest);
}

/** Moves the target by a share of the picture's height along the screen, kept within `reach` mm of `home`. */
export function pan(view: View, right: number, up: number, home: Vector3, reach: number): void {
  const height = 2 * view.distance * Math.tan(MathUtils.degToRad(FIELD_OF_VIEW / 2));
  view.target.addScaledVector(axis.set(1, 0, 0).applyQuaternion(view.orientation), right * height);
  view.target.addScaledVector(axis.set(0, 1, 0).applyQuaternion(view.orientation), up * height);
  axis.subVectors(view.target, home);
  if (axis.length() > reach) view.target.copy(home).addScaledVector(axis.normalize(), reach);
}

/** Part-way between two views, `t` 0…1: the camera swings round, keeping the object between. `out` may be `from`. */
export function between(out: View, from: View, to: View, t: number): void {
  out.target.lerpVectors(from.target, to.target, t);
  out.orientation.slerpQuaternions(from.orientation, to.orientation, t);
  out.distance = from.distance * (to.distance / from.distance) ** t;
  out.up.lerpVectors(from.up, to.up, t).normalize();
}

/** Slow start and slow end. */
export const ease = (t: number): number => t * t * (3 - 2 * t);

/** Puts the camera to the view; `extent` mm is the farthest any part lies from the target. */
export function placeCamera(camera: PerspectiveCamera, view: View, extent: number): void {
  camera.position.set(0, 0, view.distance).applyQuaternion(view.orientation).add(view.target);
  camera.quaternion.copy(view.orientation);
  camera.near = Math.max(view.distance - extent, view.distance * 0.05);
  camera.far = view.distance + extent;
  camera.updateProjectionMatrix();
  camera.updateMatrixWorld();
}
