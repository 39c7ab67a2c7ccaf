import { cross, dot, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import { SURFACE_KINDS, type SurfaceKind, type TriangleMesh } from './solids.ts';

/** One node of a drawable surface strip; u and v only matter on flanks. */
export interface SurfaceNode {
  readonly point: Vec3;
  readonly u: number;
  readonly v: number;
}

/** Rows of nodes, all of one length. */
export type SurfaceGrid = ReadonlyArray<readonly SurfaceNode[]>;

/** Unit normals of a grid by central differences, all on the side of `outward` at the middle of the grid. */
export const gridNormals = (grid: SurfaceGrid, outward: Vec3): Vec3[][] => {
  const rows = grid.length;
  const columns = grid[0].length;
  const raw = grid.map((row, j) =>
    row.map((_, i): Vec3 => {
      const alongRow = subtract(row[Math.min(columns - 1, i + 1)].point, row[Math.max(0, i - 1)].point);
      const acrossRows = subtract(
        grid[Math.min(rows - 1, j + 1)][i].point,
        grid[Math.max(0, j - 1)][i].point,
      );
      const normal = cross(alongRow, acrossRows);
      return dot(normal, normal) > 0 ? unit(normal) : NO_NORMAL;
    }),
  );
  const side = dot(raw[rows >> 1][columns >> 1], outward) >= 0 ? 1 : -1;
  return raw.map((row, j) => row.map((normal, i) => scale(orNearest(raw, normal, j, i, outward), side)));
};

const NO_NORMAL: Vec3 = [0, 0, 0];

/** Where a strip shrinks to a line (a root without floor) the normal of the nearest row that has one. */
const orNearest = (
  raw: ReadonlyArray<readonly Vec3[]>,
  normal: Vec3,
  j: number,
  i: number,
  outward: Vec3,
): Vec3 => {
  if (normal !== NO_NORMAL) return normal;
  for (let step = 1; step < raw.length; step++) {
    for (const row of [raw[j + step], raw[j - step]]) {
      if (row && row[i] !== NO_NORMAL) return row[i];
    }
  }
  return unit(outward);
};

/** Collects strips into one indexed triangle mesh. */
export class TriangleWriter {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly flankUv: number[] = [];
  private readonly kinds: number[] = [];
  private readonly indices: number[] = [];

  /** Adds a grid; triangles wind counter-clockwise seen from the side the normals point to. */
  addGrid(grid: SurfaceGrid, normals: ReadonlyArray<readonly Vec3[]>, kind: SurfaceKind): void {
    const base = this.kinds.length;
    const columns = grid[0].length;
    grid.forEach((row, j) => {
      row.forEach((node, i) => {
        this.positions.push(...node.point);
        this.normals.push(...normals[j][i]);
        this.flankUv.push(node.u, node.v);
        this.kinds.push(SURFACE_KINDS.indexOf(kind));
      });
    });
    for (let j = 0; j + 1 < grid.length; j++) {
      for (let i = 0; i + 1 < columns; i++) {
        const a = base + j * columns + i;
        const facing = cross(
          subtract(grid[j][i + 1].point, grid[j][i].point),
          subtract(grid[j + 1][i].point, grid[j][i].point),
        );
        const forward = dot(facing, normals[j][i]) >= 0;
        if (forward) this.indices.push(a, a + 1, a + columns, a + 1, a + columns + 1, a + columns);
        else this.indices.push(a, a + columns, a + 1, a + 1, a + columns, a + columns + 1);
      }
    }
  }

  finish(): TriangleMesh {
    return {
      positions: Float32Array.from(this.positions),
      normals: Float32Array.from(this.normals),
      flankUv: Float32Array.from(this.flankUv),
      surfaceKind: Uint8Array.from(this.kinds),
      indices: Uint32Array.from(this.indices),
    };
  }
}
