import { NOT_MEETING } from '../contact/grid.ts';
import type { MeshSolver } from '../contact/meshSolver.ts';
import type { PosedFlank } from '../contact/posedFlank.ts';
import { FLANKS, type FlankName } from '../gearset/definition.ts';
import { solveNormalEquations } from '../math/leastSquares.ts';
import { seededNumbers } from './chance.ts';
import { BASIS_TERMS, FIT_RANGE, fillBasis, poseAt } from './poseBasis.ts';

/** Fields of a posed node that are fitted. */
const FIELDS = ['gap', 'phase', 'tipClearance'] as const;
const FIELD_COUNT = FIELDS.length;
const STRIDE = BASIS_TERMS * FIELD_COUNT;
/** Solved poses the quadratics are fitted to: three per coefficient. */
const FIT_POSES = 3 * BASIS_TERMS;
/** A node that meets in fewer of them is taken as never meeting. */
const LEAST_MEETING = Math.ceil(1.5 * BASIS_TERMS);
const FIT_SEED = 4041;

/**
 * Gap, phase and tip clearance of every node as quadratics of the pose, fitted to the real solver (docs/model.md §12).
 * STRIDE doubles per node: the coefficients of gap, then of phase, then of tip clearance.
 */
export type NodeSurfaces = Readonly<Record<FlankName, Float64Array>>;

/** Places as dense toward the borders as Chebyshev's: a fit is worst at the ends of its range. */
const fitPoses = (): readonly Float64Array[] => {
  const numbers = seededNumbers(FIT_SEED);
  return Array.from({ length: FIT_POSES }, () =>
    Float64Array.from(FIT_RANGE, (half) => half * Math.cos(Math.PI * numbers.uniform())),
  );
};

/** Solves the fit poses with the real solver and fits every node. Costs about as much as 60 solves. */
export const fitNodeSurfaces = (solver: MeshSolver, film: number): NodeSurfaces => {
  const nodes = solver.size.columns * solver.size.rows;
  const poses = fitPoses();
  const rows = poses.map((pose) => {
    const row = new Float64Array(BASIS_TERMS);
    fillBasis(pose, 0, row);
    return row;
  });
  const seen = { drive: [] as Float64Array[], coast: [] as Float64Array[] };
  const solution = solver.createSolution();
  for (const pose of poses) {
    solver.solve(poseAt(pose), film, solution);
    for (const flank of FLANKS) {
      const all = new Float64Array(nodes * FIELD_COUNT);
      FIELDS.forEach((field, f) => {
        all.set(solution[flank][field], f * nodes);
      });
      seen[flank].push(all);
    }
  }
  const whole = invertFit(rows);
  const fitFlank = (flank: FlankName): Float64Array => {
    const out = new Float64Array(nodes * STRIDE);
    for (let node = 0; node < nodes; node++) fitNode(seen[flank], rows, whole, node, nodes, out);
    return out;
  };
  return { drive: fitFlank('drive'), coast: fitFlank('coast') };
};

/** (BᵀB)⁻¹Bᵀ, BASIS_TERMS × poses. */
const invertFit = (rows: readonly Float64Array[]): readonly Float64Array[] =>
  rows.map((row) => {
    const matrix = normalMatrix(rows);
    const rhs = row.slice();
    if (!solveNormalEquations(matrix, rhs, BASIS_TERMS))
      throw new Error('the fit poses do not span the pose');
    return rhs;
  });

const normalMatrix = (rows: readonly Float64Array[]): Float64Array => {
  const matrix = new Float64Array(BASIS_TERMS * BASIS_TERMS);
  for (const row of rows) {
    for (let i = 0; i < BASIS_TERMS; i++) {
      for (let j = 0; j <= i; j++) matrix[i * BASIS_TERMS + j] += row[i] * row[j];
    }
  }
  return matrix;
};

const fitNode = (
  seen: readonly Float64Array[],
  rows: readonly Float64Array[],
  whole: readonly Float64Array[],
  node: number,
  nodes: number,
  out: Float64Array,
): void => {
  const at = node * STRIDE;
  const meeting = seen.flatMap((all, k) => (all[nodes + node] === NOT_MEETING ? [] : [k]));
  if (meeting.length < LEAST_MEETING) {
    out[at] = NOT_MEETING;
    out[at + BASIS_TERMS] = NOT_MEETING;
    out[at + 2 * BASIS_TERMS] = -NOT_MEETING;
    return;
  }
  const some = meeting.map((k) => rows[k]);
  const weights = meeting.length === rows.length ? whole : invertFit(some);
  meeting.forEach((k, m) => {
    for (let f = 0; f < FIELD_COUNT; f++) {
      const value = seen[k][f * nodes + node];
      for (let t = 0; t < BASIS_TERMS; t++) out[at + f * BASIS_TERMS + t] += weights[m][t] * value;
    }
  });
};

/** Writes gap, phase and tip clearance of every node at the pose whose basis is given. */
export const evaluateSurfaces = (c: Float64Array, b: Float64Array, out: PosedFlank): void => {
  const { gap, phase, tipClearance } = out;
  const b1 = b[1];
  const b2 = b[2];
  const b3 = b[3];
  const b4 = b[4];
  const b5 = b[5];
  const b6 = b[6];
  const b7 = b[7];
  const b8 = b[8];
  const b9 = b[9];
  const b10 = b[10];
  const b11 = b[11];
  const b12 = b[12];
  const b13 = b[13];
  const b14 = b[14];
  for (let node = 0, at = 0; node < gap.length; node++, at += STRIDE) {
    gap[node] =
      c[at] +
      b1 * c[at + 1] +
      b2 * c[at + 2] +
      b3 * c[at + 3] +
      b4 * c[at + 4] +
      b5 * c[at + 5] +
      b6 * c[at + 6] +
      b7 * c[at + 7] +
      b8 * c[at + 8] +
      b9 * c[at + 9] +
      b10 * c[at + 10] +
      b11 * c[at + 11] +
      b12 * c[at + 12] +
      b13 * c[at + 13] +
      b14 * c[at + 14];
    phase[node] =
      c[at + 15] +
      b1 * c[at + 16] +
      b2 * c[at + 17] +
      b3 * c[at + 18] +
      b4 * c[at + 19] +
      b5 * c[at + 20] +
      b6 * c[at + 21] +
      b7 * c[at + 22] +
      b8 * c[at + 23] +
      b9 * c[at + 24] +
      b10 * c[at + 25] +
      b11 * c[at + 26] +
      b12 * c[at + 27] +
      b13 * c[at + 28] +
      b14 * c[at + 29];
    tipClearance[node] =
      c[at + 30] +
      b1 * c[at + 31] +
      b2 * c[at + 32] +
      b3 * c[at + 33] +
      b4 * c[at + 34] +
      b5 * c[at + 35] +
      b6 * c[at + 36] +
      b7 * c[at + 37] +
      b8 * c[at + 38] +
      b9 * c[at + 39] +
      b10 * c[at + 40] +
      b11 * c[at + 41] +
      b12 * c[at + 42] +
      b13 * c[at + 43] +
      b14 * c[at + 44];
  }
};
