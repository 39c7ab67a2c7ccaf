/**
 * A mark as somebody painted it: a raster of small squares over the working flank, first row at the working root, first
 * column at the toe; 1 = rubbed. Never changed in place, so that undo may keep it.
 */
export interface PaintedMark {
  readonly columns: number;
  readonly rows: number;
  readonly data: Uint8Array;
}

/** Squares of about a quarter of a millimetre on a small axle's tooth: finer than anybody paints. */
export const PAINT_COLUMNS = 120;
export const PAINT_ROWS = 40;

export const blankMark = (columns = PAINT_COLUMNS, rows = PAINT_ROWS): PaintedMark => ({
  columns,
  rows,
  data: new Uint8Array(columns * rows),
});

export const isBlank = ({ data }: PaintedMark): boolean => !data.includes(1);

/** A point in flank coordinates. */
export type FlankPoint = readonly [toeHeel: number, rootFace: number];

/** Half axes of a round brush, in flank coordinates: round on the tooth, hence unlike along and across. */
export interface Brush {
  readonly along: number;
  readonly across: number;
}

type Inside = (u: number, v: number) => boolean;

/** Sets every square whose middle lies inside to `value`; looks only between the given borders. */
const fill = (
  mark: PaintedMark,
  value: 0 | 1,
  borders: { readonly low: FlankPoint; readonly high: FlankPoint },
  inside: Inside,
): PaintedMark => {
  const { columns, rows } = mark;
  const data = mark.data.slice();
  const first = (at: number, count: number) => Math.max(0, Math.floor(((at + 1) / 2) * count));
  const last = (at: number, count: number) => Math.min(count - 1, Math.ceil(((at + 1) / 2) * count));
  for (let j = first(borders.low[1], rows); j <= last(borders.high[1], rows); j++) {
    const v = -1 + (2 * j + 1) / rows;
    for (let i = first(borders.low[0], columns); i <= last(borders.high[0], columns); i++) {
      if (inside(-1 + (2 * i + 1) / columns, v)) data[j * columns + i] = value;
    }
  }
  return { columns, rows, data };
};

/** A stroke of the brush from one point to another; value 0 wipes. */
export const stroke = (
  mark: PaintedMark,
  from: FlankPoint,
  to: FlankPoint,
  brush: Brush,
  value: 0 | 1,
): PaintedMark => {
  // in units of the brush's half axes the brush is a circle of radius 1
  const du = (to[0] - from[0]) / brush.along;
  const dv = (to[1] - from[1]) / brush.across;
  const length = du * du + dv * dv;
  const low: FlankPoint = [Math.min(from[0], to[0]) - brush.along, Math.min(from[1], to[1]) - brush.across];
  const high: FlankPoint = [Math.max(from[0], to[0]) + brush.along, Math.max(from[1], to[1]) + brush.across];
  return fill(mark, value, { low, high }, (u, v) => {
    const pu = (u - from[0]) / brush.along;
    const pv = (v - from[1]) / brush.across;
    const share = length === 0 ? 0 : Math.min(1, Math.max(0, (pu * du + pv * dv) / length));
    return (pu - share * du) ** 2 + (pv - share * dv) ** 2 <= 1;
  });
};

/** Everything inside a closed outline (even-odd); corners may lie outside the flank. */
export const fillOutline = (mark: PaintedMark, corners: readonly FlankPoint[], value: 0 | 1): PaintedMark => {
  if (corners.length < 3) return mark;
  const us = corners.map(([u]) => u);
  const vs = corners.map(([, v]) => v);
  const low: FlankPoint = [Math.min(...us), Math.min(...vs)];
  const high: FlankPoint = [Math.max(...us), Math.max(...vs)];
  return fill(mark, value, { low, high }, (u, v) => {
    let inside = false;
    for (let k = 0, before = corners.length - 1; k < corners.length; before = k++) {
      const [ua, va] = corners[before];
      const [ub, vb] = corners[k];
      if (va > v !== vb > v && u < ua + ((v - va) / (vb - va)) * (ub - ua)) inside = !inside;
    }
    return inside;
  });
};

/** A mark given by its middle, its extents and how far it leans. Flank coordinates; extents are shares of the flank. */
export interface MarkShape {
  readonly toeHeel: number;
  readonly rootFace: number;
  /** share of the flank's length, 0…1 */
  readonly length: number;
  /** share of its height, 0…1 */
  readonly height: number;
  /** −1…1: how far the heel end lies toward the face (+) or the root (−), as a share of the height */
  readonly tilt: number;
}

/** An oval of that shape, cut off at the edges of the flank. */
export const ovalMark = (shape: MarkShape, columns = PAINT_COLUMNS, rows = PAINT_ROWS): PaintedMark => {
  const { toeHeel, rootFace, length, height, tilt } = shape;
  return fill(blankMark(columns, rows), 1, { low: [-1, -1], high: [1, 1] }, (u, v) => {
    const along = (u - toeHeel) / Math.max(length, 1e-6);
    // a leaning oval: its extents stay length and height, the rest of the height lies across the lean
    const across = (v - rootFace) / Math.max(height, 1e-6) - tilt * along;
    return along * along + (across * across) / Math.max(1 - tilt * tilt, 1e-6) <= 1;
  });
};

/** Middle, extents and lean of what is painted; null when nothing is. */
export const shapeOf = ({ columns, rows, data }: PaintedMark): MarkShape | null => {
  let count = 0;
  let mu = 0;
  let mv = 0;
  let muu = 0;
  let muv = 0;
  let mvv = 0;
  let [left, right, low, high] = [columns, -1, rows, -1];
  for (let j = 0; j < rows; j++) {
    const v = -1 + (2 * j + 1) / rows;
    for (let i = 0; i < columns; i++) {
      if (data[j * columns + i] === 0) continue;
      const u = -1 + (2 * i + 1) / columns;
      count += 1;
      mu += u;
      mv += v;
      muu += u * u;
      muv += u * v;
      mvv += v * v;
      left = Math.min(left, i);
      right = Math.max(right, i);
      low = Math.min(low, j);
      high = j;
    }
  }
  if (count === 0) return null;
  const toeHeel = mu / count;
  const rootFace = mv / count;
  const varU = muu / count - toeHeel * toeHeel;
  const varV = mvv / count - rootFace * rootFace;
  const covariance = muv / count - toeHeel * rootFace;
  const tilt = varU > 0 && varV > 0 ? covariance / Math.sqrt(varU * varV) : 0;
  return {
    toeHeel,
    rootFace,
    length: (right + 1 - left) / columns,
    height: (high + 1 - low) / rows,
    tilt,
  };
};

export const sameMark = (a: PaintedMark | null, b: PaintedMark | null): boolean => {
  if (a === b) return true;
  if (a === null || b === null) return false;
  return (
    a.columns === b.columns &&
    a.rows === b.rows &&
    a.data.length === b.data.length &&
    a.data.every((value, k) => value === b.data[k])
  );
};
