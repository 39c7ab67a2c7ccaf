import type { EaseOffDefinition, FlankName } from '../gearset/definition.ts';
import { EASE_OFF_TERMS, easeOffCoefficients } from '../gearset/easeOff.ts';
import { type GearMesh, withEaseOff } from '../gearset/gearMesh.ts';
import { type Neighbour, neighbours, STEP_U, STEP_V, samplePartners, sampling } from './chart.ts';
import { CUBIC_TERMS, fitCubics } from './cubicFit.ts';
import { FOLD_STRIDE } from './foldedFlank.ts';
import { DISPLAY_GRID, type GridSize } from './grid.ts';
import { MeshSolver } from './meshSolver.ts';
import {
  buildNodeTables,
  INSIDE,
  NODE,
  NODE_STRIDE,
  type NodeTable,
  type NodeTables,
  radialStep,
  reachOfFolds,
} from './nodeTable.ts';

/** Doubles per node: the fits of the six terms, one after the other. */
const BASIS_STRIDE = EASE_OFF_TERMS * CUBIC_TERMS;

/** The terms of e(u, v) in the order of `easeOffCoefficients`. */
const TERMS: ReadonlyArray<(u: number, v: number) => number> = [
  () => 1,
  (u) => u,
  (_, v) => v,
  (u) => u * u,
  (u, v) => u * v,
  (_, v) => v * v,
];

/**
 * How every node's fit of the pinion flank answers to the six coefficients of the ease-off. The fits are least squares,
 * hence linear in what is fitted, and ψ_p = ψ + e/λ is linear in e (docs/model.md §6).
 */
const tabulateAnswers = (mesh: GearMesh, table: NodeTable): Float64Array => {
  const { size, data, flank } = table;
  const alongU = sampling(size.columns, STEP_U);
  const alongV = sampling(size.rows, STEP_V);
  const chart = samplePartners(mesh, flank, size, alongU, alongV);
  const strides = { u: alongU.stride, v: alongV.stride };
  const foldReach = reachOfFolds(mesh);
  const answers = new Float64Array(size.columns * size.rows * BASIS_STRIDE);
  for (let j = 0; j < size.rows; j++) {
    for (let i = 0; i < size.columns; i++) {
      const node = j * size.columns + i;
      const kind = data[node * NODE_STRIDE + NODE.kind];
      if (kind === 0) continue;
      const column = i * alongU.refine + alongU.pad;
      const row = j * alongV.refine + alongV.pad;
      const center = chart.partners[row * chart.columns + column];
      if (!center) continue;
      const folded = kind !== 1;
      const near = neighbours(chart, column, row, strides, folded ? foldReach : INSIDE, folded);
      const places = folded
        ? { p: near.map(({ du }) => du), q: near.map(({ dv }) => dv) }
        : {
            p: near.map(({ partner }) => partner.axial - center.axial),
            q: near.map(({ partner }) => radialStep(center, partner)),
          };
      const u = nodeCoordinate(i, size.columns);
      const v = nodeCoordinate(j, size.rows);
      const columns = TERMS.map((term) => {
        const here = term(u, v) / center.lever;
        return near.map((n: Neighbour) => term(n.u, n.v) / n.partner.lever - here);
      });
      fitCubics(places, columns, answers, node * BASIS_STRIDE);
    }
  }
  return answers;
};

const nodeCoordinate = (index: number, count: number): number => -1 + (2 * index) / (count - 1);

/** A copy of `table` with the ease-off changed by these coefficients, mm. */
const shiftTable = (table: NodeTable, answers: Float64Array, change: readonly number[]): NodeTable => {
  const data = table.data.slice();
  const folds = table.folds.slice();
  const { columns, rows } = table.size;
  const leverScale = 1 / table.ratio;
  const [c0, cu, cv, cuu, cuv, cvv] = change;
  for (let j = 0; j < rows; j++) {
    const v = nodeCoordinate(j, rows);
    for (let i = 0; i < columns; i++) {
      const node = j * columns + i;
      const at = node * NODE_STRIDE;
      const kind = data[at + NODE.kind];
      if (kind === 0) continue;
      const u = nodeCoordinate(i, columns);
      const e = c0 + u * (cu + u * cuu + v * cuv) + v * (cv + v * cvv);
      data[at + NODE.easeOffAngle] += e / (data[at + NODE.mz] * leverScale);
      const out = kind === 1 ? data : folds;
      const to = kind === 1 ? at + NODE.cubic : (kind - 2) * FOLD_STRIDE + 2 * CUBIC_TERMS;
      const from = node * BASIS_STRIDE;
      for (let k = 0; k < CUBIC_TERMS; k++) {
        out[to + k] +=
          c0 * answers[from + k] +
          cu * answers[from + CUBIC_TERMS + k] +
          cv * answers[from + 2 * CUBIC_TERMS + k] +
          cuu * answers[from + 3 * CUBIC_TERMS + k] +
          cuv * answers[from + 4 * CUBIC_TERMS + k] +
          cvv * answers[from + 5 * CUBIC_TERMS + k];
      }
    }
  }
  return { ...table, data, folds };
};

/**
 * Solvers of one gear set with any ease-off, without building it again: only what the ease-off enters is changed, and
 * exactly so, because it enters linearly (docs/model.md §6). A node keeps the kind of fit it was given when built.
 * Building costs about twice a `MeshSolver`, a changed ease-off about as much as a few solves.
 */
export class EaseOffShift {
  readonly mesh: GearMesh;
  readonly size: GridSize;
  private readonly tables: NodeTables;
  private readonly answers: Readonly<Record<FlankName, Float64Array>>;
  private readonly built: Readonly<Record<FlankName, readonly number[]>>;

  constructor(mesh: GearMesh, size: GridSize = DISPLAY_GRID) {
    this.mesh = mesh;
    this.size = size;
    this.tables = buildNodeTables(mesh, size);
    this.answers = {
      drive: tabulateAnswers(mesh, this.tables.drive),
      coast: tabulateAnswers(mesh, this.tables.coast),
    };
    const { easeOff } = mesh.definition;
    this.built = { drive: easeOffCoefficients(easeOff.drive), coast: easeOffCoefficients(easeOff.coast) };
  }

  /**
   * A solver of the gear set with this ease-off and its own design backlash; it shares nothing that a later call changes.
   * @throws UnmakeableError (`ease-off-not-a-hill`)
   */
  solverFor(easeOff: Readonly<Record<FlankName, EaseOffDefinition>>): MeshSolver {
    const mesh = withEaseOff(this.mesh, easeOff);
    const shifted = (flank: FlankName): NodeTable => {
      const change = easeOffCoefficients(easeOff[flank]).map((c, k) => c - this.built[flank][k]);
      return shiftTable(this.tables[flank], this.answers[flank], change);
    };
    return new MeshSolver(mesh, this.size, { drive: shifted('drive'), coast: shifted('coast') });
  }
}
