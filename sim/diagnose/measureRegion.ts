import { correlation } from './markCorrelation.ts';
import type { MaskedMark } from './observation.ts';

/** What is measured of a painted region; the forward model measures its own mark alike. */
export interface RegionMeasures {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly length: number;
  readonly height: number;
  /** correlation of u and v over the region */
  readonly tilt: number;
  /** flank coordinates squared */
  readonly area: number;
  /** ends toward toe, heel and face */
  readonly left: number;
  readonly right: number;
  readonly top: number;
}

/** Moments of a closed outline by Green's theorem, first clipped to the flank square. Null when nothing is left. */
export const measureOutline = (outline: ReadonlyArray<readonly [number, number]>): RegionMeasures | null => {
  const corners = clipToFlank(outline);
  let area = 0;
  let mu = 0;
  let mv = 0;
  let muu = 0;
  let muv = 0;
  let mvv = 0;
  const n = corners.length;
  for (let k = 0; k < n; k++) {
    const [u0, v0] = corners[k];
    const [u1, v1] = corners[(k + 1) % n];
    const cross = u0 * v1 - u1 * v0;
    area += cross / 2;
    mu += ((u0 + u1) * cross) / 6;
    mv += ((v0 + v1) * cross) / 6;
    muu += ((u0 * u0 + u0 * u1 + u1 * u1) * cross) / 12;
    mvv += ((v0 * v0 + v0 * v1 + v1 * v1) * cross) / 12;
    muv += ((u0 * v1 + 2 * u0 * v0 + 2 * u1 * v1 + u1 * v0) * cross) / 24;
  }
  if (!(Math.abs(area) > 1e-6)) return null;
  const toeHeel = mu / area;
  const rootFace = mv / area;
  const us = corners.map(([u]) => u);
  const vs = corners.map(([, v]) => v);
  return {
    toeHeel,
    rootFace,
    length: (Math.max(...us) - Math.min(...us)) / 2,
    height: (Math.max(...vs) - Math.min(...vs)) / 2,
    tilt: correlation(muu / area - toeHeel ** 2, muv / area - toeHeel * rootFace, mvv / area - rootFace ** 2),
    area: Math.abs(area),
    left: Math.min(...us),
    right: Math.max(...us),
    top: Math.max(...vs),
  };
};

type Corner = readonly [number, number];

/** Sutherland and Hodgman's clipping, one border of the square after the other. */
const clipToFlank = (outline: readonly Corner[]): readonly Corner[] => {
  let corners: readonly Corner[] = outline;
  for (const axis of [0, 1] as const) {
    for (const side of [-1, 1] as const) {
      const inside = (c: Corner): boolean => side * c[axis] <= 1;
      const cut = (a: Corner, b: Corner): Corner => {
        const s = (side - a[axis]) / (b[axis] - a[axis]);
        return [a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])];
      };
      const kept: Corner[] = [];
      corners.forEach((here, k) => {
        const before = corners[(k + corners.length - 1) % corners.length];
        if (inside(here) !== inside(before)) kept.push(cut(before, here));
        if (inside(here)) kept.push(here);
      });
      corners = kept;
    }
  }
  return corners;
};

/** Moments of a raster, every marked cell a small square. Null when nothing is marked. */
export const measureMask = ({ columns, rows, data }: MaskedMark): RegionMeasures | null => {
  let count = 0;
  let mu = 0;
  let mv = 0;
  let muu = 0;
  let muv = 0;
  let mvv = 0;
  let left = columns;
  let right = -1;
  let low = rows;
  let high = -1;
  for (let j = 0; j < rows; j++) {
    const v = -1 + (2 * j + 1) / rows;
    for (let i = 0; i < columns; i++) {
      if (!data[j * columns + i]) continue;
      const u = -1 + (2 * i + 1) / columns;
      count++;
      mu += u;
      mv += v;
      muu += u * u;
      muv += u * v;
      mvv += v * v;
      if (i < left) left = i;
      if (i > right) right = i;
      if (j < low) low = j;
      high = j;
    }
  }
  if (count === 0) return null;
  mu /= count;
  mv /= count;
  // A square of width w adds w²/12 about its own middle.
  const own = { u: (2 / columns) ** 2 / 12, v: (2 / rows) ** 2 / 12 };
  return {
    toeHeel: mu,
    rootFace: mv,
    length: (right + 1 - left) / columns,
    height: (high + 1 - low) / rows,
    tilt: correlation(muu / count - mu * mu + own.u, muv / count - mu * mv, mvv / count - mv * mv + own.v),
    area: (count * 4) / (columns * rows),
    left: -1 + (2 * left) / columns,
    right: -1 + (2 * (right + 1)) / columns,
    top: -1 + (2 * (high + 1)) / rows,
  };
};
