import { Matrix4, type Quaternion, Vector3 } from 'three';
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

/** Toward the camera from what it looks at (ring axis up), before any mirroring. */
const TOWARD: Readonly<Record<'whole' | 'mesh', Vector3>> = {
  whole: new Vector3(0.5, 0.72, 0.62).normalize(),
  mesh: new Vector3(-0.1, 0.72, 0.7).normalize(),
};

const MARGINS: Readonly<Record<'whole' | 'mesh' | 'square', Margins>> = {
  whole: { left: 0.04, right: 0.04, top: 0.05, bottom: 0.05 },
  mesh: { left: 0.02, right: 0.02, top: 0.02, bottom: 0.02 },
  square: { left: 0.13, right: 0.13, top: 0.17, bottom: 0.15 },
};

const basis = new Matrix4();
const right = new Vector3();
const screenUp = new Vector3();
const back = new Vector3();
let mirrorScratch = new Float32Array(0);

function lookFrom(orientation: Quaternion, toward: Vector3, up: Vector3): void {
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
 * The view of a home for a picture of the given aspect (width / height). Reverse-cut sets are looked at from the
 * mirrored place, so that their picture is the mirror image. Square-on homes look along the flank's mean normal,
 * face up, at the base tooth of the ring at rest.
 */
export function homeView(
  out: View,
  home: StageHome,
  facts: GearFacts,
  mirrored: boolean,
  aspect: number,
): void {
  const flip = mirrored ? -1 : 1;
  const flank = squareFlank(home);
  let points: Float32Array;
  let margins: Margins;
  if (flank !== null) {
    const place: FlankPlace = facts[flank];
    back.copy(place.normal);
    out.up.copy(place.heightwise);
    points = place.points;
    margins = MARGINS.square;
  } else {
    const open = home === 'whole' ? 'whole' : 'mesh';
    back.copy(TOWARD[open]);
    out.up.set(0, 0, 1);
    points = open === 'whole' ? facts.outline : facts.mesh;
    margins = MARGINS[open];
  }
  back.y *= flip;
  out.up.y *= flip;
  lookFrom(out.orientation, back, out.up);
  frame(out, mirroredPoints(points, mirrored), aspect, margins);
}
