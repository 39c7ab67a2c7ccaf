import { Vector3 } from 'three';
import type { DialDirection } from '../../../sim/assembly/dial.ts';
import type { GearSolids } from '../../../sim/gearset/solids.ts';
import { KIND } from '../scene/geometry.ts';

/** Where a dial touches the base tooth: the drive flank's heel at mid height (docs/model.md §7), ring at rest, not mirrored. mm. */
export interface Heel {
  readonly point: Vector3;
  /** unit, out of the tooth, square to the flank */
  readonly square: Vector3;
  /** unit, out of the tooth, along the ring's turning direction */
  readonly tangential: Vector3;
  /** unit, square to the turning direction: out of the slot, up over the teeth */
  readonly clear: Vector3;
}

export function heelOf(solids: GearSolids): Heel {
  const { positions, normals, flankUv, surfaceKind } = solids.ring.sector;
  // the flank's vertices at the heel, either side of mid height
  let [low, high] = [-1, -1];
  for (let i = 0; i < surfaceKind.length; i++) {
    if (surfaceKind[i] !== KIND.drive || flankUv[2 * i] < 1 - 1e-3) continue;
    const v = flankUv[2 * i + 1];
    if (v <= 0 && (low < 0 || v > flankUv[2 * low + 1])) low = i;
    if (v >= 0 && (high < 0 || v < flankUv[2 * high + 1])) high = i;
  }
  if (low < 0 || high < 0) throw new RangeError('ring sector: no vertices at the heel of the drive flank');
  const [below, above] = [flankUv[2 * low + 1], flankUv[2 * high + 1]];
  const share = above === below ? 0 : -below / (above - below);
  const between = (from: ArrayLike<number>) =>
    new Vector3().fromArray(from, 3 * low).lerp(new Vector3().fromArray(from, 3 * high), share);
  const point = between(positions);
  const square = between(normals).normalize();
  const tangential = new Vector3(-point.y, point.x, 0).normalize();
  if (tangential.dot(square) < 0) tangential.negate();
  const clear = new Vector3(point.x, point.y, 0).normalize();
  clear
    .multiplyScalar(0.5)
    .add(new Vector3(0, 0, 0.87))
    .normalize();
  return { point, square, tangential, clear };
}

/** Where the instrument stands in the picture: its contact, and the way its plunger comes out of the tooth. */
export interface Stand {
  readonly contact: Vector3;
  readonly along: Vector3;
  readonly clear: Vector3;
}

export const createStand = (): Stand => ({
  contact: new Vector3(),
  along: new Vector3(),
  clear: new Vector3(),
});

const AXIS = new Vector3(0, 0, 1);

/** Puts the dial to the heel turned `angle` about the ring's axis, then mirrored (y → −y) for a reverse-cut set. */
export function standAt(
  out: Stand,
  heel: Heel,
  direction: DialDirection,
  angle: number,
  mirrored: boolean,
): Stand {
  const turned = [out.contact.copy(heel.point), out.along.copy(heel[direction]), out.clear.copy(heel.clear)];
  for (const vector of turned) {
    vector.applyAxisAngle(AXIS, angle);
    if (mirrored) vector.y *= -1;
  }
  return out;
}
