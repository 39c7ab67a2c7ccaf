import { contours } from 'd3-contour';
import type { AxleLimits } from '../../models/axle.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import { EDGE_BIT } from '../../sim/worker/longProtocol.ts';
import { EDGES, type EdgeName } from '../../sim/worker/protocol.ts';
import type { MapFields } from './fields.ts';
import type { Scales } from './scales.ts';

/** Closed outlines in columns and rows; holes run the other way round. */
export type Outlines = readonly (readonly (readonly [column: number, row: number])[])[];

/**
 * Shares of the way from mid-flank to the edge at which one band of `offHome` ends and the next begins; the words for
 * the lie of a mark change at three of them.
 */
export const OFF_HOME_STEPS = [0.05, 0.1, 0.15, 0.25, 0.35] as const;

export interface EdgeRegion {
  readonly flank: FlankName;
  readonly edge: EdgeName;
  readonly outlines: Outlines;
}

/** The borders on the map. */
export interface Regions {
  /** for each of OFF_HOME_STEPS: where the marks are at least so far off home */
  readonly offHome: readonly Outlines[];
  readonly below: Outlines;
  readonly above: Outlines;
  readonly binds: Outlines;
  /** nothing to measure a backlash from */
  readonly unknown: Outlines;
  /** those that occur */
  readonly edges: readonly EdgeRegion[];
}

export function regionsOf(fields: MapFields, limits: AxleLimits['backlash']): Regions {
  const { columns, rows, least, mean, offHome } = fields;
  const where = (value: (cell: number) => number) => outlinesOf(columns, rows, value);
  const edges: EdgeRegion[] = [];
  for (const flank of ['drive', 'coast'] as const) {
    for (const edge of EDGES) {
      const [bits, bit] = [fields[flank].edges, EDGE_BIT[edge]];
      if (bits.every((flags) => (flags & bit) === 0)) continue;
      const smooth = smoothed(columns, rows, (cell) => ((bits[cell] & bit) === 0 ? -0.5 : 0.5));
      const outlines = where((cell) => smooth[cell]);
      if (outlines.length > 0) edges.push({ flank, edge, outlines });
    }
  }
  return {
    offHome: OFF_HOME_STEPS.map((step) => where((cell) => offHome[cell] - step)),
    below: where((cell) => limits.min - least[cell]),
    above: where((cell) => mean[cell] - limits.max),
    binds: where((cell) => -least[cell]),
    unknown: where((cell) => (Number.isNaN(least[cell]) ? 0.5 : -0.5)),
    edges,
  };
}

/** Where `value` is zero or more, the border linearly between the cells. Not a number is outside. */
function outlinesOf(columns: number, rows: number, value: (cell: number) => number): Outlines {
  const values = Array.from({ length: columns * rows }, (_, cell) => value(cell));
  const { coordinates } = contours().size([columns, rows]).smooth(true).contour(values, 0);
  // the library counts from the corner of the first cell, the map from its middle
  const place = (at: number, count: number) => Math.min(Math.max(at - 0.5, 0), count - 1);
  return coordinates.flatMap((polygon) =>
    polygon.map((ring) => ring.slice(0, -1).map(([x, y]) => [place(x, columns), place(y, rows)] as const)),
  );
}

/** Mean with the eight neighbours: a flag has no in-between, and a border should not run in steps. */
function smoothed(columns: number, rows: number, value: (cell: number) => number): Float64Array {
  const out = new Float64Array(columns * rows);
  const near = (at: number, count: number) => Math.min(Math.max(at, 0), count - 1);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let sum = 0;
      for (let dr = -1; dr <= 1; dr++) {
        for (let dc = -1; dc <= 1; dc++) {
          const weight = (2 - Math.abs(dr)) * (2 - Math.abs(dc));
          sum += weight * value(near(row + dr, rows) * columns + near(column + dc, columns));
        }
      }
      out[row * columns + column] = sum / 16;
    }
  }
  return out;
}

/** As an SVG path, filled by the even-odd rule. */
export const pathOf = (outlines: Outlines, scales: Scales): string =>
  outlines
    .map(
      (ring) =>
        `${ring
          .map(
            ([column, row], k) => `${k === 0 ? 'M' : 'L'}${px(scales.column(column))} ${px(scales.row(row))}`,
          )
          .join('')}Z`,
    )
    .join('');

/** The same without what runs along the border of the map: a line between two regions. */
export function linePathOf(
  outlines: Outlines,
  size: { columns: number; rows: number },
  scales: Scales,
): string {
  const { columns, rows } = size;
  const onBorder = (a: readonly [number, number], b: readonly [number, number]): boolean =>
    [0, columns - 1].some((at) => a[0] === at && b[0] === at) ||
    [0, rows - 1].some((at) => a[1] === at && b[1] === at);
  let path = '';
  for (const ring of outlines) {
    let drawn = false;
    ring.forEach((point, k) => {
      const next = ring[(k + 1) % ring.length];
      if (onBorder(point, next)) {
        drawn = false;
        return;
      }
      if (!drawn) path += `M${px(scales.column(point[0]))} ${px(scales.row(point[1]))}`;
      path += `L${px(scales.column(next[0]))} ${px(scales.row(next[1]))}`;
      drawn = true;
    });
  }
  return path;
}

const px = (value: number): string => value.toFixed(1);
