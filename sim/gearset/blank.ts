import type { GearSetDefinition } from './definition.ts';
import type { PitchPoint } from './pitchPoint.ts';

/** A height line of the developed ring flank, d(l) = d0 + slope·l, mm. */
export interface HeightLine {
  readonly d0: number;
  readonly slope: number;
}

/** Tooth proportions of the ring (docs/model.md §4). mm, rad. */
export interface Blank {
  /** b */
  readonly faceWidth: number;
  /** m_n */
  readonly normalModule: number;
  /** hw */
  readonly workingDepth: number;
  /** a2, a1, f2 at the mean point */
  readonly ringAddendum: number;
  readonly pinionAddendum: number;
  readonly ringDedendum: number;
  /** tangents of θa, θp, θf: how each height line climbs along the face width */
  readonly faceSlope: number;
  readonly workingRootSlope: number;
  readonly rootSlope: number;
  /** θf */
  readonly rootAngle: number;
}

/** Proportions from the pitch point and the tooth factors (docs/model.md §4). */
export const proportionBlank = (definition: GearSetDefinition, pitch: PitchPoint): Blank => {
  const { tooth, faceWidth } = definition;
  const normalModule = (2 * pitch.ringRadius * Math.cos(pitch.ringSpiralAngle)) / definition.ringTeeth;
  const workingDepth = tooth.depthFactor * normalModule;
  const ringAddendum = tooth.ringAddendumFactor * workingDepth;
  const pinionAddendum = workingDepth - ringAddendum;
  const ringDedendum = pinionAddendum + tooth.clearanceFactor * workingDepth;
  const coneDistance = pitch.ringRadius / Math.sin(pitch.ringPitchAngle);
  const taper = tooth.depthTaper;
  const rootAngle = taper * Math.atan(ringDedendum / coneDistance);
  return {
    faceWidth,
    normalModule,
    workingDepth,
    ringAddendum,
    pinionAddendum,
    ringDedendum,
    faceSlope: Math.tan(taper * Math.atan(ringAddendum / coneDistance)),
    workingRootSlope: Math.tan(taper * Math.atan(pinionAddendum / coneDistance)),
    rootSlope: Math.tan(rootAngle),
    rootAngle,
  };
};

/** Axial point (l, d) of flank coordinates (u, v); v < −1 continues below the working root on the same scale. */
export const lengthAlongFace = (blank: Blank, u: number): number => 0.5 * blank.faceWidth * u;

/** Flank coordinate v of a height d (mm) at u; the inverse of `heightAt`. */
export const heightCoordinate = (blank: Blank, u: number, d: number): number => {
  const l = lengthAlongFace(blank, u);
  const low = -blank.pinionAddendum - l * blank.workingRootSlope;
  const high = blank.ringAddendum + l * blank.faceSlope;
  return (2 * (d - low)) / (high - low) - 1;
};

/** Height d (mm from the pitch cone) of flank coordinates (u, v). */
export const heightAt = (blank: Blank, u: number, v: number): number => {
  const l = lengthAlongFace(blank, u);
  const low = -blank.pinionAddendum - l * blank.workingRootSlope;
  const high = blank.ringAddendum + l * blank.faceSlope;
  return low + 0.5 * (v + 1) * (high - low);
};
