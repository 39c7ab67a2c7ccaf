import type { FlankOutline, FlankResult, GridSize } from '../../../../sim/worker/protocol.ts';

/** What a flank's fields say beyond its report. mm, degrees, flank coordinates. */
export interface FlankNumbers {
  /** degrees in true proportions; plus: the mark's long way leads from root and toe to face and heel; null without a mark */
  readonly tilt: number | null;
  /** mm² of the developed flank; null without a mark */
  readonly areaMm2: number | null;
  /** mm, extents of the mark */
  readonly lengthMm: number;
  readonly heightMm: number;
  /** where the flanks come nearest; null when they never meet */
  readonly nearest: { readonly separation: number; readonly u: number; readonly v: number } | null;
}

const DEGREES = 180 / Math.PI;

/** Numbers of one flank's mark, measured on the developed flank (docs/model.md §4). */
export function flankNumbers(
  result: FlankResult,
  { columns, rows }: GridSize,
  film: number,
  outline: FlankOutline,
): FlankNumbers {
  const half = outline.faceWidth / 2;
  const { face, workingRoot } = outline;
  let weight = 0;
  let cells = 0;
  let l1 = 0;
  let d1 = 0;
  let l2 = 0;
  let d2 = 0;
  let ld = 0;
  let nearest: { separation: number; u: number; v: number } | null = null;
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) {
      const node = j * columns + i;
      const separation = result.separation[node];
      if (result.tipClearance[node] < 0) continue;
      const u = -1 + (2 * i) / (columns - 1);
      const v = -1 + (2 * j) / (rows - 1);
      if (nearest === null || separation < nearest.separation) nearest = { separation, u, v };
      if (separation > film) continue;
      const l = u * half;
      const bottom = workingRoot.d0 + workingRoot.slope * l;
      const height = face.d0 + face.slope * l - bottom;
      const d = bottom + 0.5 * (v + 1) * height;
      // a node stands for its cell, as high as the tooth is there
      const cell = (i === 0 || i === columns - 1 ? 0.5 : 1) * (j === 0 || j === rows - 1 ? 0.5 : 1);
      const share = height * cell;
      cells += cell;
      weight += share;
      l1 += share * l;
      d1 += share * d;
      l2 += share * l * l;
      d2 += share * d * d;
      ld += share * l * d;
    }
  }
  const middleHeight = face.d0 - workingRoot.d0;
  const mark = weight > 0 && result.toeHeel !== null;
  const spread = (squares: number, a: number, b: number): number =>
    squares / weight - (a / weight) * (b / weight);
  return {
    tilt: mark
      ? 0.5 * DEGREES * Math.atan2(2 * spread(ld, l1, d1), spread(l2, l1, l1) - spread(d2, d1, d1))
      : null,
    // the report's share is of the (u, v) square; a tapered tooth is not equally high along it
    areaMm2: mark ? result.area * outline.faceWidth * (weight / cells) : null,
    lengthMm: result.length * outline.faceWidth,
    heightMm: result.height * middleHeight,
    nearest,
  };
}
