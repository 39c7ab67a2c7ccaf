import type { FlankName } from '../gearset/definition.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import type { Partner } from '../gearset/pinionFlank.ts';
import type { GridSize } from './grid.ts';

/**
 * The cubic is fitted over neighbours up to this many steps away, each step near these distances in u and v. A
 * wider fit averages away the curvature that matters: partners move less than 1 mm within ±0.35 mm of pose.
 */
export const REACH = 2;
export const STEP_U = 1 / 30;
export const STEP_V = 1 / 15;

/** How one grid direction is sampled for the fit: chart steps per grid step, chart steps per fit step. */
export interface Sampling {
  readonly refine: number;
  readonly stride: number;
  /** chart nodes added at each end */
  readonly pad: number;
}

/** A fold fit reaches further: x, ρ and ψ are smooth in (u, v) even where ψ(x, ρ) is not. */
export const FOLD_REACH = 4;

export const sampling = (nodes: number, fitStep: number): Sampling => {
  const gridStep = 2 / (nodes - 1);
  const refine = Math.max(1, Math.round(gridStep / fitStep));
  const stride = Math.max(1, Math.round((fitStep * refine) / gridStep));
  return { refine, stride, pad: FOLD_REACH * stride };
};

/** Partners on the grid widened by the fit's reach on every side, row-major. */
export interface Chart {
  readonly columns: number;
  readonly rows: number;
  /** flank coordinates of the first node, and steps from node to node */
  readonly from: { readonly u: number; readonly v: number };
  readonly step: { readonly u: number; readonly v: number };
  readonly partners: ReadonlyArray<Partner | null>;
  /** nodes beyond a fold of (u, v) → (x, ρ), where the pinion flank is not single-valued */
  readonly folded: ReadonlySet<number>;
}

export const samplePartners = (
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
  const from = { u: -1 - alongU.pad * stepU, v: -1 - alongV.pad * stepV };
  const chart = { columns, rows, from, step: { u: stepU, v: stepV }, partners };
  return { ...chart, folded: findFolds(chart, pinion.jacobian(0, 0) ?? Number.NaN) };
};

const findFolds = (chart: Omit<Chart, 'folded'>, orientation: number): Set<number> => {
  const { columns, rows, partners } = chart;
  const at = (i: number, j: number): Partner | null =>
    i < 0 || j < 0 || i >= columns || j >= rows ? null : partners[j * columns + i];
  const folded = new Set<number>();
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
      if (!(jacobian * orientation > 0)) folded.add(j * columns + i);
    }
  }
  return folded;
};

/** A neighbour of a node and how far off it lies on the chart. */
export interface Neighbour {
  readonly partner: Partner;
  /** flank coordinates */
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
}

/** Neighbours up to `reach` fit steps away that have a partner; those beyond a fold only on request. */
export const neighbours = (
  chart: Chart,
  column: number,
  row: number,
  strides: { readonly u: number; readonly v: number },
  reach: { readonly u: number; readonly v: number },
  withFolded: boolean,
): Neighbour[] => {
  const near: Neighbour[] = [];
  for (let b = -reach.v; b <= reach.v; b++) {
    for (let a = -reach.u; a <= reach.u; a++) {
      const i = column + a * strides.u;
      const j = row + b * strides.v;
      const index = j * chart.columns + i;
      const partner = chart.partners[index];
      if (!partner || (a === 0 && b === 0) || (!withFolded && chart.folded.has(index))) continue;
      const u = chart.from.u + i * chart.step.u;
      const v = chart.from.v + j * chart.step.v;
      near.push({ partner, u, v, du: a * STEP_U, dv: b * STEP_V });
    }
  }
  return near;
};
