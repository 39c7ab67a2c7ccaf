import type { AxleLimits } from '../../../../models/axle.ts';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { EDGE_BIT } from '../../../../sim/worker/longProtocol.ts';
import { EDGES, type EdgeName } from '../../../../sim/worker/protocol.ts';
import type { MapFields } from '../../../shimMap/fields.ts';
import { cellsRound, nearestCell, type PlanePoint, sampleAt } from '../../../shimMap/plane.ts';
import { type BacklashReading, judgeReading } from '../backlash.ts';

export interface FlankState {
  /** middle of the mark, flank coordinates; NaN without a mark */
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly edges: readonly EdgeName[];
}

/** What the map says of one place. */
export interface PlaceState {
  readonly backlash: BacklashReading;
  readonly drive: FlankState;
  readonly coast: FlankState;
  readonly offHome: number;
}

export const edgesIn = (bits: number): readonly EdgeName[] =>
  EDGES.filter((edge) => (bits & EDGE_BIT[edge]) !== 0);

/** Read between the solved cells linearly; edge contact is that of the nearest cell. */
export function stateAt(fields: MapFields, limits: AxleLimits['backlash'], point: PlanePoint): PlaceState {
  const { plane } = fields;
  const cell = nearestCell(plane, point);
  const flank = (name: FlankName): FlankState => ({
    toeHeel: sampleAt(fields[name].toeHeel, plane, point),
    rootFace: sampleAt(fields[name].rootFace, plane, point),
    edges: edgesIn(fields[name].edges[cell]),
  });
  return {
    backlash: readingAt(fields, limits, point),
    drive: flank('drive'),
    coast: flank('coast'),
    offHome: sampleAt(fields.offHome, plane, point),
  };
}

export function readingAt(
  fields: MapFields,
  limits: AxleLimits['backlash'],
  point: PlanePoint,
): BacklashReading {
  const finite = (mm: number) => (Number.isFinite(mm) ? mm : null);
  const least = finite(sampleAt(fields.least, fields.plane, point));
  const mean = finite(sampleAt(fields.mean, fields.plane, point));
  return judgeReading({ least, mean, binding: least !== null && least <= 0 }, limits);
}

/** Both marks clear of every edge in all cells round the place. */
export const isClearOfEdges = ({ plane, drive, coast }: MapFields, point: PlanePoint): boolean =>
  cellsRound(plane, point).every((cell) => drive.edges[cell] === 0 && coast.edges[cell] === 0);
