import { cubicAt } from './cubicFit.ts';
import { FOLD_STRIDE, lookUpFold } from './foldedFlank.ts';
import { NOT_MEETING } from './grid.ts';
import { NODE, NODE_STRIDE, type NodeTable } from './nodeTable.ts';

/** A pose as the solver's inner loop needs it: axis point o, direction A, q = A×o (docs/model.md §2, §5). */
export interface PosedAxis {
  /** m, and a of the design, mm */
  readonly ratio: number;
  readonly offset: number;
  ox: number;
  oy: number;
  oz: number;
  ax: number;
  az: number;
}

/** Per-node results of one flank in one pose; caller-owned, node index = row·columns + column. */
export interface PosedFlank {
  /** φ, rad of ring angle */
  readonly phase: Float64Array;
  /** g, rad of pinion angle */
  readonly gap: Float64Array;
  /** ρ_tip − ρ of the posed partner, mm; negative = no pinion tooth opposite */
  readonly tipClearance: Float64Array;
  /** scratch of three: dx, dq and the answer of a look-up near a fold */
  readonly probe: Float64Array;
}

/** Above this the odd series for atan loses digits. */
const SERIES_LIMIT = 0.06;

const arcTangent = (r: number): number => {
  if (r > SERIES_LIMIT || r < -SERIES_LIMIT) return Math.atan(r);
  const s = r * r;
  return r * (1 + s * (-1 / 3 + s * (1 / 5 + s * (-1 / 7 + s / 9))));
};

/**
 * Conjugate contact and ease-off gap of every node in a pose (docs/model.md §5, §7), explicit and without
 * allocation. Points without a contact root get NOT_MEETING in every array (tip clearance −NOT_MEETING).
 */
export const poseFlank = (
  { data, folds, size, closing }: NodeTable,
  axis: PosedAxis,
  out: PosedFlank,
): void => {
  const { ox, oy, oz, ax, az, ratio, offset } = axis;
  // q = A×o with A_y = 0
  const qx = -az * oy;
  const qy = az * ox - ax * oz;
  const qz = ax * oy;
  const inverseRatio = 1 / ratio - az;
  const { phase, gap, tipClearance, probe } = out;
  const count = size.columns * size.rows;
  for (let node = 0, at = 0; node < count; node++, at += NODE_STRIDE) {
    const nx = data[at + NODE.nx];
    const ny = data[at + NODE.ny];
    const mz = data[at + NODE.mz];
    const ac = ax * data[at + NODE.mx] - (qx * nx + qy * ny);
    const as = -ax * data[at + NODE.my] + qx * ny - qy * nx;
    const a0 = mz * inverseRatio + qz * data[at + NODE.nz];
    const discriminant = ac * ac + as * as - a0 * a0;
    const kind = data[at + NODE.kind];
    if (!(discriminant >= 0) || kind === 0) {
      phase[node] = NOT_MEETING;
      gap[node] = NOT_MEETING;
      tipClearance[node] = -NOT_MEETING;
      continue;
    }
    // tan(δ/2) of the root nearest the design contact
    const root = Math.sqrt(discriminant);
    const t = (a0 - ac) / (as + (as < 0 ? -root : root));
    const w = 1 / (1 + t * t);
    const cos = (1 - t * t) * w;
    const sin = 2 * t * w;
    const turn = 2 * arcTangent(t);

    const x0 = data[at + NODE.x];
    const y0 = data[at + NODE.y];
    const z0 = data[at + NODE.z];
    const px = x0 * cos - y0 * sin - ox;
    const py = x0 * sin + y0 * cos - oy;
    const pz = z0 - oz;
    const dx = px * ax + pz * az - x0;
    const side = pz * ax - px * az;
    const dq = (py * py + side * side - data[at + NODE.radiusSquared]) * data[at + NODE.halfInverseRadius];

    const yd = y0 - offset;
    const swing = arcTangent((yd * side - z0 * py) / (yd * py + z0 * side)) - ratio * turn;
    let flank: number;
    if (kind === 1) {
      flank = cubicAt(data, at + NODE.cubic, dx, dq);
    } else {
      probe[0] = dx;
      probe[1] = dq;
      lookUpFold(folds, (kind - 2) * FOLD_STRIDE, probe);
      flank = probe[2];
    }
    if (Number.isNaN(flank)) {
      phase[node] = NOT_MEETING;
      gap[node] = NOT_MEETING;
      tipClearance[node] = -NOT_MEETING;
      continue;
    }
    phase[node] = data[at + NODE.phase] + turn;
    gap[node] = closing * (data[at + NODE.easeOffAngle] + flank - swing);
    tipClearance[node] =
      data[at + NODE.tip] +
      dx * (data[at + NODE.tipSlope] + dx * data[at + NODE.tipCurvature]) -
      dq * (1 - dq * data[at + NODE.halfInverseRadius]);
  }
};
