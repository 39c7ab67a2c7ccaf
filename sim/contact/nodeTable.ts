import type { FlankName } from '../gearset/definition.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import type { Partner } from '../gearset/pinionFlank.ts';
import { pinionTipRadius } from '../gearset/pinionTip.ts';
import { wrapAngle } from '../math/angles.ts';
import { solveNormalEquations } from '../math/leastSquares.ts';
import { cross } from '../math/vec3.ts';
import type { GridSize } from './grid.ts';

/** Doubles per node in a node table; the meaning of each slot is `NODE`. */
export const NODE_STRIDE = 26;

/**
 * Slots of one node. The ring point is stored already turned to its design contact, so every pose only
 * sees small differences and needs no trigonometry (docs/model.md §9).
 */
export const NODE = {
  /** ring point, fixed frame, mm */
  x: 0,
  y: 1,
  z: 2,
  /** unit normal out of the ring tooth */
  nx: 3,
  ny: 4,
  nz: 5,
  /** m⃗ = X×N, mm */
  mx: 6,
  my: 7,
  mz: 8,
  /** design contact phase φ, rad */
  phase: 9,
  /** ρ² and 1/(2ρ) of the design partner */
  radiusSquared: 10,
  halfInverseRadius: 11,
  /** e/λ, rad */
  easeOffAngle: 12,
  /** nine coefficients of Δψ(dx, dq): x, q, xx, xq, qq, xxx, xxq, xqq, qqq; dq = (ρ² − ρ0²)/(2ρ0) */
  cubic: 13,
  /** ρ_tip − ρ at the design partner, its slope and half curvature along x */
  tip: 22,
  tipSlope: 23,
  tipCurvature: 24,
  /** 1 when the ring point has a design partner, else 0 */
  meets: 25,
} as const;

const CUBIC_TERMS = 9;
/**
 * The cubic is fitted over neighbours up to this many steps away, each step near these distances in u and v. A
 * wider fit averages away the curvature that matters: partners move less than 1 mm within ±0.35 mm of pose.
 */
const REACH = 2;
const STEP_U = 1 / 30;
const STEP_V = 1 / 15;

/** How one grid direction is sampled for the fit: chart steps per grid step, chart steps per fit step. */
interface Sampling {
  readonly refine: number;
  readonly stride: number;
  /** chart nodes added at each end */
  readonly pad: number;
}

const sampling = (nodes: number, fitStep: number): Sampling => {
  const gridStep = 2 / (nodes - 1);
  const refine = Math.max(1, Math.round(gridStep / fitStep));
  const stride = Math.max(1, Math.round((fitStep * refine) / gridStep));
  return { refine, stride, pad: REACH * stride };
};

/** Everything about one flank's nodes that does not depend on the pose. */
export interface NodeTable {
  readonly flank: FlankName;
  readonly size: GridSize;
  /** NODE_STRIDE doubles per node, node index = row·columns + column */
  readonly data: Float64Array;
  /** sgn λ: which way the flank closes */
  readonly closing: -1 | 1;
}

/** Partners on the grid widened by the fit's reach on every side, row-major. */
interface Chart {
  readonly columns: number;
  readonly rows: number;
  readonly partners: Array<Partner | null>;
}

const samplePartners = (
  mesh: GearMesh,
  flank: FlankName,
  size: GridSize,
  alongU: Sampling,
  alongV: Sampling,
): Chart => {
  const { pinion } = mesh.flanks[flank];
  const columns = (size.columns - 1) * alongU.refine + 1 + 2 * alongU.pad;
  const rows = (size.rows - 1) * alongV.refine + 1 + 2 * alongV.pad;
  const stepU = 2 / ((size.columns - 1) * alongU.refine);
  const stepV = 2 / ((size.rows - 1) * alongV.refine);
  const partners: Array<Partner | null> = [];
  for (let j = 0; j < rows; j++) {
    const v = -1 + (j - alongV.pad) * stepV;
    for (let i = 0; i < columns; i++) partners.push(pinion.partner(-1 + (i - alongU.pad) * stepU, v));
  }
  const chart = { columns, rows, partners };
  dropFolds(chart, pinion.jacobian(0, 0) ?? Number.NaN);
  return chart;
};

/** Beyond a fold of (u, v) → (x, ρ) the pinion flank is not single-valued: those partners are left out. */
const dropFolds = (chart: Chart, orientation: number): void => {
  const { columns, rows, partners } = chart;
  const at = (i: number, j: number): Partner | null =>
    i < 0 || j < 0 || i >= columns || j >= rows ? null : partners[j * columns + i];
  const folded: number[] = [];
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const here = at(i, j);
      if (!here) continue;
      const east = at(i + 1, j) ?? here;
      const west = at(i - 1, j) ?? here;
      const north = at(i, j + 1) ?? here;
      const south = at(i, j - 1) ?? here;
      const jacobian =
        (east.axial - west.axial) * (north.radius - south.radius) -
        (north.axial - south.axial) * (east.radius - west.radius);
      if (!(jacobian * orientation > 0)) folded.push(j * columns + i);
    }
  }
  for (const index of folded) partners[index] = null;
};

interface FitScratch {
  readonly matrix: Float64Array;
  readonly rhs: Float64Array;
  readonly terms: Float64Array;
}

const fillTerms = (terms: Float64Array, x: number, q: number): void => {
  terms[0] = x;
  terms[1] = q;
  terms[2] = x * x;
  terms[3] = x * q;
  terms[4] = q * q;
  terms[5] = x * x * x;
  terms[6] = x * x * q;
  terms[7] = x * q * q;
  terms[8] = q * q * q;
};

/** Neighbours of a node within the fit's reach that have a partner. */
const neighbours = (
  chart: Chart,
  column: number,
  row: number,
  strideU: number,
  strideV: number,
): Partner[] => {
  const near: Partner[] = [];
  for (let b = -REACH; b <= REACH; b++) {
    for (let a = -REACH; a <= REACH; a++) {
      const partner = chart.partners[(row + b * strideV) * chart.columns + column + a * strideU];
      if (partner && (a !== 0 || b !== 0)) near.push(partner);
    }
  }
  return near;
};

/**
 * Fits Δψ of the pinion flank about `center` as a cubic in (dx, dq), exact at the node itself
 * (docs/model.md §6). Nine coefficients go to `out` at `offset`; false when too few neighbours remain.
 */
const fitCubic = (
  center: Partner,
  near: readonly Partner[],
  { matrix, rhs, terms }: FitScratch,
  out: Float64Array,
  offset: number,
): boolean => {
  const dqOf = (partner: Partner) =>
    (partner.radius * partner.radius - center.radius * center.radius) / (2 * center.radius);
  // Unit-sized unknowns keep the normal equations well conditioned.
  let scale = 0;
  for (const partner of near) {
    scale = Math.max(scale, Math.abs(partner.axial - center.axial), Math.abs(dqOf(partner)));
  }
  matrix.fill(0);
  rhs.fill(0);
  for (const partner of near) {
    fillTerms(terms, (partner.axial - center.axial) / scale, dqOf(partner) / scale);
    const value = wrapAngle(partner.flankPolar - center.flankPolar);
    for (let p = 0; p < CUBIC_TERMS; p++) {
      rhs[p] += terms[p] * value;
      for (let q = 0; q <= p; q++) matrix[p * CUBIC_TERMS + q] += terms[p] * terms[q];
    }
  }
  if (!solveNormalEquations(matrix, rhs, CUBIC_TERMS)) return false;
  for (let p = 0; p < CUBIC_TERMS; p++) {
    const order = p < 2 ? 1 : p < 5 ? 2 : 3;
    out[offset + p] = rhs[p] / scale ** order;
  }
  return true;
};

const TIP_STEP = 0.5;

/** ρ_tip − ρ at the partner and its first two derivatives along x, on a table of the tip shared by all nodes. */
const writeTip = (tipAt: (x: number) => number, partner: Partner, data: Float64Array, at: number): void => {
  const here = tipAt(partner.axial);
  const after = tipAt(partner.axial + TIP_STEP);
  const before = tipAt(partner.axial - TIP_STEP);
  data[at + NODE.tip] = here - partner.radius;
  data[at + NODE.tipSlope] = (after - before) / (2 * TIP_STEP);
  data[at + NODE.tipCurvature] = (after - 2 * here + before) / (2 * TIP_STEP * TIP_STEP);
};

/** Cubic-interpolated table of the pinion tip radius over the axial range of the partners. */
const tabulateTip = (mesh: GearMesh, partners: ReadonlyArray<Partner | null>): ((x: number) => number) => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const partner of partners) {
    if (!partner) continue;
    low = Math.min(low, partner.axial);
    high = Math.max(high, partner.axial);
  }
  low -= 3;
  high += 3;
  const count = Math.max(8, Math.ceil((high - low) / 0.75));
  const step = (high - low) / (count - 1);
  const radii = Array.from({ length: count }, (_, i) =>
    pinionTipRadius(mesh.pitch, mesh.blank, low + i * step),
  );
  return (x) => {
    const s = (x - low) / step;
    const i = Math.min(count - 3, Math.max(1, Math.floor(s)));
    const t = s - i;
    const [p0, p1, p2, p3] = [radii[i - 1], radii[i], radii[i + 1], radii[i + 2]];
    return (
      (-p0 * t * (t - 1) * (t - 2)) / 6 +
      (p1 * (t + 1) * (t - 1) * (t - 2)) / 2 -
      (p2 * (t + 1) * t * (t - 2)) / 2 +
      (p3 * (t + 1) * t * (t - 1)) / 6
    );
  };
};

/** Tabulates one flank's nodes: built once per gear set and grid, read by every pose. */
export const buildNodeTable = (mesh: GearMesh, flank: FlankName, size: GridSize): NodeTable => {
  const alongU = sampling(size.columns, STEP_U);
  const alongV = sampling(size.rows, STEP_V);
  const chart = samplePartners(mesh, flank, size, alongU, alongV);
  const tipAt = tabulateTip(mesh, chart.partners);
  const scratch: FitScratch = {
    matrix: new Float64Array(CUBIC_TERMS * CUBIC_TERMS),
    rhs: new Float64Array(CUBIC_TERMS),
    terms: new Float64Array(CUBIC_TERMS),
  };
  const data = new Float64Array(size.columns * size.rows * NODE_STRIDE);
  let closing = 0;
  for (let j = 0; j < size.rows; j++) {
    for (let i = 0; i < size.columns; i++) {
      const at = (j * size.columns + i) * NODE_STRIDE;
      const column = i * alongU.refine + alongU.pad;
      const row = j * alongV.refine + alongV.pad;
      const partner = chart.partners[row * chart.columns + column];
      if (!partner) continue;
      const near = neighbours(chart, column, row, alongU.stride, alongV.stride);
      if (!fitCubic(partner, near, scratch, data, at + NODE.cubic)) continue;
      const { point, normal } = partner;
      data.set(point, at + NODE.x);
      data.set(normal, at + NODE.nx);
      data.set(cross(point, normal), at + NODE.mx);
      data[at + NODE.phase] = partner.phase;
      data[at + NODE.radiusSquared] = partner.radius * partner.radius;
      data[at + NODE.halfInverseRadius] = 0.5 / partner.radius;
      data[at + NODE.easeOffAngle] = partner.easeOff / partner.lever;
      writeTip(tipAt, partner, data, at);
      data[at + NODE.meets] = 1;
      closing = Math.sign(partner.lever);
    }
  }
  return { flank, size, data, closing: closing < 0 ? -1 : 1 };
};
