import { MathUtils, Matrix4, type Quaternion, Vector3 } from 'three';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { FlankPlace, GearFacts } from './facts.ts';
import { frame, type Margins } from './frame.ts';
import type { View } from './rig.ts';

export const STAGE_HOMES = ['whole', 'mesh', 'drive', 'coast'] as const;
/** Where the camera is at home: the whole set, at the mesh, or square on a flank of the ring. */
export type StageHome = (typeof STAGE_HOMES)[number];

/** The flank a home looks square at, or null. */
export const squareFlank = (home: StageHome): FlankName | null =>
  home === 'drive' || home === 'coast' ? home : null;

/**
 * Toward the camera from what it looks at (ring axis up), before any mirroring: for a picture at least WIDE times
 * as wide as high, and for one at most TALL times. Tall pictures look down more steeply and so fill their height.
 */
const TOWARD: Readonly<Record<'whole' | 'mesh', { readonly wide: Vector3; readonly tall: Vector3 }>> = {
  whole: { wide: new Vector3(0.5, 0.72, 0.62), tall: new Vector3(0.44, 0.5, 1.15) },
  mesh: { wide: new Vector3(-0.1, 0.72, 0.7), tall: new Vector3(-0.1, 0.6, 0.85) },
};
const WIDE = 1.5;
const TALL = 0.75;

/** Size of the picture, CSS pixels. */
export interface Picture {
  readonly width: number;
  readonly height: number;
}

const margins = { left: 0, right: 0, top: 0, bottom: 0 };

/** Room round what is framed: for labels at its sides and the caption above when square on, in CSS pixels. */
function marginsFor(home: StageHome, { width, height }: Picture): Margins {
  const square = squareFlank(home) !== null;
  const side = square ? 66 : home === 'whole' ? 14 : 8;
  margins.left = Math.min(side / width, 0.2);
  margins.right = margins.left;
  margins.top = Math.min((square ? 74 : side) / height, 0.3);
  margins.bottom = Math.min((square ? 46 : side) / height, 0.22);
  return margins;
}

const basis = new Matrix4();
const right = new Vector3();
const screenUp = new Vector3();
const back = new Vector3();
let mirrorScratch = new Float32Array(0);

/** Orientation that looks against `toward` with `up` upward. */
export function lookFrom(orientation: Quaternion, toward: Vector3, up: Vector3): void {
  right.crossVectors(up, toward).normalize();
  screenUp.crossVectors(toward, right);
  orientation.setFromRotationMatrix(basis.makeBasis(right, screenUp, toward));
}

function mirroredPoints(points: Float32Array, mirrored: boolean): Float32Array {
  if (!mirrored) return points;
  if (mirrorScratch.length !== points.length) mirrorScratch = new Float32Array(points.length);
  for (let i = 0; i < points.length; i += 3) {
    mirrorScratch[i] = points[i];
    mirrorScratch[i + 1] = -points[i + 1];
    mirrorScratch[i + 2] = points[i + 2];
  }
  return mirrorScratch;
}

/**
 * The view of a home for a picture of the given size. Reverse-cut sets are looked at from the
 * mirrored place, so that their picture is the mirror image. Square-on homes look along the flank's mean normal,
 * face up, at the base tooth of the ring at rest.
 */
export function homeView(
  out: View,
  home: StageHome,
  facts: GearFacts,
  mirrored: boolean,
  picture: Picture,
): void {
  const flip = mirrored ? -1 : 1;
  const flank = squareFlank(home);
  let points: Float32Array;
  if (flank !== null) {
    const place: FlankPlace = facts[flank];
    back.copy(place.normal);
    out.up.copy(place.heightwise);
    points = place.points;
  } else {
    const open = home === 'whole' ? 'whole' : 'mesh';
    const { wide, tall } = TOWARD[open];
    const share = MathUtils.clamp((picture.width / picture.height - TALL) / (WIDE - TALL), 0, 1);
    back.lerpVectors(tall, wide, share).normalize();
    out.up.set(0, 0, 1);
    points = open === 'whole' ? facts.outline : facts.mesh;
  }
  back.y *= flip;
  out.up.y *= flip;
  lookFrom(out.orientation, back, out.up);
  frame(out, mirroredPoints(points, mirrored), picture.width / picture.height, marginsFor(home, picture));
}
