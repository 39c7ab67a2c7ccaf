import type { FlankName } from './definition.ts';

export type SolidDetail = 'full' | 'reduced';

/** Part of the tooth a vertex belongs to; `none` for fillets, lands, ends and bodies. */
export const SURFACE_KINDS = ['none', 'drive', 'coast'] as const;
export type SurfaceKind = 'none' | FlankName;

/**
 * Indexed triangles, mm, standard-cut, design frame of the member at rest:
 * ring in the fixed frame of docs/model.md §2 at ring angle 0 (axis z);
 * pinion in its own frame, axis along +x through the origin, at pinion angle 0 (resolve on (x, y, z) = (A, ŷ, A×ŷ)).
 */
export interface TriangleMesh {
  /** 3 per vertex */
  readonly positions: Float32Array;
  /** 3 per vertex, unit, outward */
  readonly normals: Float32Array;
  /** 2 per vertex: flank coordinates (u, v) where the surface kind is a flank (v < −1 below the working depth), 0 elsewhere */
  readonly flankUv: Float32Array;
  /** 1 per vertex, index into SURFACE_KINDS */
  readonly surfaceKind: Uint8Array;
  readonly indices: Uint32Array;
}

/** One pitch sector (its teeth flanks, fillets, lands, ends) repeated `count` times about the axis, and a body of revolution. */
export interface MemberSolid {
  readonly sector: TriangleMesh;
  readonly count: number;
  readonly body: TriangleMesh;
}

export interface GearSolids {
  readonly ring: MemberSolid;
  readonly pinion: MemberSolid;
}
