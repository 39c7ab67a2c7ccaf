import type { EaseOffDefinition, FlankName, GearSetDefinition } from '../../sim/gearset/definition.ts';
import { bisect } from './roots.ts';
import { add, cross, dot, norm, scale, sub, unit, type Vec3, wrapAngle } from './vector.ts';

const DEG = Math.PI / 180;
const AXIS_Z: Vec3 = [0, 0, 1];
const AXIS_X: Vec3 = [1, 0, 0];

/** Pitch point and pitch cones (docs/model.md §3). mm, rad. Spiral angles signed toward the velocities. */
export interface PitchPoint {
  readonly ratio: number;
  readonly offset: number;
  readonly ringMeanRadius: number;
  readonly pinionMeanRadius: number;
  readonly point: Vec3;
  readonly normal: Vec3;
  readonly ringGeneratrix: Vec3;
  readonly pinionGeneratrix: Vec3;
  readonly toothTangent: Vec3;
  readonly ringPitchAngle: number;
  readonly pinionPitchAngle: number;
  readonly ringSpiralAngle: number;
  readonly pinionSpiralAngle: number;
  readonly limitPressureAngle: number;
  /** 1/mm */
  readonly limitCurvature: number;
}

/** Pitch point for one ring pitch angle: everything from the two velocities at P. */
function pitchPointAt(definition: GearSetDefinition, ringPitchAngle: number): PitchPoint {
  const ratio = definition.ringTeeth / definition.pinionTeeth;
  const a = definition.offset;
  const radius = definition.ringOuterDiameter / 2 - 0.5 * definition.faceWidth * Math.sin(ringPitchAngle);
  const side = Math.sign(a);

  const frameAt = (kappa: number) => {
    const height = ((a - radius * Math.sin(kappa)) * Math.tan(ringPitchAngle)) / Math.sin(kappa);
    const point: Vec3 = [radius * Math.cos(kappa), radius * Math.sin(kappa), -height];
    const ringVelocity = cross(AXIS_Z, point);
    const pinionVelocity = scale(cross(AXIS_X, sub(point, [0, a, 0])), ratio);
    let normal = unit(cross(pinionVelocity, ringVelocity));
    if (normal[2] < 0) normal = scale(normal, -1);
    let ringGeneratrix = unit(cross(ringVelocity, normal));
    if (ringGeneratrix[0] * point[0] + ringGeneratrix[1] * point[1] < 0) {
      ringGeneratrix = scale(ringGeneratrix, -1);
    }
    let pinionGeneratrix = unit(cross(pinionVelocity, normal));
    if (pinionGeneratrix[0] < 0) pinionGeneratrix = scale(pinionGeneratrix, -1);
    let toothTangent = unit(sub(pinionVelocity, ringVelocity));
    if (dot(toothTangent, ringGeneratrix) < 0) toothTangent = scale(toothTangent, -1);
    const ringSpiral = Math.atan2(dot(toothTangent, unit(ringVelocity)), dot(toothTangent, ringGeneratrix));
    const pinionSpiral = Math.atan2(
      dot(toothTangent, unit(pinionVelocity)),
      dot(toothTangent, pinionGeneratrix),
    );
    return { point, normal, ringGeneratrix, pinionGeneratrix, toothTangent, ringSpiral, pinionSpiral };
  };

  const widest = Math.asin(Math.min(1, Math.abs(a) / radius));
  // The signed angle falls from +90° through zero; its magnitude would rise again beyond.
  const kappa = bisect(
    (k) => side * frameAt(side * k).pinionSpiral - definition.pinionSpiralAngle * DEG,
    widest * 1e-6,
    widest * (1 - 1e-9),
  );
  const frame = frameAt(side * kappa);

  const pinionPitchAngle = Math.acos(Math.min(1, frame.pinionGeneratrix[0]));
  const pinionMeanRadius = Math.hypot(frame.point[1] - a, frame.point[2]);
  const beta1 = Math.abs(frame.pinionSpiral);
  const beta2 = Math.abs(frame.ringSpiral);
  const tan1 = Math.tan(pinionPitchAngle);
  const tan2 = Math.tan(ringPitchAngle);
  const cone1 = pinionMeanRadius / Math.sin(pinionPitchAngle);
  const cone2 = radius / Math.sin(ringPitchAngle);
  const tanLimit =
    (-((tan1 * tan2) / Math.cos(beta1 - beta2)) * (cone1 * Math.sin(beta1) - cone2 * Math.sin(beta2))) /
    (cone1 * tan1 + cone2 * tan2);
  const limitPressureAngle = Math.atan(tanLimit);
  const limitCurvature =
    (Math.cos(limitPressureAngle) / (Math.tan(beta1) - Math.tan(beta2))) *
    (-tanLimit * (Math.tan(beta1) / (cone1 * tan1) + Math.tan(beta2) / (cone2 * tan2)) +
      1 / (cone1 * Math.cos(beta1)) -
      1 / (cone2 * Math.cos(beta2)));

  return {
    ratio,
    offset: a,
    ringMeanRadius: radius,
    pinionMeanRadius,
    point: frame.point,
    normal: frame.normal,
    ringGeneratrix: frame.ringGeneratrix,
    pinionGeneratrix: frame.pinionGeneratrix,
    toothTangent: frame.toothTangent,
    ringPitchAngle,
    pinionPitchAngle,
    ringSpiralAngle: frame.ringSpiral,
    pinionSpiralAngle: frame.pinionSpiral,
    limitPressureAngle,
    limitCurvature,
  };
}

/**
 * Pitch point; a face-milled set without a given ring pitch angle takes it from its cutter (docs/model.md §3).
 * Flat ring pitch angles are walked down from 86° because below some angle no mean point has the wanted
 * pinion spiral angle at all.
 */
export function findPitchPoint(definition: GearSetDefinition): PitchPoint {
  const { cut } = definition;
  if (cut.ringPitchAngle !== undefined) return pitchPointAt(definition, cut.ringPitchAngle * DEG);
  const misfit = (delta: number) => pitchPointAt(definition, delta).limitCurvature - 1 / cut.cutterRadius;
  const step = 0.5 * DEG;
  let upper = 86 * DEG;
  let upperMisfit = misfit(upper);
  while (upper > 45 * DEG) {
    const lower = upper - step;
    const lowerMisfit = misfit(lower);
    if (lowerMisfit * upperMisfit <= 0) return pitchPointAt(definition, bisect(misfit, lower, upper));
    upper = lower;
    upperMisfit = lowerMisfit;
  }
  throw new RangeError('oracle: no ring pitch angle suits this cutter radius');
}

/** Blank dimensions and angles (docs/model.md §4), mm and rad. */
export interface Blank {
  readonly meanNormalModule: number;
  readonly workingDepth: number;
  readonly ringAddendum: number;
  readonly pinionAddendum: number;
  readonly ringDedendum: number;
  readonly coneDistance: number;
  readonly faceAngle: number;
  readonly workingRootAngle: number;
  readonly rootAngle: number;
  readonly halfWidth: number;
}

export function findBlank(definition: GearSetDefinition, pitch: PitchPoint): Blank {
  const { tooth } = definition;
  const meanNormalModule =
    (2 * pitch.ringMeanRadius * Math.cos(pitch.ringSpiralAngle)) / definition.ringTeeth;
  const workingDepth = tooth.depthFactor * meanNormalModule;
  const ringAddendum = tooth.ringAddendumFactor * workingDepth;
  const pinionAddendum = workingDepth - ringAddendum;
  const ringDedendum = pinionAddendum + tooth.clearanceFactor * workingDepth;
  const coneDistance = pitch.ringMeanRadius / Math.sin(pitch.ringPitchAngle);
  return {
    meanNormalModule,
    workingDepth,
    ringAddendum,
    pinionAddendum,
    ringDedendum,
    coneDistance,
    faceAngle: tooth.depthTaper * Math.atan(ringAddendum / coneDistance),
    workingRootAngle: tooth.depthTaper * Math.atan(pinionAddendum / coneDistance),
    rootAngle: tooth.depthTaper * Math.atan(ringDedendum / coneDistance),
    halfWidth: definition.faceWidth / 2,
  };
}

/** The cutter against the ring blank (docs/model.md §4). Unit vectors in the ring frame. */
export interface CutterSetting {
  readonly rootMean: Vec3;
  readonly center: Vec3;
  readonly rootNormal: Vec3;
  readonly rootTangent: Vec3;
  /** in the root plane, square to the tooth, away from the cutter centre */
  readonly across: Vec3;
  readonly circumferential: Vec3;
  readonly cutterRadius: number;
  /** ring turn per cutter turn, 0 when face-milled */
  readonly indexing: number;
  readonly leadAngle: number;
  readonly driveBladeAngle: number;
  readonly coastBladeAngle: number;
  readonly pointWidth: number;
  readonly halfSlotArc: number;
}

export function setCutter(definition: GearSetDefinition, pitch: PitchPoint, blank: Blank): CutterSetting {
  const { cut, tooth } = definition;
  const P = pitch.point;
  const radial: Vec3 = unit([P[0], P[1], 0]);
  const circumferential = scale(cross(AXIS_Z, P), 1 / pitch.ringMeanRadius);
  const delta = pitch.ringPitchAngle - blank.rootAngle;
  const rootGeneratrix = add(scale(radial, Math.sin(delta)), [0, 0, -Math.cos(delta)]);
  const rootNormal = add(scale(radial, Math.cos(delta)), [0, 0, Math.sin(delta)]);
  const rootMean = sub(P, scale(pitch.normal, blank.ringDedendum));
  const beta = Math.abs(pitch.ringSpiralAngle);
  const hand = Math.sign(pitch.ringSpiralAngle);
  const rootTangent = add(
    scale(rootGeneratrix, Math.cos(beta)),
    scale(circumferential, hand * Math.sin(beta)),
  );
  const centerFor = (psi: number): Vec3 =>
    add(
      rootMean,
      scale(
        add(scale(rootGeneratrix, -Math.sin(psi)), scale(circumferential, hand * Math.cos(psi))),
        cut.cutterRadius,
      ),
    );

  let indexing = 0;
  let psi = beta;
  if (cut.method === 'face-hobbed') {
    indexing = -cut.bladeGroups / definition.ringTeeth;
    psi = bisect(
      (angle) => {
        const cutting = sub(
          cross(rootNormal, sub(rootMean, centerFor(angle))),
          scale(cross(AXIS_Z, rootMean), indexing),
        );
        return dot(rootNormal, cross(rootTangent, cutting));
      },
      beta - 80 * DEG,
      beta,
    );
  }
  const center = centerFor(psi);
  let across = unit(cross(rootNormal, rootTangent));
  if (dot(across, sub(rootMean, center)) < 0) across = scale(across, -1);

  const driveBladeAngle = tooth.pressureAngle * DEG + pitch.limitPressureAngle;
  const coastBladeAngle = tooth.pressureAngle * DEG - pitch.limitPressureAngle;
  const slot = tooth.slotFactor * Math.PI * blank.meanNormalModule;
  return {
    rootMean,
    center,
    rootNormal,
    rootTangent,
    across,
    circumferential,
    cutterRadius: cut.cutterRadius,
    indexing,
    leadAngle: beta - psi,
    driveBladeAngle,
    coastBladeAngle,
    pointWidth: slot - blank.ringDedendum * (Math.tan(driveBladeAngle) + Math.tan(coastBladeAngle)),
    halfSlotArc: slot / 2,
  };
}

/** Sizes of the output buffers of `RingFlank.evaluate` and `PinionFlank.evaluate`. */
export const RING_POINT = 6;
export const PINION_POINT = 8;

/**
 * One flank of the ring as the blade sweeps it (docs/model.md §4): parameters θ (rad, cutter turn) and
 * x (mm, blade height over the root plane).
 */
export class RingFlank {
  readonly name: FlankName;
  private readonly pitch: PitchPoint;
  private readonly blank: Blank;
  private readonly center: Vec3;
  private readonly e1: Vec3;
  private readonly e2: Vec3;
  private readonly e3: Vec3;
  private readonly w1: number;
  private readonly w2: number;
  private readonly radius: number;
  private readonly offsetAtZero: number;
  private readonly offsetSlope: number;
  private readonly indexing: number;
  private readonly turn: number;
  private orientation = 1;

  constructor(
    definition: GearSetDefinition,
    pitch: PitchPoint,
    blank: Blank,
    cutter: CutterSetting,
    name: FlankName,
  ) {
    this.name = name;
    this.pitch = pitch;
    this.blank = blank;
    const s = name === 'drive' ? -1 : 1;
    const tanBlade = Math.tan(name === 'drive' ? cutter.driveBladeAngle : cutter.coastBladeAngle);
    this.center = cutter.center;
    this.e1 = unit(sub(cutter.rootMean, cutter.center));
    this.e3 = cutter.rootNormal;
    this.e2 = cross(this.e3, this.e1);
    this.w1 = dot(cutter.across, this.e1);
    this.w2 = dot(cutter.across, this.e2);
    this.radius = norm(sub(cutter.rootMean, cutter.center));
    this.offsetSlope = s * tanBlade;
    this.indexing = cutter.indexing;
    if (definition.cut.method === 'face-milled') {
      this.offsetAtZero = (s * cutter.pointWidth) / 2;
      this.turn = 0;
    } else {
      this.offsetAtZero = -s * blank.ringDedendum * tanBlade;
      this.turn =
        (s * cutter.halfSlotArc) / (pitch.ringMeanRadius * dot(cutter.circumferential, cutter.across));
    }
    const probe = new Float64Array(RING_POINT);
    this.evaluate(0, 0, probe);
    if (dot([probe[3], probe[4], probe[5]], cutter.across) * -s < 0) this.orientation = -1;
  }

  /** Point and unit normal (out of the ring tooth) into `out` = [X, Y, Z, Nx, Ny, Nz]. */
  evaluate(theta: number, x: number, out: Float64Array): void {
    const { center, e1, e2, e3, w1, w2 } = this;
    const c = Math.cos(theta);
    const s = Math.sin(theta);
    const off = this.offsetAtZero + this.offsetSlope * x;
    const q1 = this.radius + off * w1;
    const q2 = off * w2;
    const p1 = q1 * c - q2 * s;
    const p2 = q1 * s + q2 * c;
    let X = center[0] + p1 * e1[0] + p2 * e2[0] + x * e3[0];
    let Y = center[1] + p1 * e1[1] + p2 * e2[1] + x * e3[1];
    const Z = center[2] + p1 * e1[2] + p2 * e2[2] + x * e3[2];
    // d/dθ: quarter turn of (p1, p2); d/dx: the blade edge turned by θ.
    let tx = -p2 * e1[0] + p1 * e2[0];
    let ty = -p2 * e1[1] + p1 * e2[1];
    const tz = -p2 * e1[2] + p1 * e2[2];
    const b1 = this.offsetSlope * (w1 * c - w2 * s);
    const b2 = this.offsetSlope * (w1 * s + w2 * c);
    let bx = b1 * e1[0] + b2 * e2[0] + e3[0];
    let by = b1 * e1[1] + b2 * e2[1] + e3[1];
    const bz = b1 * e1[2] + b2 * e2[2] + e3[2];
    if (this.indexing !== 0) {
      tx += this.indexing * Y;
      ty -= this.indexing * X;
      const angle = this.turn - this.indexing * theta;
      const ca = Math.cos(angle);
      const sa = Math.sin(angle);
      const X0 = X;
      X = ca * X0 - sa * Y;
      Y = sa * X0 + ca * Y;
      const tx0 = tx;
      tx = ca * tx0 - sa * ty;
      ty = sa * tx0 + ca * ty;
      const bx0 = bx;
      bx = ca * bx0 - sa * by;
      by = sa * bx0 + ca * by;
    }
    const nx = ty * bz - tz * by;
    const ny = tz * bx - tx * bz;
    const nz = tx * by - ty * bx;
    const f = this.orientation / Math.sqrt(nx * nx + ny * ny + nz * nz);
    out[0] = X;
    out[1] = Y;
    out[2] = Z;
    out[3] = nx * f;
    out[4] = ny * f;
    out[5] = nz * f;
  }

  /** Flank coordinates (u, v) of a ring point given by its radius and height, into out[0], out[1]. */
  coordinates(X: number, Y: number, Z: number, out: Float64Array): void {
    const { pitch, blank } = this;
    const sd = Math.sin(pitch.ringPitchAngle);
    const cd = Math.cos(pitch.ringPitchAngle);
    const r = Math.sqrt(X * X + Y * Y) - pitch.ringMeanRadius;
    const zeta = Z - pitch.point[2];
    const l = r * sd - zeta * cd;
    const d = r * cd + zeta * sd;
    const low = -blank.pinionAddendum - l * Math.tan(blank.workingRootAngle);
    const high = blank.ringAddendum + l * Math.tan(blank.faceAngle);
    out[0] = l / blank.halfWidth;
    out[1] = -1 + (2 * (d - low)) / (high - low);
  }

  /**
   * (u, v) → (θ, x) by Newton with a differenced Jacobian, into out[0], out[1]; starts from what `out` holds
   * when `warm`. Returns whether it met (u, v) to 1e-11.
   */
  invert(u: number, v: number, out: Float64Array, warm = false): boolean {
    const point = new Float64Array(RING_POINT);
    const uv = new Float64Array(2);
    let theta = warm ? out[0] : 0;
    let x = warm ? out[1] : this.blank.ringDedendum;
    const at = (t: number, h: number): [number, number] => {
      this.evaluate(t, h, point);
      this.coordinates(point[0], point[1], point[2], uv);
      return [uv[0] - u, uv[1] - v];
    };
    for (let step = 0; step < 40; step++) {
      const [f, g] = at(theta, x);
      if (Math.abs(f) + Math.abs(g) < 1e-12) break;
      const ht = 1e-6;
      const hx = 1e-4;
      const [fp, gp] = at(theta + ht, x);
      const [fm, gm] = at(theta - ht, x);
      const [fq, gq] = at(theta, x + hx);
      const [fn, gn] = at(theta, x - hx);
      const ft = (fp - fm) / (2 * ht);
      const gt = (gp - gm) / (2 * ht);
      const fx = (fq - fn) / (2 * hx);
      const gx = (gq - gn) / (2 * hx);
      const det = ft * gx - fx * gt;
      theta -= Math.max(-0.2, Math.min(0.2, (f * gx - g * fx) / det));
      x -= Math.max(-5, Math.min(5, (g * ft - f * gt) / det));
    }
    const [f, g] = at(theta, x);
    out[0] = theta;
    out[1] = x;
    return Math.abs(f) + Math.abs(g) < 1e-11;
  }
}

/** Ease-off in mm at flank coordinates (docs/model.md §6). */
export function easeOffAt(easeOff: EaseOffDefinition, u: number, v: number): number {
  const du = u - easeOff.centerToeHeel;
  const dv = v - easeOff.centerRootFace;
  return (easeOff.lengthwise * du * du + easeOff.profile * dv * dv + 2 * easeOff.bias * du * dv) * 1e-3;
}

/**
 * The pinion flank, exactly: the ring's conjugate in the design pose plus ease-off (docs/model.md §§5, 6),
 * parametrised by the ring's own (θ, x). Polar angles are counted from the direction of the pitch point so
 * that no flank straddles the ±π cut.
 */
export class PinionFlank {
  readonly ring: RingFlank;
  readonly reference: number;
  private readonly ratio: number;
  private readonly offset: number;
  private readonly easeOff: EaseOffDefinition;
  private readonly point = new Float64Array(RING_POINT);
  private readonly uv = new Float64Array(2);

  constructor(pitch: PitchPoint, ring: RingFlank, easeOff: EaseOffDefinition) {
    this.ring = ring;
    this.ratio = pitch.ratio;
    this.offset = pitch.offset;
    this.easeOff = easeOff;
    this.reference = Math.atan2(pitch.point[2], pitch.point[1] - pitch.offset);
  }

  /**
   * Pinion point that meets ring point (θ, x) in the design pose, into
   * `out` = [axial x, ρ, ψ, u, v, φ, λ, ease-off]; false when that ring point never meets.
   */
  evaluate(theta: number, x: number, out: Float64Array): boolean {
    const { point, uv, ratio, offset } = this;
    this.ring.evaluate(theta, x, point);
    const X = point[0];
    const Y = point[1];
    const Z = point[2];
    // Moments of the normal about the three axes; relative velocity square to the normal:
    // m·[(mx cos φ − my sin φ) − a Nz] = mz.
    const mx = Y * point[5] - Z * point[4];
    const my = Z * point[3] - X * point[5];
    const mz = X * point[4] - Y * point[3];
    const size = Math.sqrt(mx * mx + my * my);
    const level = (mz / ratio + offset * point[5]) / size;
    if (!(level > -1 && level < 1)) return false;
    // mx cos φ − my sin φ = size · cos(φ + atan2(my, mx))
    const lean = Math.atan2(my, mx);
    const half = Math.acos(level);
    const first = wrapAngle(half - lean);
    const second = wrapAngle(-half - lean);
    const phi = Math.abs(first) < Math.abs(second) ? first : second;
    const c = Math.cos(phi);
    const s = Math.sin(phi);
    const y = s * X + c * Y - offset;
    const lever = mz / ratio;
    this.ring.coordinates(X, Y, Z, uv);
    const ease = easeOffAt(this.easeOff, uv[0], uv[1]);
    out[0] = c * X - s * Y;
    out[1] = Math.sqrt(y * y + Z * Z);
    out[2] = wrapAngle(Math.atan2(Z, y) - this.reference - ratio * phi) + ease / lever;
    out[3] = uv[0];
    out[4] = uv[1];
    out[5] = phi;
    out[6] = lever;
    out[7] = ease;
    return true;
  }
}

/**
 * Pinion tip radius at axial place x (docs/model.md §6): nearest approach of the ring's working-root cone,
 * swept about the ring axis, to the design pinion axis. NaN where the cone does not reach.
 */
export function pinionTipRadius(pitch: PitchPoint, blank: Blank, x: number): number {
  const sd = Math.sin(pitch.ringPitchAngle);
  const cd = Math.cos(pitch.ringPitchAngle);
  const slope = Math.tan(blank.workingRootAngle);
  const side = Math.sign(pitch.offset);
  const distance = (l: number): number => {
    const d = -blank.pinionAddendum - l * slope;
    const r = pitch.ringMeanRadius + l * sd + d * cd;
    const z = pitch.point[2] - l * cd + d * sd;
    const under = r * r - x * x;
    if (under < 0 || r < 0) return Number.POSITIVE_INFINITY;
    return Math.hypot(side * Math.sqrt(under) - pitch.offset, z);
  };
  const reach = 0.9 * 2 * blank.halfWidth;
  const steps = 120;
  let best = Number.POSITIVE_INFINITY;
  let place = 0;
  for (let i = 0; i <= steps; i++) {
    const l = -reach + (2 * reach * i) / steps;
    const value = distance(l);
    if (value < best) {
      best = value;
      place = l;
    }
  }
  if (!Number.isFinite(best)) return Number.NaN;
  let step = (2 * reach) / steps;
  while (step > 1e-7) {
    const below = Math.max(-reach, place - step);
    const above = Math.min(reach, place + step);
    const low = distance(below);
    const high = distance(above);
    if (low < best) {
      best = low;
      place = below;
    } else if (high < best) {
      best = high;
      place = above;
    } else {
      step /= 2;
    }
  }
  return best;
}
