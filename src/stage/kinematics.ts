import { Matrix4 } from 'three';
import type { Pose } from '../../sim/contact/pose.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { GearSolids } from '../../sim/gearset/solids.ts';

/** What the drawing must know of a gear set to move its members together. mm, rad. */
export interface Train {
  readonly ringTeeth: number;
  readonly pinionTeeth: number;
  /** m = ringTeeth / pinionTeeth */
  readonly ratio: number;
  /** ring angle from one tooth to the next */
  readonly pitch: number;
  /** a, pinion offset as the solids are built */
  readonly offset: number;
  /** sgn λ of the drive flank (docs/model.md §5): which way the pinion turns to open the drive flank */
  readonly driveLever: -1 | 1;
  /**
   * Pitches from a ring tooth's number to that of its coast flank: the solver's two flanks bound one slot, the drawn
   * tooth lies between two, so its coast flank is the slot's, turned one pitch.
   */
  readonly coastShift: -1 | 1;
}

/** Curves of one solved pose that say how far the pinion is from its even turn (docs/model.md §7). */
export interface ContactCurves {
  /** rad of ring angle over one ring pitch from phase 0; NaN where no pair is in contact */
  readonly driveError: ArrayLike<number>;
  /** rad of ring free play over one ring pitch from phase 0 */
  readonly freePlay: ArrayLike<number>;
}

/** sgn λ = sgn (X×N)_z over the drive flank's vertices. */
export function driveLever(solids: GearSolids): -1 | 1 {
  const { positions, normals, surfaceKind } = solids.ring.sector;
  let sum = 0;
  for (let i = 0; i < surfaceKind.length; i++) {
    if (surfaceKind[i] !== 1) continue;
    sum += positions[3 * i] * normals[3 * i + 1] - positions[3 * i + 1] * normals[3 * i];
  }
  return sum < 0 ? -1 : 1;
}

/** Which way round the ring the coast flank of the drawn tooth lies from its drive flank. */
export function coastShift(solids: GearSolids): -1 | 1 {
  const { positions, surfaceKind } = solids.ring.sector;
  const middle = [0, 0, 0, 0];
  for (let i = 0; i < surfaceKind.length; i++) {
    const kind = surfaceKind[i];
    if (kind === 0) continue;
    middle[2 * (kind - 1)] += positions[3 * i];
    middle[2 * (kind - 1) + 1] += positions[3 * i + 1];
  }
  return middle[0] * middle[3] - middle[1] * middle[2] < 0 ? -1 : 1;
}

export function trainOf(solids: GearSolids, offset: number): Train {
  return {
    ringTeeth: solids.ring.count,
    pinionTeeth: solids.pinion.count,
    ratio: solids.ring.count / solids.pinion.count,
    pitch: (2 * Math.PI) / solids.ring.count,
    offset,
    driveLever: driveLever(solids),
    coastShift: coastShift(solids),
  };
}

/** Into (−period/2, period/2]. */
export function wrapTo(value: number, period: number): number {
  const wrapped = value - period * Math.round(value / period);
  return wrapped <= -period / 2 ? wrapped + period : wrapped;
}

/** Value of an equally spaced periodic curve at `phase`, linear between its samples; NaN samples are stepped over. */
export function samplePeriodic(curve: ArrayLike<number>, pitch: number, phase: number): number {
  const n = curve.length;
  if (n === 0) return 0;
  const turns = phase / pitch;
  const at = (turns - Math.floor(turns)) * n;
  const low = Math.floor(at) % n;
  const part = at - Math.floor(at);
  const a = curve[low];
  const b = curve[(low + 1) % n];
  if (!Number.isFinite(a)) return Number.isFinite(b) ? b : 0;
  return Number.isFinite(b) ? a + (b - a) * part : a;
}

/**
 * Pinion angle (rad) at ring angle `roll` with the chosen flanks touching.
 * The pinion's gap angle grows by sgn λ per rad of pinion, so contact on drive is mφ − sgn λ·m·TE;
 * the coast flank touches after the free play j is taken up the other way.
 */
export function pinionAngle(
  train: Train,
  roll: number,
  touching: FlankName,
  curves: ContactCurves | null,
): number {
  const even = train.ratio * roll;
  if (curves === null) return even;
  const error = samplePeriodic(curves.driveError, train.pitch, roll);
  const play = touching === 'coast' ? samplePeriodic(curves.freePlay, train.pitch, roll) : 0;
  return even + train.driveLever * train.ratio * (play - error);
}

/** Ring turned `roll` about z; it stays put otherwise. */
export function ringMatrix(out: Matrix4, roll: number): Matrix4 {
  return out.makeRotationZ(roll);
}

const turned = new Matrix4();

/** Pinion frame of docs/model.md §2 in a pose, turned `angle` about its own axis. */
export function pinionMatrix(out: Matrix4, pose: Pose, offset: number, angle: number): Matrix4 {
  const tip = (pose.shaftAngleError * Math.PI) / 180;
  const c = Math.cos(tip);
  const s = Math.sin(tip);
  // columns A, ŷ, A×ŷ, o
  out.set(c, 0, -s, -pose.pinionIn, 0, 1, 0, offset + pose.offsetError, s, 0, c, pose.ringAway, 0, 0, 0, 1);
  return out.multiply(turned.makeRotationX(angle));
}

/** Number of the ring tooth nearest to where the base tooth meets the pinion at ring angle 0. */
export function toothAtMesh(train: Train, roll: number): number {
  const turns = Math.round(roll / train.pitch) % train.ringTeeth;
  return (train.ringTeeth - turns) % train.ringTeeth;
}
