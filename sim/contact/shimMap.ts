import type { MeshSolution, MeshSolver } from './meshSolver.ts';
import type { Pose } from './pose.ts';

/** `count` evenly spaced places from `low` to `high` mm, both included. */
export interface MapAxis {
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/** The plane that is solved: columns along pinionIn, rows along ringAway, the housing errors fixed. */
export interface ShimMapPlane {
  readonly pinionIn: MapAxis;
  readonly ringAway: MapAxis;
  /** mm */
  readonly offsetError: number;
  /** degrees */
  readonly shaftAngleError: number;
  /** mm */
  readonly film: number;
}

/** ±0.3 mm in hundredths: 61 × 61 states, inside the range the solver is made for (docs/model.md §6). */
export const SHIM_MAP_AXIS: MapAxis = { low: -0.3, high: 0.3, count: 61 };

/** What the map keeps of one flank; cell = row·columns + column. */
export interface FlankMapCells {
  /** centre of the mark, flank coordinates; NaN without a mark and where not solved yet */
  readonly toeHeel: Float64Array;
  readonly rootFace: Float64Array;
  /** sum of EDGE_BIT */
  readonly edges: Uint8Array;
}

/** Solved states over a plane (docs/model.md §9); caller-owned. */
export interface ShimMap {
  readonly plane: ShimMapPlane;
  readonly columns: number;
  readonly rows: number;
  readonly drive: FlankMapCells;
  readonly coast: FlankMapCells;
  /** mm square to the flank, least over a pitch; NaN without a common phase of contact and where not solved yet */
  readonly dial: Float64Array;
  /** mm, the mean over a pitch: what an upper limit is held against */
  readonly dialMean: Float64Array;
  /** 1 where the teeth bind */
  readonly binding: Uint8Array;
  /** 1 where the cell is solved; all other arrays say nothing elsewhere */
  readonly solved: Uint8Array;
}

const checkAxis = (name: string, { low, high, count }: MapAxis): void => {
  if (!Number.isFinite(low) || !Number.isFinite(high) || !(low < high)) {
    throw new RangeError(`${name}: ${low} to ${high} mm; low must be finite and below high`);
  }
  if (!Number.isInteger(count) || count < 2) {
    throw new RangeError(`${name}.count: ${count}; a whole number of 2 or more is allowed`);
  }
};

const createCells = (count: number): FlankMapCells => ({
  toeHeel: new Float64Array(count).fill(Number.NaN),
  rootFace: new Float64Array(count).fill(Number.NaN),
  edges: new Uint8Array(count),
});

/**
 * An empty map.
 * @throws RangeError for an axis that does not rise or has fewer than two places
 */
export const createShimMap = (plane: ShimMapPlane): ShimMap => {
  checkAxis('pinionIn', plane.pinionIn);
  checkAxis('ringAway', plane.ringAway);
  const columns = plane.pinionIn.count;
  const rows = plane.ringAway.count;
  const count = columns * rows;
  return {
    plane,
    columns,
    rows,
    drive: createCells(count),
    coast: createCells(count),
    dial: new Float64Array(count).fill(Number.NaN),
    dialMean: new Float64Array(count).fill(Number.NaN),
    binding: new Uint8Array(count),
    solved: new Uint8Array(count),
  };
};

const placeOn = ({ low, high, count }: MapAxis, index: number): number =>
  low + ((high - low) * index) / (count - 1);

/** Pose of a cell. */
export const poseOfCell = ({ plane, columns }: ShimMap, cell: number): Pose => ({
  pinionIn: placeOn(plane.pinionIn, cell % columns),
  ringAway: placeOn(plane.ringAway, Math.floor(cell / columns)),
  offsetError: plane.offsetError,
  shaftAngleError: plane.shaftAngleError,
});

/** Passes from coarse to fine: each solves every stride-th row and column, and the last ones, as far as still missing. */
const SHIM_MAP_STRIDES = [8, 4, 2, 1] as const;
export type ShimMapStride = (typeof SHIM_MAP_STRIDES)[number];

/** Cells in the order of solving, and where in it each pass ends. */
export interface ShimMapOrder {
  readonly cells: Uint32Array;
  readonly passes: ReadonlyArray<{ readonly stride: ShimMapStride; readonly end: number }>;
}

export const orderShimMap = ({ columns, rows }: Pick<ShimMap, 'columns' | 'rows'>): ShimMapOrder => {
  const cells = new Uint32Array(columns * rows);
  const taken = new Uint8Array(columns * rows);
  let end = 0;
  const passes = SHIM_MAP_STRIDES.map((stride) => {
    for (let row = 0; row < rows; row++) {
      if (row % stride !== 0 && row !== rows - 1) continue;
      for (let column = 0; column < columns; column++) {
        if (column % stride !== 0 && column !== columns - 1) continue;
        const cell = row * columns + column;
        if (taken[cell]) continue;
        taken[cell] = 1;
        cells[end++] = cell;
      }
    }
    return { stride, end };
  });
  return { cells, passes };
};

/** A piece of work done: `cells[from … to)` of the order are solved. */
export interface ShimMapChunk {
  readonly from: number;
  readonly to: number;
  readonly total: number;
  /** stride of the finest pass that covers the whole plane by now; null before the first */
  readonly covered: ShimMapStride | null;
}

/**
 * Solves the map piece by piece, coarse first (docs/model.md §9): a chunk of at most `chunkCells` cells per step, ending
 * where a pass ends. Stopping the iteration cancels; going on, also with a new iterator over the same map, leaves solved
 * cells as they are. `scratch` belongs to `solver` and is overwritten; it may serve other solves between the steps.
 * @throws RangeError when `chunkCells` is not a whole number of 1 or more
 */
export function* solveShimMap(
  solver: MeshSolver,
  map: ShimMap,
  scratch: MeshSolution,
  chunkCells: number,
): Generator<ShimMapChunk, void, void> {
  if (!Number.isInteger(chunkCells) || chunkCells < 1) {
    throw new RangeError(`chunkCells: ${chunkCells}; a whole number of 1 or more is allowed`);
  }
  const { cells, passes } = orderShimMap(map);
  let covered: ShimMapStride | null = null;
  let from = 0;
  for (const { stride, end } of passes) {
    while (from < end) {
      const to = Math.min(from + chunkCells, end);
      for (let i = from; i < to; i++) {
        if (!map.solved[cells[i]]) solveCell(solver, map, scratch, cells[i]);
      }
      if (to === end) covered = stride;
      yield { from, to, total: cells.length, covered };
      from = to;
    }
  }
}

const solveCell = (solver: MeshSolver, map: ShimMap, scratch: MeshSolution, cell: number): void => {
  solver.solve(poseOfCell(map, cell), map.plane.film, scratch);
  keepFlank(map.drive, cell, scratch.drive.patch);
  keepFlank(map.coast, cell, scratch.coast.patch);
  map.dial[cell] = scratch.backlash.normal;
  map.dialMean[cell] = scratch.backlash.normalMean;
  map.binding[cell] = scratch.backlash.normal <= 0 ? 1 : 0;
  map.solved[cell] = 1;
};

const keepFlank = (
  cells: FlankMapCells,
  cell: number,
  patch: { readonly toeHeel: number; readonly rootFace: number; readonly edges: number },
): void => {
  cells.toeHeel[cell] = patch.toeHeel;
  cells.rootFace[cell] = patch.rootFace;
  cells.edges[cell] = patch.edges;
};
