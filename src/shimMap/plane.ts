import type { ShimMapPlane } from '../../sim/worker/longProtocol.ts';

/** Where pinion and ring stand, mm from the design position. */
export interface PlanePoint {
  readonly pinionIn: number;
  readonly ringAway: number;
}

type Axes = Pick<ShimMapPlane, 'pinionIn' | 'ringAway'>;

/** Rows and columns a pass has solved along one axis: every stride-th and the last. */
export function solvedLines(count: number, stride: number): readonly number[] {
  const lines: number[] = [];
  for (let line = 0; line < count - 1; line += stride) lines.push(line);
  lines.push(count - 1);
  return lines;
}

/** For each line the solved line at or before it, the one after, and how far it is on the way. */
function between(count: number, stride: number) {
  const solved = solvedLines(count, stride);
  return Array.from({ length: count }, (_, line) => {
    const k = Math.min(Math.floor(line / stride), solved.length - 2);
    const [before, after] = [solved[k], solved[k + 1]];
    return { before, after, share: (line - before) / (after - before) };
  });
}

/** Values of the cells that a pass with `stride` has solved, and between them linearly along rows and columns. */
export function filledIn(
  columns: number,
  rows: number,
  stride: number,
  read: (cell: number) => number,
): Float64Array {
  const filled = new Float64Array(columns * rows);
  if (stride === 1) {
    for (let cell = 0; cell < filled.length; cell++) filled[cell] = read(cell);
    return filled;
  }
  const across = between(columns, stride);
  const up = between(rows, stride);
  for (let row = 0; row < rows; row++) {
    const { before: r0, after: r1, share: v } = up[row];
    for (let column = 0; column < columns; column++) {
      const { before: c0, after: c1, share: u } = across[column];
      const low = mix(read(r0 * columns + c0), read(r0 * columns + c1), u);
      const high = mix(read(r1 * columns + c0), read(r1 * columns + c1), u);
      filled[row * columns + column] = mix(low, high, v);
    }
  }
  return filled;
}

/** Exact at both ends, also where the other end is no number. */
const mix = (a: number, b: number, share: number): number =>
  share === 0 ? a : share === 1 ? b : a + (b - a) * share;

const placeAlong = ({ low, high, count }: Axes['pinionIn'], at: number): number =>
  Math.min(Math.max(((at - low) / (high - low)) * (count - 1), 0), count - 1);

/** Place of a point in columns and rows; outside the plane the nearest on its border. */
const cellPlace = (axes: Axes, { pinionIn, ringAway }: PlanePoint) => ({
  column: placeAlong(axes.pinionIn, pinionIn),
  row: placeAlong(axes.ringAway, ringAway),
});

/** Value of a filled field at a point, linearly between the four cells round it. */
export function sampleAt(field: Float64Array, axes: Axes, point: PlanePoint): number {
  const { column, row } = cellPlace(axes, point);
  const { count: columns } = axes.pinionIn;
  // a place given in mm misses a whole column by binary dust only
  const c0 = Math.min(Math.floor(column + 1e-9), columns - 2);
  const r0 = Math.min(Math.floor(row + 1e-9), axes.ringAway.count - 2);
  const u = snap(column - c0);
  const v = snap(row - r0);
  const at = r0 * columns + c0;
  return mix(mix(field[at], field[at + 1], u), mix(field[at + columns], field[at + columns + 1], u), v);
}

const snap = (share: number): number => (share < 1e-9 ? 0 : share > 1 - 1e-9 ? 1 : share);

/** The up to four cells round a point; a point on a row or column has fewer. */
export function cellsRound(axes: Axes, point: PlanePoint): readonly number[] {
  const { column, row } = cellPlace(axes, point);
  const lines = (place: number) => [...new Set([Math.floor(place + 1e-9), Math.ceil(place - 1e-9)])];
  return lines(row).flatMap((r) => lines(column).map((c) => r * axes.pinionIn.count + c));
}

/** The cell a point is nearest to. */
export function nearestCell(axes: Axes, point: PlanePoint): number {
  const { column, row } = cellPlace(axes, point);
  return Math.round(row) * axes.pinionIn.count + Math.round(column);
}

/** Is it on the map? */
export const isOnPlane = (axes: Axes, { pinionIn, ringAway }: PlanePoint): boolean =>
  holds(axes.pinionIn, pinionIn) && holds(axes.ringAway, ringAway);

const holds = ({ low, high }: Axes['pinionIn'], at: number): boolean => at >= low - 1e-9 && at <= high + 1e-9;
