import type { FlankName } from '../gearset/definition.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import type { Partner } from '../gearset/pinionFlank.ts';
import { wrapAngle } from '../math/angles.ts';
import { cross } from '../math/vec3.ts';
import {
  FOLD_REACH,
  type Neighbour,
  neighbours,
  REACH,
  STEP_U,
  STEP_V,
  samplePartners,
  sampling,
} from './chart.ts';
import { cubicAt, fitCubic } from './cubicFit.ts';
import { FOLD_STRIDE, fitFold } from './foldedFlank.ts';
import type { GridSize } from './grid.ts';
import { tabulateTip } from './tipTable.ts';

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
  /** 0: no design partner; 1: the cubic holds; 2 + k: near a fold, use the k-th entry of `folds` */
  kind: 25,
} as const;

/** Everything about one flank's nodes that does not depend on the pose. */
export interface NodeTable {
  readonly flank: FlankName;
  readonly size: GridSize;
  /** NODE_STRIDE doubles per node, node index = row·columns + column */
  readonly data: Float64Array;
  /** |λ|, mm of normal gap per rad of pinion, per node: kept dense for the loop that reads nothing else of a node */
  readonly lever: Float64Array;
  /** FOLD_STRIDE doubles per node near a fold of the pinion flank, see foldedFlank.ts */
  readonly folds: Float64Array;
  /** m */
  readonly ratio: number;
  /** sgn λ: which way the flank closes */
  readonly closing: -1 | 1;
}

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

/** Furthest a partner moves within ±0.35 mm of pose, mm: the range the fit has to serve. */
const PARTNER_TRAVEL = 0.9;
/** Largest error, mm of normal gap, that the cubic may reach over that range. */
const FIT_TOLERANCE = 0.0004;

/**
 * Error of a node's cubic at the end of the partner's travel, mm of normal gap: measured on neighbours just outside
 * the fit and carried on as the fourth power of the distance.
 */
const cubicError = (
  center: Partner,
  near: readonly Neighbour[],
  data: Float64Array,
  cubic: number,
): number => {
  let worst = 0;
  for (const { partner } of near) {
    const dx = partner.axial - center.axial;
    const dq = radialStep(center, partner);
    const distance = Math.hypot(dx, dq);
    const miss = cubicAt(data, cubic, dx, dq) - wrapAngle(partner.flankPolar - center.flankPolar);
    const growth = (PARTNER_TRAVEL / distance) ** 4;
    if (distance < 2 * PARTNER_TRAVEL) worst = Math.max(worst, Math.abs(miss * center.lever) * growth);
  }
  return worst;
};

export const INSIDE = { u: REACH, v: REACH };
const JUST_OUTSIDE = { u: REACH + 1, v: REACH + 1 };

/** Fit steps that cover the partner's travel on this size of tooth. */
export const reachOfFolds = ({ blank }: GearMesh): { u: number; v: number } => {
  const steps = (stepLength: number) =>
    Math.min(FOLD_REACH, Math.max(REACH, Math.ceil(PARTNER_TRAVEL / stepLength)));
  return { u: steps((STEP_U * blank.faceWidth) / 2), v: steps((STEP_V * blank.workingDepth) / 2) };
};

const isOutsideFit = ({ du, dv }: Neighbour): boolean =>
  Math.abs(du) > (REACH + 0.5) * STEP_U || Math.abs(dv) > (REACH + 0.5) * STEP_V;

export const radialStep = (center: Partner, partner: Partner): number =>
  (partner.radius * partner.radius - center.radius * center.radius) / (2 * center.radius);

/** Tabulates one flank's nodes: built once per gear set and grid, read by every pose. */
const buildNodeTable = (mesh: GearMesh, flank: FlankName, size: GridSize): NodeTable => {
  const alongU = sampling(size.columns, STEP_U);
  const alongV = sampling(size.rows, STEP_V);
  const chart = samplePartners(mesh, flank, size, alongU, alongV);
  const tipAt = tabulateTip(mesh, chart.partners);
  const data = new Float64Array(size.columns * size.rows * NODE_STRIDE);
  const foldReach = reachOfFolds(mesh);
  const folds: Float64Array[] = [];
  const strides = { u: alongU.stride, v: alongV.stride };
  let closing = 0;
  for (let j = 0; j < size.rows; j++) {
    for (let i = 0; i < size.columns; i++) {
      const at = (j * size.columns + i) * NODE_STRIDE;
      const column = i * alongU.refine + alongU.pad;
      const row = j * alongV.refine + alongV.pad;
      const partner = chart.partners[row * chart.columns + column];
      if (!partner) continue;
      const near = neighbours(chart, column, row, strides, INSIDE, false);
      const samples = near.map((n) => ({
        p: n.partner.axial - partner.axial,
        q: radialStep(partner, n.partner),
        value: wrapAngle(n.partner.flankPolar - partner.flankPolar),
      }));
      const determined = fitCubic(samples, data, at + NODE.cubic);
      data[at + NODE.kind] = 1;
      const beyond = neighbours(chart, column, row, strides, JUST_OUTSIDE, false).filter(isOutsideFit);
      if (!determined || cubicError(partner, beyond, data, at + NODE.cubic) > FIT_TOLERANCE) {
        const fold = new Float64Array(FOLD_STRIDE);
        const wide = neighbours(chart, column, row, strides, foldReach, true);
        if (fitFold(partner, wide, fold)) {
          data[at + NODE.kind] = 2 + folds.length;
          folds.push(fold);
        } else if (!determined) {
          data[at + NODE.kind] = 0;
          continue;
        }
      }
      const { point, normal } = partner;
      data.set(point, at + NODE.x);
      data.set(normal, at + NODE.nx);
      data.set(cross(point, normal), at + NODE.mx);
      data[at + NODE.phase] = partner.phase;
      data[at + NODE.radiusSquared] = partner.radius * partner.radius;
      data[at + NODE.halfInverseRadius] = 0.5 / partner.radius;
      data[at + NODE.easeOffAngle] = partner.easeOff / partner.lever;
      writeTip(tipAt, partner, data, at);
      closing = Math.sign(partner.lever);
    }
  }
  const foldTable = new Float64Array(folds.length * FOLD_STRIDE);
  folds.forEach((fold, k) => {
    foldTable.set(fold, k * FOLD_STRIDE);
  });
  const sense = closing < 0 ? -1 : 1;
  const { ratio } = mesh.pitch;
  const lever = Float64Array.from(
    { length: size.columns * size.rows },
    (_, node) => (sense * data[node * NODE_STRIDE + NODE.mz]) / ratio,
  );
  return { flank, size, data, lever, folds: foldTable, ratio, closing: sense };
};

export type NodeTables = Readonly<Record<FlankName, NodeTable>>;

export const buildNodeTables = (mesh: GearMesh, size: GridSize): NodeTables => ({
  drive: buildNodeTable(mesh, 'drive', size),
  coast: buildNodeTable(mesh, 'coast', size),
});
