import { BufferAttribute, BufferGeometry } from 'three';
import type { SurfaceKind, TriangleMesh } from '../../../sim/gearset/solids.ts';

/** What `surfaceKind` holds: the places of SURFACE_KINDS. */
export const KIND: Readonly<Record<SurfaceKind, number>> = { none: 0, drive: 1, coast: 2 };

/** How far below the working depth the bottom of a slot counts as dark, in units of v. */
const BELOW = 0.5;

/**
 * How open to the light each vertex is, 0 bottom of the slot … 1 top land, from the flank height v of the vertex
 * itself or of the nearest flank vertex. `tip` is the v of the member's own top land: +1 ring, −1 pinion (whose
 * flanks carry ring coordinates). Drawing only: it darkens the slots so that depth can be read.
 */
export function openness(mesh: TriangleMesh, tip: 1 | -1): Float32Array {
  const { positions, surfaceKind, flankUv } = mesh;
  const count = surfaceKind.length;
  const out = new Float32Array(count).fill(1);
  const flank: number[] = [];
  for (let i = 0; i < count; i++) if (surfaceKind[i] !== 0) flank.push(i);
  if (flank.length === 0) return out;
  for (let i = 0; i < count; i++) {
    let height = flankUv[2 * i + 1];
    if (surfaceKind[i] === 0) {
      let least = Number.POSITIVE_INFINITY;
      for (const j of flank) {
        const x = positions[3 * i] - positions[3 * j];
        const y = positions[3 * i + 1] - positions[3 * j + 1];
        const z = positions[3 * i + 2] - positions[3 * j + 2];
        const distance = x * x + y * y + z * z;
        if (distance < least) {
          least = distance;
          height = flankUv[2 * j + 1];
        }
      }
    }
    out[i] = Math.min(Math.max((tip * height + 1 + BELOW) / (2 + BELOW), 0), 1);
  }
  return out;
}

/** Attributes: position, normal, flankUv, kind (index of SURFACE_KINDS), open. */
export function toGeometry(mesh: TriangleMesh, open: Float32Array): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
  geometry.setAttribute('flankUv', new BufferAttribute(mesh.flankUv, 2));
  geometry.setAttribute('kind', new BufferAttribute(Float32Array.from(mesh.surfaceKind), 1));
  geometry.setAttribute('open', new BufferAttribute(open, 1));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  geometry.computeBoundingSphere();
  return geometry;
}
