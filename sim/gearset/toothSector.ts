import { subtract, type Vec3 } from '../math/vec3.ts';
import { FLANKS, type FlankName } from './definition.ts';
import type { TriangleMesh } from './solids.ts';
import { gridNormals, type SurfaceNode, TriangleWriter } from './triangleWriter.ts';

/** Place on a flank: polar angle about the member's axis (rad) and flank coordinates. */
export interface FlankPlace {
  readonly angle: number;
  readonly u: number;
  readonly v: number;
}

/**
 * One member's tooth in coordinates that suit it: `along` the tooth (mm, toe to heel), `height` (mm) and polar
 * angle about the axis (rad).
 */
export interface ToothShape {
  readonly alongFrom: number;
  readonly alongTo: number;
  /** heights at `along`: root floor, where the flank leaves the fillet, and top land */
  heights(along: number): { readonly root: number; readonly filletTop: number; readonly top: number };
  /** both flanks of one tooth */
  flank(side: FlankName, along: number, height: number): FlankPlace;
  /** polar angle between neighbouring teeth, rad */
  readonly pitch: number;
  toPoint(along: number, height: number, angle: number): Vec3;
}

/** Numbers of cells in one tooth. */
export interface SectorDetail {
  readonly along: number;
  readonly flank: number;
  readonly fillet: number;
}

const LAND_CELLS = 2;
/** How far the fillet reaches along the floor, as a share of the half floor, and of its own height. */
const FILLET_FLOOR_SHARE = 0.9;

/** Triangles that `buildToothSector` makes for a detail. */
export const sectorTriangles = ({ along, flank, fillet }: SectorDetail): number =>
  2 * along * (2 * (flank + fillet + 1) + LAND_CELLS) + 2 * 2 * (flank + fillet + 1);

/** Nodes from the middle of the root floor up to the tip at one place along the tooth. */
const halfProfile = (
  shape: ToothShape,
  side: FlankName,
  along: number,
  detail: SectorDetail,
): SurfaceNode[] => {
  const { root, filletTop, top } = shape.heights(along);
  const other: FlankName = side === 'drive' ? 'coast' : 'drive';
  const corner = shape.flank(side, along, root).angle;
  const otherCorner = shape.flank(other, along, root).angle;
  // The floor goes away from the tooth, half-way to the neighbour's corner.
  const away = Math.sign(corner - otherCorner);
  const halfFloor = Math.max(0, 0.5 * (shape.pitch - Math.abs(corner - otherCorner)));
  const floorMiddle = corner + away * halfFloor;
  const start = shape.flank(side, along, filletTop);
  const floorEnd = corner + away * halfFloor * FILLET_FLOOR_SHARE;
  const nodes: SurfaceNode[] = [{ point: shape.toPoint(along, root, floorMiddle), u: start.u, v: start.v }];
  for (let k = 0; k < detail.fillet; k++) {
    const t = k / detail.fillet;
    // Quadratic arc from the floor round the corner onto the flank.
    const [p, q, r] = [(1 - t) * (1 - t), 2 * t * (1 - t), t * t];
    const angle = p * floorEnd + q * corner + r * start.angle;
    const height = (p + q) * root + r * filletTop;
    nodes.push({ point: shape.toPoint(along, height, angle), u: start.u, v: start.v });
  }
  for (let k = 0; k <= detail.flank; k++) {
    const height = filletTop + ((top - filletTop) * k) / detail.flank;
    const place = shape.flank(side, along, height);
    nodes.push({ point: shape.toPoint(along, height, place.angle), u: place.u, v: place.v });
  }
  return nodes;
};

/** Triangles of one tooth from mid floor to mid floor: fillets, flanks, top land and both ends. */
export const buildToothSector = (shape: ToothShape, detail: SectorDetail): TriangleMesh => {
  const writer = new TriangleWriter();
  const alongs = Array.from(
    { length: detail.along + 1 },
    (_, i) => shape.alongFrom + ((shape.alongTo - shape.alongFrom) * i) / detail.along,
  );
  const middle = alongs[alongs.length >> 1];
  const profiles = {
    drive: alongs.map((along) => halfProfile(shape, 'drive', along, detail)),
    coast: alongs.map((along) => halfProfile(shape, 'coast', along, detail)),
  };
  const rootRows = detail.fillet + 1;
  const { top, filletTop } = shape.heights(middle);
  const midHeight = 0.5 * (top + filletTop);
  for (const side of FLANKS) {
    const columns = profiles[side];
    const rows = columns[0].map((_, j) => columns.map((column) => column[j]));
    const here = shape.flank(side, middle, midHeight).angle;
    const there = shape.flank(side === 'drive' ? 'coast' : 'drive', middle, midHeight).angle;
    const outward = subtract(shape.toPoint(middle, midHeight, here), shape.toPoint(middle, midHeight, there));
    const normals = gridNormals(rows, outward);
    writer.addGrid(rows.slice(0, rootRows + 1), normals.slice(0, rootRows + 1), 'none');
    writer.addGrid(rows.slice(rootRows), normals.slice(rootRows), side);
  }
  addTopLand(writer, shape, alongs, middle);
  for (const [end, inner] of [
    [0, 1],
    [alongs.length - 1, alongs.length - 2],
  ]) {
    const outward = subtract(
      shape.toPoint(alongs[end], midHeight, 0),
      shape.toPoint(alongs[inner], midHeight, 0),
    );
    const rows = [profiles.drive[end], profiles.coast[end]];
    writer.addGrid(rows, flatNormals(rows, outward), 'none');
  }
  return writer.finish();
};

const addTopLand = (
  writer: TriangleWriter,
  shape: ToothShape,
  alongs: readonly number[],
  middle: number,
): void => {
  const rows = Array.from({ length: LAND_CELLS + 1 }, (_, j) =>
    alongs.map((along): SurfaceNode => {
      const { top } = shape.heights(along);
      const from = shape.flank('drive', along, top).angle;
      const to = shape.flank('coast', along, top).angle;
      return { point: shape.toPoint(along, top, from + ((to - from) * j) / LAND_CELLS), u: 0, v: 0 };
    }),
  );
  const { top, root } = shape.heights(middle);
  const angle = shape.flank('drive', middle, top).angle;
  const outward = subtract(shape.toPoint(middle, top, angle), shape.toPoint(middle, root, angle));
  writer.addGrid(rows, gridNormals(rows, outward), 'none');
};

/** An end face is nearly flat: one normal per node pair from its own plane, never degenerate at the tip. */
const flatNormals = (rows: ReadonlyArray<readonly SurfaceNode[]>, outward: Vec3): Vec3[][] => {
  const quarter = gridNormals(rows, outward);
  const middle = quarter[0][quarter[0].length >> 1];
  return rows.map((row) => row.map(() => middle));
};
