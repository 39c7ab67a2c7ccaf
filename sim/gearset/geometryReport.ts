import { DEG_PER_RAD } from '../math/angles.ts';
import { cross, dot } from '../math/vec3.ts';
import type { HeightLine } from './blank.ts';
import { FLANKS, type FlankName } from './definition.ts';
import type { GearMesh } from './gearMesh.ts';

/** Geometry of a gear set in the units of files and screens: mm and degrees (docs/model.md §3, §4). */
export interface GeometryReport {
  readonly ringPitchAngle: number;
  readonly pinionPitchAngle: number;
  readonly ringSpiralAngle: number;
  readonly limitPressureAngle: number;
  readonly ringMeanRadius: number;
  readonly pinionMeanRadius: number;
  readonly meanNormalModule: number;
  readonly workingDepth: number;
  readonly ringAddendum: number;
  readonly pinionAddendum: number;
  readonly driveBladeAngle: number;
  readonly coastBladeAngle: number;
  readonly pointWidth: number;
  readonly cutterLeadAngle: number;
  /** mm; its sign is that of 1/ρ_lim */
  readonly limitCurvatureRadius: number;
  readonly meanPoint: readonly [number, number, number];
}

/**
 * Tooth outline of the ring flank developed flat, mm: l along the face width (toe −b/2 … heel +b/2),
 * d along the tooth height from the pitch cone.
 */
export interface FlankOutline {
  readonly faceWidth: number;
  readonly face: HeightLine;
  readonly workingRoot: HeightLine;
  readonly root: HeightLine;
  /** Looking square at the flank from its slot, face up: is the heel on the right? (standard-cut; mirrored for reverse-cut) */
  readonly heelOnRight: Readonly<Record<FlankName, boolean>>;
}

export const reportGeometry = (mesh: GearMesh): GeometryReport => {
  const { pitch, blank, cutter, mirrored } = mesh;
  return {
    ringPitchAngle: pitch.ringPitchAngle * DEG_PER_RAD,
    pinionPitchAngle: pitch.pinionPitchAngle * DEG_PER_RAD,
    ringSpiralAngle: pitch.ringSpiralAngle * DEG_PER_RAD,
    limitPressureAngle: pitch.limitPressureAngle * DEG_PER_RAD,
    ringMeanRadius: pitch.ringRadius,
    pinionMeanRadius: pitch.pinionRadius,
    meanNormalModule: blank.normalModule,
    workingDepth: blank.workingDepth,
    ringAddendum: blank.ringAddendum,
    pinionAddendum: blank.pinionAddendum,
    driveBladeAngle: cutter.bladeAngle.drive * DEG_PER_RAD,
    coastBladeAngle: cutter.bladeAngle.coast * DEG_PER_RAD,
    pointWidth: cutter.pointWidth,
    cutterLeadAngle: cutter.leadAngle * DEG_PER_RAD,
    limitCurvatureRadius: 1 / pitch.limitCurvature,
    meanPoint: [pitch.point[0], mirrored ? -pitch.point[1] : pitch.point[1], pitch.point[2]],
  };
};

/** Which end lies on the right when one looks along −N with the face up. */
const heelIsRight = (mesh: GearMesh, flank: FlankName): boolean => {
  const { point, normal } = mesh.flanks[flank].ring.at(0, 0);
  const face = mesh.flanks[flank].ring.at(0, 1).point;
  const heel = mesh.flanks[flank].ring.at(0.5, 0).point;
  const up = [face[0] - point[0], face[1] - point[1], face[2] - point[2]] as const;
  const outward = [heel[0] - point[0], heel[1] - point[1], heel[2] - point[2]] as const;
  const right = cross(up, normal);
  return dot(right, outward) > 0 !== mesh.mirrored;
};

export const reportOutline = (mesh: GearMesh): FlankOutline => {
  const { blank } = mesh;
  const [drive, coast] = FLANKS.map((flank) => heelIsRight(mesh, flank));
  return {
    faceWidth: blank.faceWidth,
    face: { d0: blank.ringAddendum, slope: blank.faceSlope },
    workingRoot: { d0: -blank.pinionAddendum, slope: -blank.workingRootSlope },
    root: { d0: -blank.ringDedendum, slope: -blank.rootSlope },
    heelOnRight: { drive, coast },
  };
};
