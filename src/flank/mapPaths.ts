import type { FlankProjection } from './flankGeometry.ts';
import type { BorderRing, BorderRun } from './patchOutline.ts';
import { keptPoints } from './simplify.ts';

/** mm on the map that a border may be off its curve: a fraction of a pixel, and a fifth of the points to draw. */
const STRAIGHT = 0.006;

/** Map millimetres in a path: 1 µm is far below a pixel at any size. */
function round(mm: number): number {
  return Math.round(mm * 1000) / 1000;
}

function polyline(u: ArrayLike<number>, v: ArrayLike<number>, projection: FlankProjection): string {
  const x = Float64Array.from(u, (value) => projection.mapX(value));
  const y = Float64Array.from(u, (value, i) => projection.mapY(value, v[i]));
  return keptPoints(x, y, STRAIGHT)
    .map((i, k) => `${k === 0 ? 'M' : 'L'}${round(x[i])} ${round(y[i])}`)
    .join('');
}

/** Closed borders as one SVG path in map mm; holes run the other way round, so either fill rule is right. */
export function ringsPath(rings: readonly BorderRing[], projection: FlankProjection): string {
  return rings.map((ring) => `${polyline(ring.u, ring.v, projection)}Z`).join('');
}

export function runsPath(runs: readonly BorderRun[], projection: FlankProjection): string {
  return runs.map((run) => polyline(run.u, run.v, projection) + (run.closed ? 'Z' : '')).join('');
}

/** Straight lines between flank points, map mm. */
function linePath(points: readonly (readonly [u: number, v: number])[], projection: FlankProjection): string {
  return polyline(
    points.map(([u]) => u),
    points.map(([, v]) => v),
    projection,
  );
}

export interface ToothPaths {
  /** the working flank, from the working root to the face */
  readonly working: string;
  /** between the working root and the root line */
  readonly belowWorking: string;
  readonly whole: string;
  /** mid-length and mid-height lines */
  readonly middle: string;
  /** short marks at half way from the middle to each edge */
  readonly ticks: string;
}

/** The parts of a map that do not depend on the pose, as SVG paths in map mm. */
export function toothPaths(projection: FlankProjection): ToothPaths {
  const at = (line: 'face' | 'workingRoot' | 'root', u: number): string =>
    `${round(projection.mapX(u))} ${round(projection.lineY(line, u))}`;
  const band = (top: 'face' | 'workingRoot', bottom: 'workingRoot' | 'root'): string =>
    `M${at(top, -1)}L${at(top, 1)}L${at(bottom, 1)}L${at(bottom, -1)}Z`;
  const tick = 0.035 * projection.bounds.height;
  const alongTicks = [-0.5, 0.5].map((u) => {
    const x = round(projection.mapX(u));
    const top = round(projection.lineY('face', u));
    const bottom = round(projection.lineY('workingRoot', u));
    return `M${x} ${top}v${round(tick)}M${x} ${bottom}v${round(-tick)}`;
  });
  const upTicks = [-0.5, 0.5].map((v) =>
    [-1, 1]
      .map((u) => {
        const x = projection.mapX(u);
        return `M${round(x)} ${round(projection.mapY(u, v))}h${round(x > 0 ? -tick : tick)}`;
      })
      .join(''),
  );
  return {
    working: band('face', 'workingRoot'),
    belowWorking: band('workingRoot', 'root'),
    whole: band('face', 'root'),
    middle: `${linePath(
      [
        [0, -1],
        [0, 1],
      ],
      projection,
    )}${linePath(
      [
        [-1, 0],
        [1, 0],
      ],
      projection,
    )}`,
    ticks: [...alongTicks, ...upTicks].join(''),
  };
}
