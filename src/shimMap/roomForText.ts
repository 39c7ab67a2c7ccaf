/** A region of the map as true cells. */
export interface Mask {
  readonly columns: number;
  readonly rows: number;
  readonly has: (cell: number) => boolean;
}

/** Middle of a rectangle, in columns and rows. */
export interface Room {
  readonly column: number;
  readonly row: number;
}

/** Sizes that are tried, in widths and heights of the text. */
const SIZES = [1, 1.25, 1.5, 1.8, 2.2] as const;

/**
 * The middle of a text of `width` × `height` cells where it has most room within a region; null where it does not fit.
 * Of equally roomy places the one nearest to the middle of them all.
 */
export function roomForText({ columns, rows, has }: Mask, width: number, height: number): Room | null {
  const sums = sumsOver(columns, rows, has);
  let found: Room | null = null;
  for (const size of SIZES) {
    const larger = mostCentral(sums, columns, rows, Math.ceil(width * size), Math.ceil(height * size));
    if (larger === null) break;
    found = larger;
  }
  return found;
}

/** Cells of the region left of and below each corner. */
function sumsOver(columns: number, rows: number, has: (cell: number) => boolean): Uint32Array {
  const wide = columns + 1;
  const sums = new Uint32Array(wide * (rows + 1));
  for (let row = 0; row < rows; row++) {
    let along = 0;
    for (let column = 0; column < columns; column++) {
      along += has(row * columns + column) ? 1 : 0;
      sums[(row + 1) * wide + column + 1] = sums[row * wide + column + 1] + along;
    }
  }
  return sums;
}

/** Of the middles of all rectangles of `w` × `h` cells within the region, the one nearest to the mean of them. */
function mostCentral(sums: Uint32Array, columns: number, rows: number, w: number, h: number): Room | null {
  const wide = columns + 1;
  const area = w * h;
  if (sums[sums.length - 1] < area) return null;
  const fits = (at: number) =>
    sums[at + h * wide + w] - sums[at + w] - sums[at + h * wide] + sums[at] === area;
  let count = 0;
  let sumColumn = 0;
  let sumRow = 0;
  for (let row = 0; row + h <= rows; row++) {
    for (let column = 0; column + w <= columns; column++) {
      if (!fits(row * wide + column)) continue;
      count++;
      sumColumn += column;
      sumRow += row;
    }
  }
  if (count === 0) return null;
  let best: Room | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let row = 0; row + h <= rows; row++) {
    for (let column = 0; column + w <= columns; column++) {
      const away = (column - sumColumn / count) ** 2 + (row - sumRow / count) ** 2;
      if (away >= least || !fits(row * wide + column)) continue;
      least = away;
      best = { column: column + (w - 1) / 2, row: row + (h - 1) / 2 };
    }
  }
  return best;
}
