import { markTilt } from '../../../../sim/worker/markTilt.ts';
import type { FlankOutline, FlankResult, GridSize } from '../../../../sim/worker/protocol.ts';

/** What a flank's fields say beyond its report. mm, degrees, flank coordinates. */
export interface FlankNumbers {
  /** degrees between the mark's line and mid-height, in true proportions; plus: rising toward the heel; null without a mark */
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

/** Numbers of one flank's mark, measured on the developed flank (docs/model.md §4, §7). */
export function flankNumbers(
  result: FlankResult,
  { columns, rows }: GridSize,
  film: number,
  outline: FlankOutline,
): FlankNumbers {
  const { faceWidth, face, workingRoot } = outline;
  const heightAt = (u: number): number => {
    const l = (u * faceWidth) / 2;
    return face.d0 + face.slope * l - (workingRoot.d0 + workingRoot.slope * l);
  };
  let cells = 0;
  let height = 0;
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
      const cell = (i === 0 || i === columns - 1 ? 0.5 : 1) * (j === 0 || j === rows - 1 ? 0.5 : 1);
      cells += cell;
      height += cell * heightAt(u);
    }
  }
  const { toeHeel } = result;
  const mark = cells > 0 && toeHeel !== null;
  // both coordinates run over two units
  const slope = mark ? (markTilt(result, columns, rows, film) * heightAt(toeHeel)) / faceWidth : Number.NaN;
  return {
    tilt: Number.isFinite(slope) ? DEGREES * Math.atan(slope) : null,
    // the report's share is of the (u, v) square; a tapered tooth is not equally high along it
    areaMm2: mark ? result.area * faceWidth * (height / cells) : null,
    lengthMm: result.length * faceWidth,
    heightMm: result.height * heightAt(toeHeel ?? 0),
    nearest,
  };
}
