/** A point of the photo, px of the photo as it is shown (turned and mirrored). */
export interface PhotoPoint {
  readonly x: number;
  readonly y: number;
}

/** Points that a person marks on a tooth in a photo, in the order they are asked for. */
export const TOOTH_POINTS = ['toeRoot', 'toeFace', 'heelFace', 'heelRoot', 'midFace', 'midRoot'] as const;
export type ToothPointName = (typeof TOOTH_POINTS)[number];
export type ToothPoints = Readonly<Record<ToothPointName, PhotoPoint>>;

export const CORNERS = ['toeRoot', 'toeFace', 'heelFace', 'heelRoot'] as const;

/** Where each corner lies on the flank: [u, v] as in docs/model.md §4. */
const FLANK_OF_CORNER = {
  toeRoot: [-1, -1],
  toeFace: [-1, 1],
  heelFace: [1, 1],
  heelRoot: [1, -1],
} as const satisfies Record<(typeof CORNERS)[number], readonly [number, number]>;

/** Flank coordinates → photo; null where the corners give no picture of a flat face (three in a line, crossed). */
export type Straightening = (u: number, v: number) => PhotoPoint;

/**
 * The view of a flat quadrilateral (a projective map through the four corners), bent along its length so that the two
 * edge points at mid-length lie on the face and root edges: a tooth is curved, its middle is not between its ends.
 */
export function straighten(points: ToothPoints): Straightening | null {
  const map = throughCorners(points);
  if (map === null) return null;
  const face = map(0, 1);
  const root = map(0, -1);
  const bend = {
    face: { x: points.midFace.x - face.x, y: points.midFace.y - face.y },
    root: { x: points.midRoot.x - root.x, y: points.midRoot.y - root.y },
  };
  return (u, v) => {
    const flat = map(u, v);
    // most at mid-length, nothing at the ends
    const share = 1 - u * u;
    const up = (1 + v) / 2;
    return {
      x: flat.x + share * (up * bend.face.x + (1 - up) * bend.root.x),
      y: flat.y + share * (up * bend.face.y + (1 - up) * bend.root.y),
    };
  };
}

/** Where the edge points lie as long as nobody has moved them: on the straight lines between the corners' images. */
export function midPoints(
  corners: Readonly<Record<(typeof CORNERS)[number], PhotoPoint>>,
): Readonly<Record<'midFace' | 'midRoot', PhotoPoint>> | null {
  const map = throughCorners(corners);
  return map === null ? null : { midFace: map(0, 1), midRoot: map(0, -1) };
}

function throughCorners(
  corners: Readonly<Record<(typeof CORNERS)[number], PhotoPoint>>,
): Straightening | null {
  if (!isConvex(CORNERS.map((name) => corners[name]))) return null;
  // x = (a u + b v + c) / (g u + h v + 1), y alike: eight unknowns, two equations a corner
  const rows: number[][] = [];
  for (const name of CORNERS) {
    const [u, v] = FLANK_OF_CORNER[name];
    const { x, y } = corners[name];
    rows.push([u, v, 1, 0, 0, 0, -u * x, -v * x, x], [0, 0, 0, u, v, 1, -u * y, -v * y, y]);
  }
  const solved = solve(rows);
  if (solved === null) return null;
  const [a, b, c, d, e, f, g, h] = solved;
  return (u, v) => {
    const w = g * u + h * v + 1;
    return { x: (a * u + b * v + c) / w, y: (d * u + e * v + f) / w };
  };
}

/** Every turn the same way round, and none straight. */
function isConvex(corners: readonly PhotoPoint[]): boolean {
  const turns = corners.map((here, k) => {
    const next = corners[(k + 1) % corners.length];
    const after = corners[(k + 2) % corners.length];
    return (next.x - here.x) * (after.y - next.y) - (next.y - here.y) * (after.x - next.x);
  });
  return turns.every((turn) => turn > 1e-6) || turns.every((turn) => turn < -1e-6);
}

/** Gauss–Jordan with pivoting; each row carries its right side last. Null without one answer. */
function solve(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < n; row += 1) {
      if (Math.abs(rows[row][column]) > Math.abs(rows[pivot][column])) pivot = row;
    }
    if (Math.abs(rows[pivot][column]) < 1e-9) return null;
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let row = 0; row < n; row += 1) {
      if (row === column) continue;
      const share = rows[row][column] / rows[column][column];
      for (let k = column; k <= n; k += 1) rows[row][k] -= share * rows[column][k];
    }
  }
  return rows.map((row, k) => row[n] / row[k]);
}
