import type { GridSize } from '../contact/grid.ts';
import { conjugateContact, type PinionAxis } from '../gearset/conjugate.ts';
import type { FlankName } from '../gearset/definition.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import { RAD_PER_DEG } from '../math/angles.ts';
import { solveNormalEquations } from '../math/leastSquares.ts';
import { POSE_COUNT } from './poseBasis.ts';

/**
 * Where on the chart of design partners a node finds its partner in a pose: (u, v) plus these slopes times the pose
 * (docs/model.md §12). PARTNER_STRIDE doubles per node: ∂u/∂pose (four), ∂v/∂pose (four); per mm, per degree.
 */
export type PartnerMap = Float64Array;
export const PARTNER_STRIDE = 2 * POSE_COUNT;

const STEP_U = 1e-3;
/** mm and degrees */
const STEP_POSE = 0.02;
/** Places per direction at which the slopes are computed; between them a cubic surface holds. */
const PLACES = 7;
const SURFACE_TERMS = 10;

const surfaceTerms = (u: number, v: number): readonly number[] => [
  1,
  u,
  v,
  u * u,
  u * v,
  v * v,
  u * u * u,
  u * u * v,
  u * v * v,
  v * v * v,
];

const axisOf = (mesh: GearMesh, field: number, step: number): PinionAxis => {
  const { offset } = mesh.pitch;
  const outward = mesh.mirrored ? -step : step;
  if (field === 0) return { origin: [-step, offset, 0], direction: [1, 0, 0] };
  if (field === 1) return { origin: [0, offset, step], direction: [1, 0, 0] };
  if (field === 2) return { origin: [0, offset + outward, 0], direction: [1, 0, 0] };
  const sigma = step * RAD_PER_DEG;
  return { origin: [0, offset, 0], direction: [Math.cos(sigma), 0, Math.sin(sigma)] };
};

/** The eight slopes at one place; null where something does not meet. */
const slopesAt = (mesh: GearMesh, flank: FlankName, u: number, v: number): Float64Array | null => {
  const { ring, pinion } = mesh.flanks[flank];
  const point = ring.tryAt(u, v);
  const east = pinion.partner(u + STEP_U, v);
  const west = pinion.partner(u - STEP_U, v);
  const north = pinion.partner(u, v + STEP_U);
  const south = pinion.partner(u, v - STEP_U);
  const here = pinion.partner(u, v);
  if (!point || !east || !west || !north || !south || !here) return null;
  const xu = (east.axial - west.axial) / (2 * STEP_U);
  const ru = (east.radius - west.radius) / (2 * STEP_U);
  const xv = (north.axial - south.axial) / (2 * STEP_U);
  const rv = (north.radius - south.radius) / (2 * STEP_U);
  const determinant = xu * rv - xv * ru;
  const slopes = new Float64Array(PARTNER_STRIDE);
  for (let k = 0; k < POSE_COUNT; k++) {
    const after = conjugateContact(point, mesh.pitch.ratio, axisOf(mesh, k, STEP_POSE), here.phase);
    const before = conjugateContact(point, mesh.pitch.ratio, axisOf(mesh, k, -STEP_POSE), here.phase);
    if (!after || !before) return null;
    const dx = (after.axial - before.axial) / (2 * STEP_POSE);
    const dr = (after.radius - before.radius) / (2 * STEP_POSE);
    slopes[k] = (dx * rv - dr * xv) / determinant;
    slopes[POSE_COUNT + k] = (dr * xu - dx * ru) / determinant;
  }
  return slopes.every((slope) => Math.abs(slope) < 2) ? slopes : null;
};

/** Tabulates one flank; near a fold, where the slopes run away, the smooth surface through the rest stands in. */
export const tabulatePartners = (mesh: GearMesh, flank: FlankName, size: GridSize): PartnerMap => {
  const matrix = new Float64Array(SURFACE_TERMS * SURFACE_TERMS);
  const rhs = Array.from({ length: PARTNER_STRIDE }, () => new Float64Array(SURFACE_TERMS));
  for (let j = 0; j < PLACES; j++) {
    for (let i = 0; i < PLACES; i++) {
      const u = -1 + (2 * i) / (PLACES - 1);
      const v = -0.8 + (1.8 * j) / (PLACES - 1);
      const slopes = slopesAt(mesh, flank, u, v);
      if (!slopes) continue;
      const terms = surfaceTerms(u, v);
      for (let a = 0; a < SURFACE_TERMS; a++) {
        for (let b = 0; b <= a; b++) matrix[a * SURFACE_TERMS + b] += terms[a] * terms[b];
        for (let k = 0; k < PARTNER_STRIDE; k++) rhs[k][a] += terms[a] * slopes[k];
      }
    }
  }
  const surfaces = rhs.map((right) => {
    const known = solveNormalEquations(matrix.slice(), right, SURFACE_TERMS);
    return known ? right : new Float64Array(SURFACE_TERMS);
  });
  const map = new Float64Array(size.columns * size.rows * PARTNER_STRIDE);
  for (let j = 0; j < size.rows; j++) {
    for (let i = 0; i < size.columns; i++) {
      const terms = surfaceTerms(-1 + (2 * i) / (size.columns - 1), -1 + (2 * j) / (size.rows - 1));
      const at = (j * size.columns + i) * PARTNER_STRIDE;
      for (let k = 0; k < PARTNER_STRIDE; k++) {
        map[at + k] = terms.reduce((sum, term, a) => sum + term * surfaces[k][a], 0);
      }
    }
  }
  return map;
};
