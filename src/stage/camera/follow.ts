import { Quaternion, Vector3 } from 'three';
import type { View } from './rig.ts';

const turned = new Quaternion();
const back = new Quaternion();
const shift = new Vector3();

/**
 * Puts `out` where it looks at its own set as `leader` looks at another one: turned and shifted from `home` as the leader
 * is from its own home, in proportion to the distances of the homes. `mirrored`: one of the sets is drawn as the mirror
 * image of its kind, so that left and right change places.
 */
export function followView(out: View, home: View, leader: View, leaderHome: View, mirrored: boolean): void {
  const scale = home.distance / leaderHome.distance;
  out.distance = leader.distance * scale;
  out.up.copy(home.up);
  back.copy(leaderHome.orientation).invert();
  turned.copy(back).multiply(leader.orientation);
  shift.subVectors(leader.target, leaderHome.target).applyQuaternion(back).multiplyScalar(scale);
  if (mirrored) {
    // the reflection of a rotation in the plane x = 0 of the camera
    turned.set(turned.x, -turned.y, -turned.z, turned.w);
    shift.x = -shift.x;
  }
  out.orientation.copy(home.orientation).multiply(turned).normalize();
  out.target.copy(home.target).add(shift.applyQuaternion(home.orientation));
}
