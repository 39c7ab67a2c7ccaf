import { cross, dot, scale, subtract, type Vec3 } from '../math/vec3.ts';
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
      const size = Math.sqrt(dot(normal, normal));
      return size > 0 ? scale(normal, 1 / size) : [0, 0, 0];
    }),
  );
  const middle = raw[rows >> 1][columns >> 1];
  if (dot(middle, outward) >= 0) return raw;
  return raw.map((row) => row.map((normal) => scale(normal, -1)));
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
