import { TURN, wrapAngle } from '../math/angles.ts';
import type { Vec3 } from '../math/vec3.ts';
import { heightCoordinate } from './blank.ts';
import type { FlankName } from './definition.ts';
import type { GearMesh } from './gearMesh.ts';
import { revolveSection } from './revolvedBody.ts';
import type { MemberSolid } from './solids.ts';
import { buildToothSector, type FlankPlace, type SectorDetail, type ToothShape } from './toothSector.ts';

/** Share of the root clearance that the fillet takes; the rest stays flank below the working depth. */
const FILLET_SHARE = 0.95;

/** The ring's tooth between the drive flank of one slot and the coast flank of the next. */
const ringToothShape = (mesh: GearMesh): ToothShape => {
  const { pitch, blank, flanks, definition } = mesh;
  const sin = Math.sin(pitch.ringPitchAngle);
  const cos = Math.cos(pitch.ringPitchAngle);
  const half = 0.5 * blank.faceWidth;
  const toothPitch = TURN / definition.ringTeeth;
  const polar = (side: FlankName, u: number, v: number): number => {
    const { point } = flanks[side].ring.at(u, v);
    return Math.atan2(point[1], point[0]);
  };
  const slotToTooth = Math.sign(wrapAngle(polar('drive', 0, 0) - polar('coast', 0, 0)));
  const reference = polar('drive', 0, 0);
  return {
    alongFrom: -half,
    alongTo: half,
    pitch: toothPitch,
    heights: (l) => {
      const root = -blank.ringDedendum - l * blank.rootSlope;
      const working = -blank.pinionAddendum - l * blank.workingRootSlope;
      return {
        root,
        filletTop: root + FILLET_SHARE * Math.max(0, working - root),
        top: blank.ringAddendum + l * blank.faceSlope,
      };
    },
    flank: (side, l, d): FlankPlace => {
      const u = l / half;
      const v = heightCoordinate(blank, u, d);
      const angle = reference + wrapAngle(polar(side, u, v) - reference);
      return { angle: side === 'coast' ? angle + slotToTooth * toothPitch : angle, u, v };
    },
    toPoint: (l, d, angle): Vec3 => {
      const radius = pitch.ringRadius + l * sin + d * cos;
      return [radius * Math.cos(angle), radius * Math.sin(angle), pitch.point[2] - l * cos + d * sin];
    },
  };
};

/** Rim under the teeth, in working depths, and bore, as a share of the toe's root radius. */
const RIM_DEPTH = 1.5;
const BORE_SHARE = 0.9;
const CHAMFER = 0.12;

/** Ring gear for drawing: teeth from the solver's flanks, a plain rim below them. */
export const buildRingSolid = (mesh: GearMesh, detail: SectorDetail, segments: number): MemberSolid => {
  const shape = ringToothShape(mesh);
  const { workingDepth } = mesh.blank;
  const rootAt = (l: number) => {
    const [x, y, z] = shape.toPoint(l, shape.heights(l).root, 0);
    return { radius: Math.hypot(x, y), axial: z };
  };
  const toe = rootAt(shape.alongFrom);
  const heel = rootAt(shape.alongTo);
  const back = Math.min(toe.axial, heel.axial) - RIM_DEPTH * workingDepth;
  const bore = BORE_SHARE * toe.radius;
  const chamfer = CHAMFER * workingDepth;
  const section = [
    toe,
    { radius: bore + chamfer, axial: toe.axial },
    { radius: bore, axial: toe.axial - chamfer },
    { radius: bore, axial: back + chamfer },
    { radius: bore + chamfer, axial: back },
    { radius: heel.radius - chamfer, axial: back },
    { radius: heel.radius, axial: back + chamfer },
    heel,
  ];
  return {
    sector: buildToothSector(shape, detail),
    count: mesh.definition.ringTeeth,
    body: revolveSection(section, segments, (radius, axial, angle) => [
      radius * Math.cos(angle),
      radius * Math.sin(angle),
      axial,
    ]),
  };
};
