import { DEG_PER_RAD, RAD_PER_DEG } from '../math/angles.ts';
import { bisect } from '../math/roots.ts';
import { add, addScaled, cross, dot, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import type { Blank } from './blank.ts';
import type { FlankName, GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';
import type { PitchPoint } from './pitchPoint.ts';

/** The cutter head set to the ring: where it turns, which way its blades lean (docs/model.md §4). mm, rad. */
export interface Cutter {
  /** C, a point of the cutter axis in the root plane */
  readonly center: Vec3;
  /** n_f, unit cutter axis */
  readonly axis: Vec3;
  /** M, mean point of the slot's root */
  readonly rootPoint: Vec3;
  /** w, unit, across the slot away from the cutter axis */
  readonly across: Vec3;
  /** k, ring turn per cutter turn (0 when face-milled) */
  readonly indexing: number;
  /** |β2| − ψ_c (0 when face-milled) */
  readonly leadAngle: number;
  /** α_D, α_C */
  readonly bladeAngle: Readonly<Record<FlankName, number>>;
  /** W, mm */
  readonly pointWidth: number;
  readonly slotWidth: number;
}

const BLADE_LOW = 5 * RAD_PER_DEG;
const BLADE_HIGH = 40 * RAD_PER_DEG;

/** Sets the cutter to the root of the slot; throws UnmakeableError for blades or point width no cutter has. */
export const setCutter = (definition: GearSetDefinition, pitch: PitchPoint, blank: Blank): Cutter => {
  const { cut, tooth } = definition;
  const delta = pitch.ringPitchAngle - blank.rootAngle;
  const radial = unit([pitch.point[0], pitch.point[1], 0]);
  const axis: Vec3 = [Math.cos(delta) * radial[0], Math.cos(delta) * radial[1], Math.sin(delta)];
  const generatrix: Vec3 = [Math.sin(delta) * radial[0], Math.sin(delta) * radial[1], -Math.cos(delta)];
  const circumferential: Vec3 = [-radial[1], radial[0], 0];
  const spiral = Math.abs(pitch.ringSpiralAngle);
  const hand = Math.sign(pitch.ringSpiralAngle);
  const tangent = add(scale(generatrix, Math.cos(spiral)), scale(circumferential, hand * Math.sin(spiral)));
  const rootPoint = addScaled(pitch.point, pitch.normal, -blank.ringDedendum);
  const centerFor = (psi: number): Vec3 =>
    add(
      rootPoint,
      scale(
        add(scale(generatrix, -Math.sin(psi)), scale(circumferential, hand * Math.cos(psi))),
        cut.cutterRadius,
      ),
    );
  let psi = spiral;
  let indexing = 0;
  if (cut.method === 'face-hobbed') {
    indexing = -cut.bladeGroups / definition.ringTeeth;
    const sideways = (candidate: number): number => {
      const path = subtract(
        cross(axis, subtract(rootPoint, centerFor(candidate))),
        scale(cross([0, 0, 1], rootPoint), indexing),
      );
      return dot(cross(path, tangent), axis);
    };
    const result = bisect(sideways, spiral - Math.PI / 2, spiral);
    if (!result.converged) {
      throw new UnmakeableError(
        'bad-value',
        'cut.bladeGroups',
        `${cut.bladeGroups} blade groups on a ${cut.cutterRadius} mm cutter cannot follow this spiral`,
        'use fewer blade groups or a larger cutter radius',
      );
    }
    psi = result.root;
  }
  const center = centerFor(psi);
  let across = unit(cross(axis, tangent));
  if (dot(across, subtract(rootPoint, center)) < 0) across = scale(across, -1);

  const pressure = tooth.pressureAngle * RAD_PER_DEG;
  const bladeAngle = {
    drive: pressure + pitch.limitPressureAngle,
    coast: pressure - pitch.limitPressureAngle,
  };
  for (const flank of ['drive', 'coast'] as const) {
    const angle = bladeAngle[flank];
    if (angle >= BLADE_LOW && angle <= BLADE_HIGH) continue;
    const swing = Math.abs(pitch.limitPressureAngle) * DEG_PER_RAD;
    const [low, high] = [5 + swing, 40 - swing];
    throw new UnmakeableError(
      'blade-angle',
      'tooth.pressureAngle',
      `${tooth.pressureAngle}° makes the ${flank} blade angle ${(angle * DEG_PER_RAD).toFixed(1)}°`,
      low < high
        ? `blade angles must be 5° to 40°: use ${low.toFixed(1)}° to ${high.toFixed(1)}°`
        : 'blade angles must be 5° to 40°, and no pressure angle gives that here: change pinionSpiralAngle, offset or cut.cutterRadius',
    );
  }
  const slotWidth = tooth.slotFactor * Math.PI * blank.normalModule;
  const taperWidth = blank.ringDedendum * (Math.tan(bladeAngle.drive) + Math.tan(bladeAngle.coast));
  const pointWidth = slotWidth - taperWidth;
  if (!(pointWidth > 0)) {
    throw new UnmakeableError(
      'point-width',
      'tooth.slotFactor',
      `${tooth.slotFactor} leaves a point width of ${pointWidth.toFixed(2)} mm`,
      `a point width above 0: use a slot factor above ${(taperWidth / (Math.PI * blank.normalModule)).toFixed(3)}, or a smaller tooth.depthFactor`,
    );
  }
  return {
    center,
    axis,
    rootPoint,
    across,
    indexing,
    leadAngle: spiral - psi,
    bladeAngle,
    pointWidth,
    slotWidth,
  };
};
