import { Vector3 } from 'three';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { GearSolids, TriangleMesh } from '../../../sim/gearset/solids.ts';
import { KIND } from '../scene/geometry.ts';

/** One flank of the base tooth (instance 0, ring at rest, not mirrored), as the camera and the labels need it. mm. */
export interface FlankPlace {
  /** vertices of the working flank, packed xyz */
  readonly points: Float32Array;
  /** at (u, v) = (0, 0), and the middles of the four borders */
  readonly center: Vector3;
  readonly toe: Vector3;
  readonly heel: Vector3;
  readonly face: Vector3;
  readonly root: Vector3;
  /** ends of the border to the top land */
  readonly toeTop: Vector3;
  readonly heelTop: Vector3;
  /** unit, mean normal, out of the tooth into the slot */
  readonly normal: Vector3;
  /** unit, toe → heel, square to the normal */
  readonly lengthwise: Vector3;
  /** unit, root → face, square to both */
  readonly heightwise: Vector3;
}

export interface GearFacts {
  readonly drive: FlankPlace;
  readonly coast: FlankPlace;
  /** outline of ring and pinion (design pose), packed xyz */
  readonly outline: Float32Array;
  /** outline of the neighbourhood of the mesh, packed xyz */
  readonly mesh: Float32Array;
  /** middle of the mesh */
  readonly meshCenter: Vector3;
  /** length of a flank toe to heel */
  readonly faceWidth: number;
  /** farthest any part lies from the ring's axis or the mesh */
  readonly extent: number;
}

/** Vertex of the given flank nearest to (u, v); flanks are fine enough that no blending is needed for labels. */
function nearest(mesh: TriangleMesh, kind: number, u: number, v: number): Vector3 {
  let least = Number.POSITIVE_INFINITY;
  let at = 0;
  for (let i = 0; i < mesh.surfaceKind.length; i++) {
    if (mesh.surfaceKind[i] !== kind) continue;
    const miss = (mesh.flankUv[2 * i] - u) ** 2 + (mesh.flankUv[2 * i + 1] - v) ** 2;
    if (miss < least) {
      least = miss;
      at = i;
    }
  }
  return new Vector3().fromArray(mesh.positions, 3 * at);
}

function flankPlace(mesh: TriangleMesh, flank: FlankName): FlankPlace {
  const kind = KIND[flank];
  const points: number[] = [];
  const normal = new Vector3();
  for (let i = 0; i < mesh.surfaceKind.length; i++) {
    if (mesh.surfaceKind[i] !== kind || mesh.flankUv[2 * i + 1] < -1.001) continue;
    points.push(mesh.positions[3 * i], mesh.positions[3 * i + 1], mesh.positions[3 * i + 2]);
    normal.x += mesh.normals[3 * i];
    normal.y += mesh.normals[3 * i + 1];
    normal.z += mesh.normals[3 * i + 2];
  }
  normal.normalize();
  const toe = nearest(mesh, kind, -1, 0);
  const heel = nearest(mesh, kind, 1, 0);
  const face = nearest(mesh, kind, 0, 1);
  const root = nearest(mesh, kind, 0, -1);
  const lengthwise = heel.clone().sub(toe).projectOnPlane(normal).normalize();
  const heightwise = new Vector3().crossVectors(normal, lengthwise);
  if (heightwise.dot(face.clone().sub(root)) < 0) heightwise.negate();
  return {
    points: Float32Array.from(points),
    center: nearest(mesh, kind, 0, 0),
    toe,
    heel,
    face,
    root,
    toeTop: nearest(mesh, kind, -1, 1),
    heelTop: nearest(mesh, kind, 1, 1),
    normal,
    lengthwise,
    heightwise,
  };
}

/** Radius and place along the axis of a member's outermost circles, packed pairs, one per `slices` of its length. */
function profile(meshes: readonly TriangleMesh[], along: 0 | 2, slices: number): number[] {
  const [p, q] = along === 2 ? [0, 1] : [1, 2];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { positions } of meshes) {
    for (let i = 0; i < positions.length; i += 3) {
      low = Math.min(low, positions[i + along]);
      high = Math.max(high, positions[i + along]);
    }
  }
  const radii = new Float64Array(slices);
  for (const { positions } of meshes) {
    for (let i = 0; i < positions.length; i += 3) {
      const slice = Math.min(Math.floor(((positions[i + along] - low) / (high - low)) * slices), slices - 1);
      radii[slice] = Math.max(radii[slice], Math.hypot(positions[i + p], positions[i + q]));
    }
  }
  const out: number[] = [];
  radii.forEach((radius, slice) => {
    if (radius === 0) return;
    out.push(
      radius,
      low + ((high - low) * slice) / slices,
      radius,
      low + ((high - low) * (slice + 1)) / slices,
    );
  });
  return out;
}

const ROUND = 32;

/** Reads a gear set's solids once; `offset` mm of the pinion axis. */
export function readFacts(solids: GearSolids, offset: number): GearFacts {
  const drive = flankPlace(solids.ring.sector, 'drive');
  const coast = flankPlace(solids.ring.sector, 'coast');
  const outline: number[] = [];
  let extent = 0;
  const ring = profile([solids.ring.sector, solids.ring.body], 2, 4);
  const pinion = profile([solids.pinion.sector, solids.pinion.body], 0, 8);
  for (let k = 0; k < ROUND; k++) {
    const c = Math.cos((2 * Math.PI * k) / ROUND);
    const s = Math.sin((2 * Math.PI * k) / ROUND);
    for (let i = 0; i < ring.length; i += 2) outline.push(ring[i] * c, ring[i] * s, ring[i + 1]);
    for (let i = 0; i < pinion.length; i += 2) {
      outline.push(pinion[i + 1], offset + pinion[i] * c, pinion[i] * s);
    }
  }
  const meshCenter = drive.center.clone().lerp(coast.center, 0.5);
  for (let i = 0; i < outline.length; i += 3) {
    extent = Math.max(
      extent,
      Math.hypot(outline[i] - meshCenter.x, outline[i + 1] - meshCenter.y, outline[i + 2] - meshCenter.z),
    );
  }
  const faceWidth = drive.heel.distanceTo(drive.toe);
  const mesh: number[] = [];
  for (const x of [-1, 1]) {
    for (const y of [-1, 1]) {
      for (const z of [-1, 1]) {
        mesh.push(
          meshCenter.x + 0.85 * faceWidth * x,
          meshCenter.y + 0.85 * faceWidth * y,
          meshCenter.z + 0.55 * faceWidth * z,
        );
      }
    }
  }
  return {
    drive,
    coast,
    outline: Float32Array.from(outline),
    mesh: Float32Array.from(mesh),
    meshCenter,
    faceWidth,
    extent,
  };
}
