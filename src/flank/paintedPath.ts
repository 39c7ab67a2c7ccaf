import type { PaintedMark } from '../state/paintedMark.ts';
import type { FlankProjection } from './flankGeometry.ts';
import { ringsPath } from './mapPaths.ts';
import { type FlankField, traceRegion } from './patchOutline.ts';
import { smoothBorders } from './smoothBorder.ts';

/** Half of a square's neighbours painted: where its border is drawn. */
const HALF = 0.5;

/** Shares of paint at the corners of the squares, softened over a corner's neighbours so that no stair shows. */
const cornerField = ({ columns, rows, data }: PaintedMark): FlankField => {
  const across = columns + 1;
  const raw = new Float32Array(across * (rows + 1));
  const cell = (i: number, j: number): number =>
    data[Math.min(rows - 1, Math.max(0, j)) * columns + Math.min(columns - 1, Math.max(0, i))];
  for (let j = 0; j <= rows; j++) {
    for (let i = 0; i <= columns; i++) {
      raw[j * across + i] = (cell(i - 1, j - 1) + cell(i, j - 1) + cell(i - 1, j) + cell(i, j)) / 4;
    }
  }
  let soft = raw;
  for (let pass = 0; pass < PASSES; pass++) soft = soften(soft, columns, rows);
  return { separation: soft.map((share) => 1 - share), tipClearance: new Float32Array(raw.length).fill(1) };
};

const PASSES = 3;

/** Each corner becomes the mean of itself, twice, and its four neighbours. */
const soften = (
  from: Float32Array<ArrayBuffer>,
  columns: number,
  rows: number,
): Float32Array<ArrayBuffer> => {
  const across = columns + 1;
  const at = (i: number, j: number): number =>
    from[Math.min(rows, Math.max(0, j)) * across + Math.min(columns, Math.max(0, i))];
  return from.map((own, k) => {
    const i = k % across;
    const j = (k - i) / across;
    return (2 * own + at(i - 1, j) + at(i + 1, j) + at(i, j - 1) + at(i, j + 1)) / 6;
  });
};

/** The painted region as one SVG path in map mm; empty when nothing is painted. */
export const paintedPath = (mark: PaintedMark, projection: FlankProjection): string =>
  ringsPath(
    smoothBorders(traceRegion(cornerField(mark), { columns: mark.columns + 1, rows: mark.rows + 1 }, HALF)),
    projection,
  );
