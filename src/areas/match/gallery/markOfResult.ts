import type { FlankResult, GridSize } from '../../../../sim/worker/protocol.ts';
import { PAINT_COLUMNS, PAINT_ROWS, type PaintedMark } from '../../../state/paintedMark.ts';

/** A solved mark as somebody would have painted it. `film` in mm. */
export function markOfResult(result: FlankResult, grid: GridSize, film: number): PaintedMark {
  const { separation, tipClearance } = result;
  const data = new Uint8Array(PAINT_COLUMNS * PAINT_ROWS);
  const between = (values: Float32Array, x: number, y: number): number => {
    const i = Math.min(grid.columns - 2, Math.floor(x));
    const j = Math.min(grid.rows - 2, Math.floor(y));
    const s = x - i;
    const t = y - j;
    const at = j * grid.columns + i;
    const low = values[at] + s * (values[at + 1] - values[at]);
    const high = values[at + grid.columns] + s * (values[at + grid.columns + 1] - values[at + grid.columns]);
    return low + t * (high - low);
  };
  for (let row = 0; row < PAINT_ROWS; row += 1) {
    const y = ((row + 0.5) / PAINT_ROWS) * (grid.rows - 1);
    for (let column = 0; column < PAINT_COLUMNS; column += 1) {
      const x = ((column + 0.5) / PAINT_COLUMNS) * (grid.columns - 1);
      if (between(separation, x, y) <= film && between(tipClearance, x, y) >= 0) {
        data[row * PAINT_COLUMNS + column] = 1;
      }
    }
  }
  return { columns: PAINT_COLUMNS, rows: PAINT_ROWS, data };
}
