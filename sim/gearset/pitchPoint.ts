import { DEG_PER_RAD, RAD_PER_DEG } from '../math/angles.ts';
import { bisect } from '../math/roots.ts';
import { cross, dot, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import type { GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';

/** The point where both pitch cones touch and everything that follows from it (docs/model.md §3). mm, rad. */
export interface PitchPoint {
  /** m = ring teeth / pinion teeth */
  readonly ratio: number;
  /** a, mm, positive (a negative offset is the mirror image, handled by the caller) */
  readonly offset: number;
  /** P */
  readonly point: Vec3;
  /** n, unit normal of the pitch plane, n_z > 0 */
  readonly normal: Vec3;
  /** g2, unit ring generatrix, outward */
  readonly ringGeneratrix: Vec3;
  /** R and r1, mm */
  readonly ringRadius: number;
  readonly pinionRadius: number;
  /** δ2, δ1 */
  readonly ringPitchAngle: number;
  readonly pinionPitchAngle: number;
  /** β2, β1, signed toward the velocities v2, v1 */
  readonly ringSpiralAngle: number;
  readonly pinionSpiralAngle: number;
  /** α_lim */
  readonly limitPressureAngle: number;
  /** 1/ρ_lim, 1/mm; the radius itself has a pole */
  readonly limitCurvature: number;
}

const PITCH_ANGLE_LOW = 45 * RAD_PER_DEG;
const PITCH_ANGLE_HIGH = 86 * RAD_PER_DEG;
const X_AXIS: Vec3 = [1, 0, 0];
const Z_AXIS: Vec3 = [0, 0, 1];

/** Everything at one (δ2, κ); κ is the angle of P about the ring axis. */
const pitchPointAt = (
  ratio: number,
  offset: number,
  ringRadius: number,
  ringPitchAngle: number,
  kappa: number,
): PitchPoint => {
  const sin = Math.sin(kappa);
  const height = ((offset - ringRadius * sin) * Math.tan(ringPitchAngle)) / sin;
  const point: Vec3 = [ringRadius * Math.cos(kappa), ringRadius * sin, -height];
  const ringVelocity = cross(Z_AXIS, point);
  const pinionVelocity = scale(cross(X_AXIS, subtract(point, [0, offset, 0])), ratio);
  let normal = unit(cross(pinionVelocity, ringVelocity));
  if (normal[2] < 0) normal = scale(normal, -1);
  const ringDirection = unit(ringVelocity);
  const pinionDirection = unit(pinionVelocity);
  let ringGeneratrix = unit(cross(ringDirection, normal));
  if (ringGeneratrix[0] * point[0] + ringGeneratrix[1] * point[1] < 0)
    ringGeneratrix = scale(ringGeneratrix, -1);
  let pinionGeneratrix = unit(cross(pinionDirection, normal));
  if (pinionGeneratrix[0] < 0) pinionGeneratrix = scale(pinionGeneratrix, -1);
  let tangent = unit(subtract(pinionVelocity, ringVelocity));
  if (dot(tangent, ringGeneratrix) < 0) tangent = scale(tangent, -1);
  const delta2 = Math.acos(-ringGeneratrix[2]);
  const delta1 = Math.acos(pinionGeneratrix[0]);
  const beta2 = Math.atan2(dot(tangent, ringDirection), dot(tangent, ringGeneratrix));
  const beta1 = Math.atan2(dot(tangent, pinionDirection), dot(tangent, pinionGeneratrix));
  const pinionRadius = Math.hypot(point[1] - offset, point[2]);
  const limit = limitPressure(pinionRadius, ringRadius, delta1, delta2, beta1, beta2);
  return {
    ratio,
    offset,
    point,
    normal,
    ringGeneratrix,
    ringRadius,
    pinionRadius,
    ringPitchAngle: delta2,
    pinionPitchAngle: delta1,
    ringSpiralAngle: beta2,
    pinionSpiralAngle: beta1,
    limitPressureAngle: limit.angle,
    limitCurvature: limit.curvature,
  };
};

/** Limit pressure angle and limit curvature, spiral angles taken as magnitudes (docs/model.md §3). */
const limitPressure = (
  r1: number,
  r2: number,
  delta1: number,
  delta2: number,
  signedBeta1: number,
  signedBeta2: number,
): { angle: number; curvature: number } => {
  const beta1 = Math.abs(signedBeta1);
  const beta2 = Math.abs(signedBeta2);
  const cone1 = r1 / Math.sin(delta1);
  const cone2 = r2 / Math.sin(delta2);
  const tan1 = Math.tan(delta1);
  const tan2 = Math.tan(delta2);
  const tanLimit =
    -((tan1 * tan2) / Math.cos(beta1 - beta2)) *
    ((cone1 * Math.sin(beta1) - cone2 * Math.sin(beta2)) / (cone1 * tan1 + cone2 * tan2));
  const angle = Math.atan(tanLimit);
  const curvature =
    (Math.cos(angle) / (Math.tan(beta1) - Math.tan(beta2))) *
    (-tanLimit * (Math.tan(beta1) / (cone1 * tan1) + Math.tan(beta2) / (cone2 * tan2)) +
      1 / (cone1 * Math.cos(beta1)) -
      1 / (cone2 * Math.cos(beta2)));
  return { angle, curvature };
};

/** Pitch point at a given ring pitch angle δ2 (rad), or the reachable range of pinion spiral angles (deg). */
const pitchPointForAngle = (
  definition: GearSetDefinition,
  ringPitchAngle: number,
): PitchPoint | { readonly low: number; readonly high: number } => {
  const ratio = definition.ringTeeth / definition.pinionTeeth;
  const offset = Math.abs(definition.offset);
  const radius = definition.ringOuterDiameter / 2 - 0.5 * definition.faceWidth * Math.sin(ringPitchAngle);
  if (!(radius > offset)) return { low: Number.NaN, high: Number.NaN };
  const wanted = definition.pinionSpiralAngle * RAD_PER_DEG;
  const kappaHigh = Math.asin(offset / radius);
  // The signed β1 falls all the way from 90° through zero; its magnitude would turn round.
  const excess = (kappa: number) =>
    pitchPointAt(ratio, offset, radius, ringPitchAngle, kappa).pinionSpiralAngle - wanted;
  const result = bisect(excess, kappaHigh * 1e-6, kappaHigh * (1 - 1e-9));
  if (!result.converged) {
    return {
      low: Math.max(0, (excess(kappaHigh * (1 - 1e-9)) + wanted) * DEG_PER_RAD),
      high: (excess(kappaHigh * 1e-6) + wanted) * DEG_PER_RAD,
    };
  }
  return pitchPointAt(ratio, offset, radius, ringPitchAngle, result.root);
};

const isPitchPoint = (x: PitchPoint | { low: number; high: number }): x is PitchPoint => 'point' in x;

const refuseSpiral = (definition: GearSetDefinition, range: { low: number; high: number }): never => {
  if (!Number.isFinite(range.low)) {
    throw new UnmakeableError(
      'no-pitch-point',
      'offset',
      `${definition.offset} mm is not inside the ring's mean radius`,
      `use an offset well below ${(definition.ringOuterDiameter / 2 - definition.faceWidth / 2).toFixed(1)} mm, or a larger ring`,
    );
  }
  throw new UnmakeableError(
    'no-pitch-point',
    'pinionSpiralAngle',
    `${definition.pinionSpiralAngle}° has no pitch point with this offset and ring`,
    `use ${range.low.toFixed(1)}° to ${range.high.toFixed(1)}°, or change offset`,
  );
};

/** Ring pitch angle that makes the limit curvature equal the cutter's, when the definition leaves it open. */
const pitchPointForCutter = (definition: GearSetDefinition): PitchPoint => {
  const cutterRadius = definition.cut.cutterRadius;
  // A coarse walk first: part of the range may have no pitch point at all.
  const steps = 82;
  let previous: { angle: number; curvature: number } | null = null;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let lastRefusal: { low: number; high: number } | null = null;
  let nearest = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
  for (let i = 0; i <= steps; i++) {
    const angle = PITCH_ANGLE_LOW + ((PITCH_ANGLE_HIGH - PITCH_ANGLE_LOW) * i) / steps;
    const candidate = pitchPointForAngle(definition, angle);
    if (!isPitchPoint(candidate)) {
      lastRefusal = candidate;
      nearest = {
        low: Math.min(nearest.low, candidate.low),
        high: Math.max(nearest.high, candidate.high),
      };
      previous = null;
      continue;
    }
    const curvature = candidate.limitCurvature;
    low = Math.min(low, curvature);
    high = Math.max(high, curvature);
    const excess = curvature - 1 / cutterRadius;
    if (previous && (previous.curvature - 1 / cutterRadius) * excess <= 0) {
      const result = bisect(
        (delta) => {
          const at = pitchPointForAngle(definition, delta);
          return isPitchPoint(at) ? at.limitCurvature - 1 / cutterRadius : Number.NaN;
        },
        previous.angle,
        angle,
      );
      const found = pitchPointForAngle(definition, result.root);
      if (result.converged && isPitchPoint(found)) return found;
    }
    previous = { angle, curvature };
  }
  if (high < low)
    return refuseSpiral(definition, lastRefusal ? nearest : { low: Number.NaN, high: Number.NaN });
  const allowed =
    high <= 0
      ? 'no cutter radius would do with this offset and spiral angle: change pinionSpiralAngle or offset'
      : low <= 0
        ? `use ${(1 / high).toFixed(1)} mm or more`
        : `use ${(1 / high).toFixed(1)} to ${(1 / low).toFixed(1)} mm`;
  throw new UnmakeableError(
    'no-pitch-angle-for-cutter',
    'cut.cutterRadius',
    `${cutterRadius} mm gives no ring pitch angle between 45° and 86°`,
    allowed === '' ? 'change pinionSpiralAngle' : allowed,
  );
};

/**
 * Finds the pitch point of a gear set (docs/model.md §3).
 * @throws UnmakeableError when offset, spiral angle or cutter radius leave no pitch point.
 */
export const findPitchPoint = (definition: GearSetDefinition): PitchPoint => {
  if (definition.offset === 0) {
    throw new UnmakeableError(
      'no-pitch-point',
      'offset',
      '0 mm makes the pitch velocities parallel',
      'use a small offset, 1 mm or more either way',
    );
  }
  const pitch = locatePitchPoint(definition);
  if (pitch.ringSpiralAngle > 0) return pitch;
  throw new UnmakeableError(
    'no-pitch-point',
    'pinionSpiralAngle',
    `${definition.pinionSpiralAngle}° turns the ring's spiral the other way`,
    'use a larger pinionSpiralAngle or a smaller offset',
  );
};

const locatePitchPoint = (definition: GearSetDefinition): PitchPoint => {
  const given = definition.cut.ringPitchAngle;
  if (given === undefined) return pitchPointForCutter(definition);
  const found = pitchPointForAngle(definition, given * RAD_PER_DEG);
  return isPitchPoint(found) ? found : refuseSpiral(definition, found);
};
