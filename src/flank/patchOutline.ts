import type { EdgeName, GridSize } from '../../sim/worker/protocol.ts';

/** What a stretch of a region's border is: the chosen separation, the reach of the pinion tip, or a flank border. */
export type BorderKind = 'level' | 'tip' | EdgeName;

/**
 * One closed border of a region in flank coordinates, counter-clockwise with u to the right and v up
 * (holes run clockwise). Stretch i runs from point i to point i + 1, the last one back to point 0.
 */
export interface BorderRing {
  readonly u: Float64Array;
  readonly v: Float64Array;
  /** mm, tip clearance at the points */
  readonly tip: Float64Array;
  readonly kind: readonly BorderKind[];
}

/** An open or closed run of points of one ring. */
export interface BorderRun {
  readonly u: readonly number[];
  readonly v: readonly number[];
  readonly closed: boolean;
}

/** What the tracer reads from a solved flank. */
export interface FlankField {
  readonly separation: Float32Array;
  readonly tipClearance: Float32Array;
}

/** A corner of the polygon that the region cuts out of one grid cell. */
interface Corner {
  /** the same for the cells that share the point, so that their pieces can be linked */
  key: number;
  column: number;
  row: number;
  tip: number;
  /** cell side the stretch to the next corner lies on, 0 root-ward … 3 toe-ward; LEVEL or TIP inside the cell */
  along: number;
}

const LEVEL = 4;
const TIP = 5;
const SIDE_EDGE: readonly EdgeName[] = ['root', 'heel', 'face', 'toe'];

interface Stretch {
  readonly from: Corner;
  readonly toKey: number;
  readonly kind: BorderKind;
}

/** Column and row steps from a cell's first node to its four corners, counter-clockwise. */
const CORNER_COLUMN = [0, 1, 1, 0] as const;
const CORNER_ROW = [0, 0, 1, 1] as const;

/**
 * Border of the region {separation ≤ level and tipClearance ≥ 0} on the flank grid, exact for values that
 * run linearly along the cell sides. `level` in mm. The tip's reach is cut along its own line through the
 * cells and not along the grid nodes, so that the mark ends in a smooth edge.
 */
export function traceRegion(field: FlankField, grid: GridSize, level: number): BorderRing[] {
  const { separation, tipClearance } = field;
  const { columns, rows } = grid;
  const stretches = new Map<number, Stretch>();
  const node = [0, 0, 0, 0];
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const first = row * columns + column;
      node[0] = first;
      node[1] = first + 1;
      node[2] = first + columns + 1;
      node[3] = first + columns;
      let inside = 0;
      let reached = 0;
      for (let k = 0; k < 4; k++) {
        if (separation[node[k]] <= level) inside |= 1 << k;
        if (tipClearance[node[k]] >= 0) reached |= 1 << k;
      }
      if (inside === 0 || reached === 0) continue;
      const onBorder = row === 0 || column === 0 || row === rows - 2 || column === columns - 2;
      if (inside === 15 && reached === 15 && !onBorder) continue;
      for (const polygon of cellPolygons(field, grid, row, column, node, inside, level)) {
        const piece = reached === 15 ? polygon : clipToReach(polygon, grid, row, column);
        for (let i = 0; i < piece.length; i++) {
          const kind = borderKind(piece[i].along, row, column, grid);
          if (kind === null) continue;
          const next = piece[(i + 1) % piece.length];
          stretches.set(piece[i].key, { from: piece[i], toKey: next.key, kind });
        }
      }
    }
  }
  return linkRings(stretches, grid);
}

/** Kind of a stretch, or null on a side that two cells share (it is no border of the region). */
function borderKind(along: number, row: number, column: number, grid: GridSize): BorderKind | null {
  if (along === LEVEL) return 'level';
  if (along === TIP) return 'tip';
  const outer =
    (along === 0 && row === 0) ||
    (along === 1 && column === grid.columns - 2) ||
    (along === 2 && row === grid.rows - 2) ||
    (along === 3 && column === 0);
  return outer ? SIDE_EDGE[along] : null;
}

/** Number of a grid side: horizontal ones first, then vertical ones. */
function sideNumber(grid: GridSize, row: number, column: number, side: number): number {
  const { columns, rows } = grid;
  if (side === 0) return row * columns + column;
  if (side === 2) return (row + 1) * columns + column;
  return rows * columns + row * columns + column + (side === 1 ? 1 : 0);
}

/** Keys: nodes, then level crossings on sides, then tip crossings on sides, then tip crossings inside cells. */
function sideKey(
  grid: GridSize,
  row: number,
  column: number,
  side: number,
  crossing: 'level' | 'tip',
): number {
  const nodes = grid.columns * grid.rows;
  return nodes * (crossing === 'level' ? 1 : 3) + sideNumber(grid, row, column, side);
}

/** The one or two convex polygons {separation ≤ level} of one cell. */
function cellPolygons(
  field: FlankField,
  grid: GridSize,
  row: number,
  column: number,
  node: readonly number[],
  inside: number,
  level: number,
): Corner[][] {
  const { separation, tipClearance } = field;
  const corner = (k: number): Corner => ({
    key: node[k],
    column: column + CORNER_COLUMN[k],
    row: row + CORNER_ROW[k],
    tip: tipClearance[node[k]],
    along: k,
  });
  const crossing = (side: number, along: number): Corner => {
    // from the lower node to the higher one, so that both cells of a side get the very same number
    const forward = side < 2;
    const a = forward ? side : (side + 1) % 4;
    const b = forward ? (side + 1) % 4 : side;
    const share = (level - separation[node[a]]) / (separation[node[b]] - separation[node[a]]);
    return {
      key: sideKey(grid, row, column, side, 'level'),
      column: column + CORNER_COLUMN[a] + share * (CORNER_COLUMN[b] - CORNER_COLUMN[a]),
      row: row + CORNER_ROW[a] + share * (CORNER_ROW[b] - CORNER_ROW[a]),
      tip: tipClearance[node[a]] + share * (tipClearance[node[b]] - tipClearance[node[a]]),
      along,
    };
  };

  if (inside === 5 || inside === 10) {
    const mean = (separation[node[0]] + separation[node[1]] + separation[node[2]] + separation[node[3]]) / 4;
    if (mean > level) {
      const k = inside === 5 ? 0 : 1;
      const m = k + 2;
      return [
        [corner(k), crossing(k, LEVEL), crossing((k + 3) % 4, (k + 3) % 4)],
        [corner(m), crossing(m, LEVEL), crossing((m + 3) % 4, (m + 3) % 4)],
      ];
    }
  }
  const polygon: Corner[] = [];
  for (let k = 0; k < 4; k++) {
    const here = (inside & (1 << k)) !== 0;
    const next = (inside & (1 << ((k + 1) % 4))) !== 0;
    if (here) polygon.push(corner(k));
    if (here !== next) polygon.push(crossing(k, here ? LEVEL : k));
  }
  return [polygon];
}

/** Cuts a convex cell polygon to tipClearance ≥ 0, which runs linearly along its sides. */
function clipToReach(polygon: readonly Corner[], grid: GridSize, row: number, column: number): Corner[] {
  const out: Corner[] = [];
  const interior = grid.columns * grid.rows * 5 + 4 * (row * grid.columns + column);
  let interiorCuts = 0;
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i];
    const b = polygon[(i + 1) % polygon.length];
    const aReached = a.tip >= 0;
    const bReached = b.tip >= 0;
    if (aReached) out.push(a);
    if (aReached === bReached) continue;
    const share = a.tip / (a.tip - b.tip);
    out.push({
      key: a.along === LEVEL ? interior + interiorCuts++ : sideKey(grid, row, column, a.along, 'tip'),
      column: a.column + share * (b.column - a.column),
      row: a.row + share * (b.row - a.row),
      tip: 0,
      along: aReached ? TIP : a.along,
    });
  }
  return out;
}

function linkRings(stretches: Map<number, Stretch>, grid: GridSize): BorderRing[] {
  const rings: BorderRing[] = [];
  for (const start of stretches.keys()) {
    if (!stretches.has(start)) continue;
    const points: Corner[] = [];
    const kind: BorderKind[] = [];
    let key = start;
    let stretch = stretches.get(key);
    while (stretch !== undefined) {
      stretches.delete(key);
      points.push(stretch.from);
      kind.push(stretch.kind);
      key = stretch.toKey;
      stretch = stretches.get(key);
    }
    rings.push({
      u: Float64Array.from(points, (p) => -1 + (2 * p.column) / (grid.columns - 1)),
      v: Float64Array.from(points, (p) => -1 + (2 * p.row) / (grid.rows - 1)),
      tip: Float64Array.from(points, (p) => p.tip),
      kind,
    });
  }
  return rings;
}

/** Longest stretches of a region's border whose kind is one of `kinds`, each as a run of points. */
export function borderRuns(rings: readonly BorderRing[], kinds: readonly BorderKind[]): BorderRun[] {
  const runs: BorderRun[] = [];
  for (const ring of rings) {
    const count = ring.kind.length;
    const wanted = (i: number): boolean => kinds.includes(ring.kind[i % count]);
    let first = 0;
    while (first < count && wanted(first)) first++;
    if (first === count) {
      runs.push({ u: Array.from(ring.u), v: Array.from(ring.v), closed: true });
      continue;
    }
    // `first` is unwanted: from there on no run can straddle the end of the list
    for (let i = first; i < first + count; i++) {
      if (!wanted(i)) continue;
      const u = [ring.u[i % count]];
      const v = [ring.v[i % count]];
      while (wanted(i)) {
        i++;
        u.push(ring.u[i % count]);
        v.push(ring.v[i % count]);
      }
      runs.push({ u, v, closed: false });
    }
  }
  return runs;
}
