import { Matrix4, Vector3 } from 'three';
import type { Pose } from '../../../sim/contact/pose.ts';
import type { GearSolids, TriangleMesh } from '../../../sim/gearset/solids.ts';
import { readFacts } from '../camera/facts.ts';
import { type ContactCurves, pinionAngle, pinionMatrix, trainOf } from '../kinematics.ts';

/** An outline in the plane of the section, mm, packed xy. */
export type Outline = readonly number[];

/** Middle of one of the slot's flanks of the ring, and its normal into the slot (unit). */
export interface CutFlank {
  readonly x: number;
  readonly y: number;
  readonly normal: readonly [x: number, y: number];
}

/** A slot of the ring with the pinion tooth in it, cut at mid length: looked at from the heel, face of the ring up. mm. */
export interface MeshCut {
  readonly ring: readonly Outline[];
  readonly pinion: readonly Outline[];
  readonly drive: CutFlank;
  readonly coast: CutFlank;
  /** mm the ring's outline moves per rad that it is rocked from drive contact toward coast contact */
  readonly perRad: readonly [x: number, y: number];
}

interface Plane {
  readonly origin: Vector3;
  readonly right: Vector3;
  readonly up: Vector3;
  readonly out: Vector3;
}

const AXIS = new Vector3(0, 0, 1);

/**
 * Cuts the drawn bodies themselves, at drive contact: what shows is their true play, with no more error than their
 * facets have. `offset` mm as defined; `roll` rad of ring angle.
 */
export function cutMesh(
  solids: GearSolids,
  offset: number,
  mirrored: boolean,
  pose: Pose,
  curves: ContactCurves,
  roll: number,
): MeshCut {
  const distance = Math.abs(offset);
  const train = trainOf(solids, distance);
  const { drive, coast } = readFacts(solids, distance);
  const tooth = -Math.round(roll / train.pitch);
  const toMesh = roll + tooth * train.pitch;
  const toSlot = toMesh - train.coastShift * train.pitch;
  const turned = (vector: Vector3, angle: number) => vector.clone().applyAxisAngle(AXIS, angle);
  const driveAt = turned(drive.center, toMesh);
  const coastAt = turned(coast.center, toSlot);
  const out = turned(drive.lengthwise, toMesh).add(turned(coast.lengthwise, toSlot)).normalize();
  const up = turned(drive.heightwise, toMesh).add(turned(coast.heightwise, toSlot));
  up.addScaledVector(out, -up.dot(out)).normalize();
  const right = new Vector3().crossVectors(up, out);
  const plane: Plane = { origin: driveAt.clone().lerp(coastAt, 0.5), right, up, out };

  const place = new Matrix4();
  const ring: Outline[] = [];
  for (let k = -2; k <= 2; k++) {
    place.makeRotationZ(toMesh + k * train.pitch);
    ring.push(...outlinesOf(solids.ring.sector, place, plane));
  }
  const flip = offset < 0 ? -1 : 1;
  const seen: Pose = { ...pose, offsetError: flip * pose.offsetError };
  const turn = pinionAngle(train, roll, 'drive', curves);
  const pinion: Outline[] = [];
  for (let k = 0; k < solids.pinion.count; k++) {
    pinionMatrix(place, seen, distance, turn + (2 * Math.PI * k) / solids.pinion.count);
    pinion.push(...outlinesOf(solids.pinion.sector, place, plane));
  }
  const moved = new Vector3().crossVectors(AXIS, plane.origin).multiplyScalar(-train.driveLever);
  const cut = {
    ring,
    pinion,
    drive: flankIn(plane, driveAt, turned(drive.normal, toMesh)),
    coast: flankIn(plane, coastAt, turned(coast.normal, toSlot)),
    perRad: [moved.dot(right), moved.dot(up)] as const,
  };
  return mirrored !== offset < 0 ? mirror(cut) : cut;
}

const flankIn = ({ origin, right, up }: Plane, point: Vector3, normal: Vector3): CutFlank => {
  const arm = point.clone().sub(origin);
  const [nx, ny] = [normal.dot(right), normal.dot(up)];
  const length = Math.hypot(nx, ny);
  return { x: arm.dot(right), y: arm.dot(up), normal: [nx / length, ny / length] };
};

function mirror({ ring, pinion, drive, coast, perRad }: MeshCut): MeshCut {
  const flip = (outline: Outline): Outline => outline.map((value, i) => (i % 2 === 0 ? -value : value));
  const flipFlank = ({ x, y, normal }: CutFlank): CutFlank => ({
    x: -x,
    y,
    normal: [-normal[0], normal[1]],
  });
  return {
    ring: ring.map(flip),
    pinion: pinion.map(flip),
    drive: flipFlank(drive),
    coast: flipFlank(coast),
    perRad: [-perRad[0], perRad[1]],
  };
}

/** mm from the plane's origin within which outlines are wanted */
const REACH = 40;
/** mm within which ends of two pieces are the same point */
const SAME = 1e-3;

/** Where a mesh meets the plane, as polylines. */
function outlinesOf(mesh: TriangleMesh, place: Matrix4, plane: Plane): Outline[] {
  const { positions, indices } = mesh;
  const count = positions.length / 3;
  const point = new Vector3();
  const flat = new Float64Array(3 * count);
  let near = false;
  for (let i = 0; i < count; i++) {
    point
      .fromArray(positions, 3 * i)
      .applyMatrix4(place)
      .sub(plane.origin);
    flat[3 * i] = point.dot(plane.right);
    flat[3 * i + 1] = point.dot(plane.up);
    flat[3 * i + 2] = point.dot(plane.out);
    near ||= point.lengthSq() < REACH * REACH;
  }
  if (!near) return [];
  const pieces: number[][] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const ends: number[] = [];
    for (let side = 0; side < 3; side++) {
      const a = 3 * indices[i + side];
      const b = 3 * indices[i + ((side + 1) % 3)];
      const [za, zb] = [flat[a + 2], flat[b + 2]];
      if (za < 0 === zb < 0) continue;
      const share = za / (za - zb);
      ends.push(flat[a] + share * (flat[b] - flat[a]), flat[a + 1] + share * (flat[b + 1] - flat[a + 1]));
    }
    if (ends.length === 4 && Math.hypot(ends[0], ends[1]) < REACH) pieces.push(ends);
  }
  return join(pieces);
}

/** Joins pieces that share an end into polylines. */
function join(pieces: number[][]): Outline[] {
  const key = (x: number, y: number) => `${Math.round(x / SAME)} ${Math.round(y / SAME)}`;
  const byEnd = new Map<string, Set<number[]>>();
  const remember = (piece: number[]) => {
    for (const at of [0, 2]) {
      const name = key(piece[at], piece[at + 1]);
      const known = byEnd.get(name) ?? new Set();
      known.add(piece);
      byEnd.set(name, known);
    }
  };
  for (const piece of pieces) remember(piece);
  const left = new Set(pieces);
  const take = (x: number, y: number): readonly [number, number] | null => {
    for (const piece of byEnd.get(key(x, y)) ?? []) {
      if (!left.delete(piece)) continue;
      const [ax, ay, bx, by] = piece;
      return key(ax, ay) === key(x, y) ? [bx, by] : [ax, ay];
    }
    return null;
  };
  const outlines: Outline[] = [];
  for (const first of pieces) {
    if (!left.delete(first)) continue;
    const line = [...first];
    for (let next = take(line.at(-2) ?? 0, line.at(-1) ?? 0); next !== null; ) {
      line.push(...next);
      next = take(next[0], next[1]);
    }
    for (let next = take(line[0], line[1]); next !== null; ) {
      line.unshift(...next);
      next = take(next[0], next[1]);
    }
    outlines.push(line);
  }
  return outlines;
}
