import type { FlankName } from '../../sim/gearset/definition.ts';
import {
  EDGES,
  type EdgeName,
  type FlankResult,
  type GridSize,
  type SolveResult,
} from '../../sim/worker/protocol.ts';
import type { FlankProjection } from './flankGeometry.ts';
import { ringsPath, runsPath } from './mapPaths.ts';
import { type BorderKind, type BorderRing, borderRuns, traceRegion } from './patchOutline.ts';
import { smoothBorders } from './smoothBorder.ts';

/** Everything of a flank map that changes with a solve, as SVG paths in map mm. */
export interface PatchScene {
  /** the mark; empty when there is none */
  readonly patch: string;
  /** stretches of the mark that end at an edge, one entry per edge of the report */
  readonly edges: readonly { readonly edge: EdgeName; readonly path: string }[];
  /** where the reach of the pinion tip ends on the working flank */
  readonly reach: string;
  /** middle of the mark, map mm */
  readonly centre: { readonly x: number; readonly y: number } | null;
}

export interface ContourLine {
  /** mm */
  readonly level: number;
  readonly path: string;
  /** where its label goes, map mm */
  readonly label: { readonly x: number; readonly y: number };
}

/** The pinion tip is what ends a mark at the root: both kinds of border are contact at the root edge. */
const KINDS_OF_EDGE: Readonly<Record<EdgeName, readonly BorderKind[]>> = {
  toe: ['toe'],
  heel: ['heel'],
  face: ['face'],
  root: ['root', 'tip'],
};

export function patchScene(
  result: FlankResult,
  grid: GridSize,
  film: number,
  projection: FlankProjection,
): PatchScene {
  const rings = smoothBorders(traceRegion(result, grid, film));
  const reached = traceRegion(
    { separation: result.tipClearance, tipClearance: result.tipClearance },
    grid,
    Number.POSITIVE_INFINITY,
  );
  const { toeHeel, rootFace } = result;
  return {
    patch: ringsPath(rings, projection),
    edges: EDGES.filter((edge) => result.edges.includes(edge)).map((edge) => ({
      edge,
      path: edgePath(rings, edge, projection),
    })),
    reach: runsPath(borderRuns(reached, ['tip']), projection),
    centre:
      toeHeel === null || rootFace === null
        ? null
        : { x: projection.mapX(toeHeel), y: projection.mapY(toeHeel, rootFace) },
  };
}

const kept = new WeakMap<FlankResult, { readonly projection: FlankProjection; readonly scene: PatchScene }>();

/** The scene of one flank of a result, traced once: what the map showed a moment ago costs nothing to show again. */
export function keptPatchScene(
  result: SolveResult,
  flank: FlankName,
  projection: FlankProjection,
): PatchScene {
  const found = kept.get(result[flank]);
  if (found?.projection === projection) return found.scene;
  const scene = patchScene(result[flank], result.grid, result.film, projection);
  kept.set(result[flank], { projection, scene });
  return scene;
}

function edgePath(rings: readonly BorderRing[], edge: EdgeName, projection: FlankProjection): string {
  const runs = borderRuns(rings, KINDS_OF_EDGE[edge]);
  if (runs.length > 0) return runsPath(runs, projection);
  // The report counts a mark that comes very near the tip's reach as root contact: show the nearest point.
  let nearest: readonly [number, number] | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    for (let i = 0; i < ring.u.length; i++) {
      const distance = edgeDistance(ring, i, edge);
      if (distance < least) {
        least = distance;
        nearest = [ring.u[i], ring.v[i]];
      }
    }
  }
  if (nearest === null) return '';
  // a stretch without length is drawn as a dot by its round caps
  const [u, v] = nearest;
  return runsPath([{ u: [u, u], v: [v, v], closed: false }], projection);
}

function edgeDistance(ring: BorderRing, i: number, edge: EdgeName): number {
  if (edge === 'toe') return 1 + ring.u[i];
  if (edge === 'heel') return 1 - ring.u[i];
  if (edge === 'face') return 1 - ring.v[i];
  return ring.tip[i];
}

/**
 * Lines of equal separation where a pinion tooth is opposite; `levels` in mm. Levels that do not occur are left out.
 * Labels stand in a row from the middle of the mark toward the end with more room.
 */
export function contourLines(
  result: FlankResult,
  grid: GridSize,
  levels: readonly number[],
  projection: FlankProjection,
): ContourLine[] {
  const [u0, v0] = rowStart(result, grid);
  const towards = u0 <= 0 ? 1 : -1;
  const lines: ContourLine[] = [];
  for (const level of levels) {
    const runs = borderRuns(smoothBorders(traceRegion(result, grid, level)), ['level']);
    if (runs.length === 0) continue;
    let best = Number.POSITIVE_INFINITY;
    let label = { x: 0, y: 0 };
    for (const run of runs) {
      for (let i = 0; i < run.u.length; i++) {
        // angle between the row's direction and the line from its start to this point
        const angle = Math.abs(Math.atan2(run.v[i] - v0, towards * (run.u[i] - u0)));
        if (angle < best) {
          best = angle;
          label = { x: projection.mapX(run.u[i]), y: projection.mapY(run.u[i], run.v[i]) };
        }
      }
    }
    lines.push({ level, path: runsPath(runs, projection), label });
  }
  return lines;
}

/** Middle of the mark, or the point of least separation when there is no mark. */
function rowStart(result: FlankResult, grid: GridSize): readonly [number, number] {
  if (result.toeHeel !== null && result.rootFace !== null) return [result.toeHeel, result.rootFace];
  let least = 0;
  for (let i = 1; i < result.separation.length; i++) {
    if (result.tipClearance[i] >= 0 && result.separation[i] < result.separation[least]) least = i;
  }
  const column = least % grid.columns;
  const row = (least - column) / grid.columns;
  return [-1 + (2 * column) / (grid.columns - 1), -1 + (2 * row) / (grid.rows - 1)];
}
