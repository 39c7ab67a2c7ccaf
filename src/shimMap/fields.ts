import type { DialDirection } from '../../sim/assembly/dial.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { ShimMapPlane, ShimMapStride } from '../../sim/worker/longProtocol.ts';
import type { MarkCentres, ShownShimMap } from '../state/shimMap.ts';
import { filledIn } from './plane.ts';

export interface FlankFields {
  /** middle of the mark, flank coordinates; NaN without a mark */
  readonly toeHeel: Float64Array;
  readonly rootFace: Float64Array;
  /** sum of EDGE_BIT, of the nearest solved cell */
  readonly edges: Uint8Array;
}

/** What is drawn of a map: one value for every cell, those not solved yet filled in between their neighbours. */
export interface MapFields {
  readonly plane: ShimMapPlane;
  readonly columns: number;
  readonly rows: number;
  readonly stride: ShimMapStride;
  readonly drive: FlankFields;
  readonly coast: FlankFields;
  /** mm, least and mean over a pitch, read as the axle's limits are */
  readonly least: Float64Array;
  readonly mean: Float64Array;
  /** see `offHome` */
  readonly offHome: Float64Array;
}

/** Off home where a flank has no mark at all: farther than any mark can be. */
export const NO_MARK = 2;

/**
 * How far the marks lie from home, the place where they are with both gears in the design position of a true housing:
 * distance of the middles on the flank, as a share of the way from mid-flank to the edge. The drive flank counts twice.
 */
export function offHome(centres: MarkCentres, home: MarkCentres): number {
  const distance = (flank: FlankName): number =>
    Math.hypot(centres[flank].toeHeel - home[flank].toeHeel, centres[flank].rootFace - home[flank].rootFace);
  const off = (2 * distance('drive') + distance('coast')) / 3;
  return Number.isNaN(off) ? NO_MARK : off;
}

/** `turning` mm along the turning direction read as 1 mm square to the flank. */
export function fieldsOf(
  { map, covered, home }: ShownShimMap,
  reads: DialDirection,
  turning: number,
): MapFields {
  const { plane, columns, rows } = map;
  const fill = (at: (cell: number) => number) => filledIn(columns, rows, covered, at);
  const scale = reads === 'square' ? 1 : turning;
  const flank = (name: FlankName): FlankFields => ({
    toeHeel: fill((cell) => map[name].toeHeel[cell]),
    rootFace: fill((cell) => map[name].rootFace[cell]),
    edges: nearestSolved(map[name].edges, columns, rows, covered),
  });
  const centre = (name: FlankName, cell: number) => ({
    toeHeel: map[name].toeHeel[cell],
    rootFace: map[name].rootFace[cell],
  });
  return {
    plane,
    columns,
    rows,
    stride: covered,
    drive: flank('drive'),
    coast: flank('coast'),
    least: fill((cell) => map.dial[cell] * scale),
    mean: fill((cell) => map.dialMean[cell] * scale),
    offHome: fill((cell) => offHome({ drive: centre('drive', cell), coast: centre('coast', cell) }, home)),
  };
}

function nearestSolved(flags: Uint8Array, columns: number, rows: number, stride: number): Uint8Array {
  const nearest = (line: number, count: number): number =>
    Math.min(Math.round(line / stride) * stride, count - 1);
  return Uint8Array.from(flags, (_, cell) => {
    const row = nearest(Math.floor(cell / columns), rows);
    return flags[row * columns + nearest(cell % columns, columns)];
  });
}
