import { MathUtils, Matrix4, Vector3 } from 'three';
import { frame } from '../camera/frame.ts';
import type { Picture } from '../camera/homes.ts';
import type { View } from '../camera/rig.ts';
import type { HousingLayout } from './layout.ts';

export const HOUSING_HOMES = ['whole', 'square', 'pinion', 'carrier'] as const;
/** Where the camera is at home: the whole axle, square on its section, at the pinion's bearings, at the carrier's. */
export type HousingHome = (typeof HOUSING_HOMES)[number];

/** Toward the camera from what it looks at (ring axis up), before any mirroring. */
const TOWARD: Readonly<Record<HousingHome, Vector3>> = {
  whole: new Vector3(0.3, 0.9, 0.24),
  square: new Vector3(0, 1, 0),
  pinion: new Vector3(0.1, 0.9, 0.34),
  carrier: new Vector3(-0.3, 0.88, 0.32),
};

/** CSS pixels left free round what is framed, for labels */
const ROOM = { side: 60, above: 14, below: 14 } as const;

const ROUND = 16;

/** Circle points about the pinion's axis, or about the ring's, packed xyz. */
function circle(
  out: number[],
  axis: 'pinion' | 'carrier',
  axial: number,
  radius: number,
  offset: number,
): void {
  for (let k = 0; k < ROUND; k++) {
    const c = radius * Math.cos((2 * Math.PI * k) / ROUND);
    const s = radius * Math.sin((2 * Math.PI * k) / ROUND);
    if (axis === 'pinion') out.push(axial, offset + c, s);
    else out.push(c, s, axial);
  }
}

function outline(layout: HousingLayout, home: HousingHome): number[] {
  const { gears, pinionSide, carrierSide, arrows } = layout;
  const { offset } = gears;
  const points: number[] = [];
  const pinion = (axial: number, radius: number) => circle(points, 'pinion', axial, radius, offset);
  const carrier = (axial: number, radius: number) => circle(points, 'carrier', axial, radius, offset);
  const { ringSide, oppositeSide, body, bowlOuter } = carrierSide;
  if (home === 'whole' || home === 'square') {
    for (const { axis, from, to, size } of arrows) {
      for (const at of [from, to]) circle(points, axis, at, 0.6 * size, offset);
    }
    pinion(pinionSide.tail.from, pinionSide.widest);
    carrier(gears.ring.back, gears.ring.outer);
    // of the shell only the half behind is there
    for (const side of [-1, 1])
      points.push(0.98 * side * bowlOuter, 0, 0, 0.6 * side * bowlOuter, -0.7 * bowlOuter, 0);
    return points;
  }
  if (home === 'pinion') {
    pinion(gears.pinion.shoulder - 0.4 * gears.pinion.tip, gears.pinion.tip);
    pinion(pinionSide.tail.from, 1.05 * Math.max(pinionSide.widest, pinionSide.boss.outer));
    pinion(pinionSide.end + 0.6 * gears.pinion.seat, 0);
    return points;
  }
  for (const [end, way] of [
    [ringSide.end, -1],
    [oppositeSide.end, 1],
  ] as const) {
    carrier(end + way * 0.3 * body, 0.9 * body);
  }
  return points;
}

const basis = new Matrix4();
const right = new Vector3();
const up = new Vector3();
const back = new Vector3();

/** The view of a home for a picture of the given size; a reverse-cut set is looked at from the mirrored place. */
export function housingHomeView(
  out: View,
  home: HousingHome,
  layout: HousingLayout,
  mirrored: boolean,
  picture: Picture,
): void {
  const flip = mirrored ? -1 : 1;
  back.copy(TOWARD[home]).normalize();
  back.y *= flip;
  out.up.set(0, 0, 1);
  right.crossVectors(out.up, back).normalize();
  up.crossVectors(back, right);
  out.orientation.setFromRotationMatrix(basis.makeBasis(right, up, back));
  const points = outline(layout, home);
  if (mirrored) for (let i = 1; i < points.length; i += 3) points[i] *= -1;
  const { width, height } = picture;
  const side = MathUtils.clamp(ROOM.side / width, 0, 0.14);
  frame(out, points, width / height, {
    left: side,
    right: side,
    top: Math.min(ROOM.above / height, 0.14),
    bottom: Math.min(ROOM.below / height, 0.14),
  });
}
