import { TURN, wrapAngle } from '../math/angles.ts';
import type { Vec3 } from '../math/vec3.ts';
import type { FlankName } from './definition.ts';
import type { GearMesh } from './gearMesh.ts';
import { pinionRootRadius, pinionTipRadius } from './pinionTip.ts';
import { revolveSection } from './revolvedBody.ts';
import type { MemberSolid } from './solids.ts';
import { buildToothSector, type FlankPlace, type SectorDetail, type ToothShape } from './toothSector.ts';

/** How far the pinion's ends reach beyond the ring's, in half face widths. */
const OVERHANG = 0.05;
const FILLET_SHARE = 0.95;

/**
 * The pinion's tooth as the conjugate of both ring flanks of one slot; its coast side turned back by `thinning`
 * (rad) to leave the backlash. Along = mm on the pitch cone's generatrix from the mean point, height square to it.
 */
const pinionToothShape = (mesh: GearMesh, thinning: number): ToothShape => {
  const { pitch, blank, flanks, definition } = mesh;
  const center = flanks.drive.pinion.partner(0, 0);
  if (!center) throw new Error('a makeable gear set has a contact at mid flank');
  const sin = Math.sin(pitch.pinionPitchAngle);
  const cos = Math.cos(pitch.pinionPitchAngle);
  const axialOf = (s: number, h: number) => pitch.point[0] + s * cos - h * sin;
  const radiusOf = (s: number, h: number) => pitch.pinionRadius + s * sin + h * cos;
  const clearance = blank.ringDedendum - blank.pinionAddendum;
  const towardDrive = -Math.sign(center.lever);
  const half = 0.5 * blank.faceWidth * pinionFaceScale(mesh) + 0.5 * OVERHANG * blank.faceWidth;

  /** Height at which the pinion's radius is that of a limit curve; the curve is nearly parallel to the cone. */
  const heightOn = (radiusAt: (x: number) => number, s: number, guess: number): number => {
    let h = guess;
    for (let i = 0; i < 30; i++) {
      const miss = radiusAt(axialOf(s, h)) - radiusOf(s, h);
      if (!Number.isFinite(miss)) return guess;
      h += miss / cos;
      if (Math.abs(miss) < 1e-9) break;
    }
    return h;
  };
  const last: Record<FlankName, { u: number; v: number; angle: number }> = {
    drive: { u: 0, v: 0, angle: center.flankPolar },
    coast: { u: 0, v: 0, angle: center.flankPolar },
  };
  return {
    alongFrom: -half,
    alongTo: half,
    pitch: TURN / definition.pinionTeeth,
    heights: (s) => {
      const top = heightOn((x) => pinionTipRadius(pitch, blank, x), s, blank.pinionAddendum);
      const root = heightOn((x) => pinionRootRadius(pitch, blank, x), s, -blank.ringAddendum - clearance);
      return { root, filletTop: root + FILLET_SHARE * clearance, top };
    },
    flank: (side, s, h): FlankPlace => {
      const before = last[side];
      const pinion = flanks[side].pinion;
      const axial = axialOf(s, h);
      const radius = radiusOf(s, h);
      const near = pinion.lookUp(axial, radius, before.u, before.v);
      const found = near.converged ? near : pinion.lookUp(axial, radius);
      // Off the conjugate flank (beyond an end) the surface goes on at the angle last found.
      if (!found.converged) return { ...before };
      const angle = center.flankPolar + wrapAngle(found.polar - center.flankPolar);
      const thinned = side === 'coast' ? angle + towardDrive * thinning : angle;
      last[side] = { u: found.u, v: found.v, angle: thinned };
      return { angle: thinned, u: found.u, v: found.v };
    },
    toPoint: (s, h, angle): Vec3 => {
      const radius = radiusOf(s, h);
      return [axialOf(s, h), radius * Math.cos(angle), radius * Math.sin(angle)];
    },
  };
};

/** Length of the pinion's face on its cone over that of the ring. */
const pinionFaceScale = (mesh: GearMesh): number => {
  const at = (u: number) => mesh.flanks.drive.pinion.partner(u, 0);
  const toe = at(-1);
  const heel = at(1);
  if (!toe || !heel) return 1;
  return Math.hypot(heel.axial - toe.axial, heel.radius - toe.radius) / mesh.blank.faceWidth;
};

/** Plain shaft behind the head, in shares of the heel's root radius and lengths in face widths. */
const UNDER_FLOOR = 0.7;
const SEAT_SHARE = 0.7;
const SHAFT_SHARE = 0.48;
const SEAT_LENGTH = 0.75;
const SHAFT_LENGTH = 2.1;

/** Pinion for drawing: teeth from the conjugate flanks, a plain head and shaft. */
export const buildPinionSolid = (
  mesh: GearMesh,
  thinning: number,
  detail: SectorDetail,
  segments: number,
): MemberSolid => {
  const shape = pinionToothShape(mesh, thinning);
  const sector = buildToothSector(shape, detail);
  const rootAt = (s: number) => {
    const [axial, y, z] = shape.toPoint(s, shape.heights(s).root, 0);
    return { radius: Math.hypot(y, z), axial };
  };
  const toe = rootAt(shape.alongFrom);
  const heel = rootAt(shape.alongTo);
  const { faceWidth } = mesh.blank;
  const chamfer = 0.03 * faceWidth;
  const seat = SEAT_SHARE * heel.radius;
  const shaft = SHAFT_SHARE * heel.radius;
  const shoulder = heel.axial + chamfer;
  const seatEnd = shoulder + SEAT_LENGTH * faceWidth;
  const end = heel.axial + SHAFT_LENGTH * faceWidth;
  const section = [
    { radius: 0, axial: toe.axial },
    toe,
    // The root floor dips below the straight line between its ends: the body passes well under it.
    { radius: UNDER_FLOOR * toe.radius, axial: toe.axial },
    { radius: UNDER_FLOOR * heel.radius, axial: heel.axial },
    heel,
    { radius: heel.radius - chamfer, axial: shoulder },
    { radius: seat, axial: shoulder },
    { radius: seat, axial: seatEnd - chamfer },
    { radius: seat - chamfer, axial: seatEnd },
    { radius: shaft, axial: seatEnd },
    { radius: shaft, axial: end - chamfer },
    { radius: shaft - chamfer, axial: end },
    { radius: 0, axial: end },
  ];
  return {
    sector,
    count: mesh.definition.pinionTeeth,
    // The piece between toe and heel lies under the teeth's own root floor.
    body: revolveSection(section, segments, (radius, axial, angle) => [
      axial,
      radius * Math.cos(angle),
      radius * Math.sin(angle),
    ]),
  };
};
