import type { MapFields } from './fields.ts';
import type { Scales } from './scales.ts';

/** A line between two regions where it leaves the map at the right. */
export interface LimitLine {
  readonly line: 'least' | 'most' | 'none';
  /** mm of reading */
  readonly mm: number;
  /** px, moved apart where the names would lie over each other */
  readonly y: number;
}

/** Lines of the limits and of no play at the right border; one that leaves elsewhere is not among them. */
export function linesAtRight(
  fields: MapFields,
  limits: { readonly min: number; readonly max: number },
  scales: Scales,
  em: number,
): readonly LimitLine[] {
  const { columns, rows, least, mean } = fields;
  const column = scales.column(0) > scales.column(1) ? 0 : columns - 1;
  const wanted = [
    { line: 'none', mm: 0, values: least },
    { line: 'least', mm: limits.min, values: least },
    { line: 'most', mm: limits.max, values: mean },
  ] as const;
  const found = wanted.flatMap(({ line, mm, values }): LimitLine[] => {
    for (let row = 0; row + 1 < rows; row++) {
      const [low, high] = [values[row * columns + column], values[(row + 1) * columns + column]];
      if (low < mm !== high < mm) return [{ line, mm, y: scales.row(row + (mm - low) / (high - low)) }];
    }
    return [];
  });
  return apart(found, em * 1.25);
}

/** From the bottom up, each at least `room` px above the one before. */
function apart(lines: readonly LimitLine[], room: number): readonly LimitLine[] {
  let before = Number.POSITIVE_INFINITY;
  return [...lines]
    .sort((a, b) => b.y - a.y)
    .map((line) => {
      const y = Math.min(line.y, before - room);
      before = y;
      return { ...line, y };
    });
}
