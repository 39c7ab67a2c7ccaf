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

const SIZES = [2.2, 1.8, 1.5, 1.25, 1] as const;

/**
 * The middle of a text of `width` × `height` cells where it has most room within a region; null where it does not fit.
 * Of equally roomy places the one nearest to the middle of them all.
 */
export function roomForText({ columns, rows, has }: Mask, width: number, height: number): Room | null {
  const sums = sumsOver(columns, rows, has);
  for (const size of SIZES) {
    const w = Math.ceil(width * size);
    const h = Math.ceil(height * size);
    const fitting: Room[] = [];
    for (let row = 0; row + h <= rows; row++) {
      for (let column = 0; column + w <= columns; column++) {
        if (countIn(sums, columns, column, row, w, h) === w * h) {
          fitting.push({ column: column + (w - 1) / 2, row: row + (h - 1) / 2 });
        }
      }
    }
    if (fitting.length > 0) return mostCentral(fitting);
  }
  return null;
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

const countIn = (
  sums: Uint32Array,
  columns: number,
  column: number,
  row: number,
  width: number,
  height: number,
): number => {
  const at = (r: number, c: number) => sums[r * (columns + 1) + c];
  return (
    at(row + height, column + width) - at(row, column + width) - at(row + height, column) + at(row, column)
  );
};

function mostCentral(rooms: readonly Room[]): Room {
  const middle = {
    column: rooms.reduce((sum, room) => sum + room.column, 0) / rooms.length,
    row: rooms.reduce((sum, room) => sum + room.row, 0) / rooms.length,
  };
  const away = (room: Room) => Math.hypot(room.column - middle.column, room.row - middle.row);
  return rooms.reduce((best, room) => (away(room) < away(best) ? room : best));
}
