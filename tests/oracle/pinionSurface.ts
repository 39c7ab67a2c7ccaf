import { PINION_POINT, type PinionFlank } from './geometry.ts';

/** Half-size of the square of flank coordinates on which the pinion flank is taken to exist. */
const CHART_REACH = 1.3;
const AXIAL_STEP = 0.2;
const RADIAL_STEP = 0.15;
/** mm in (x, ρ): the Newton inversions stop here, far below a nanometre of gap. */
const INVERSION_TOLERANCE = 1e-9;

/**
 * The pinion flank as ψ(x, ρ) (docs/model.md §6). `exact` inverts the exact flank by Newton; `table` is a
 * bilinear look-up of exact node values, used only to throw out points that are far from touching, with its
 * measured error as a margin. Lookups outside the flank give NaN.
 */
export class PinionSurface {
  /** rad, greatest difference of `table` from `exact` over sampled cell centres */
  readonly tableError: number;
  readonly axialStart: number;
  readonly radialStart: number;
  readonly columns: number;
  readonly rows: number;
  /** ψ at the nodes, row by row along x; NaN where there is no flank. */
  readonly nodePsi: Float64Array;
  /** pinion tip radius at the columns, linear between; NaN where the cone does not reach */
  readonly columnTip: Float64Array;
  static readonly axialStep = AXIAL_STEP;
  static readonly radialStep = RADIAL_STEP;
  private readonly flank: PinionFlank;
  private readonly nodeTheta: Float64Array;
  private readonly nodeHeight: Float64Array;
  /** inverse Jacobian ∂(θ, x)/∂(axial, ρ) per node, four numbers */
  private readonly nodeInverse: Float64Array;
  private readonly out = new Float64Array(PINION_POINT);
  private readonly shifted = new Float64Array(PINION_POINT);

  constructor(flank: PinionFlank, tipRadius: (x: number) => number) {
    this.flank = flank;
    const seed = new Float64Array(2);
    const { out } = this;
    let x0 = Number.POSITIVE_INFINITY;
    let x1 = Number.NEGATIVE_INFINITY;
    let r0 = Number.POSITIVE_INFINITY;
    let r1 = Number.NEGATIVE_INFINITY;
    for (let i = 0; i <= 12; i++) {
      for (let j = 0; j <= 12; j++) {
        const u = CHART_REACH * (i / 6 - 1);
        const v = CHART_REACH * (j / 6 - 1);
        if (!flank.ring.invert(u, v, seed) || !flank.evaluate(seed[0], seed[1], out)) continue;
        x0 = Math.min(x0, out[0]);
        x1 = Math.max(x1, out[0]);
        r0 = Math.min(r0, out[1]);
        r1 = Math.max(r1, out[1]);
      }
    }
    this.axialStart = x0 - 2 * AXIAL_STEP;
    this.radialStart = r0 - 2 * RADIAL_STEP;
    this.columns = Math.ceil((x1 - x0) / AXIAL_STEP) + 5;
    this.rows = Math.ceil((r1 - r0) / RADIAL_STEP) + 5;
    const nodes = this.columns * this.rows;
    this.nodePsi = new Float64Array(nodes).fill(Number.NaN);
    this.nodeTheta = new Float64Array(nodes);
    this.nodeHeight = new Float64Array(nodes);
    this.nodeInverse = new Float64Array(nodes * 4);
    this.columnTip = Float64Array.from({ length: this.columns }, (_, c) =>
      tipRadius(this.axialStart + c * AXIAL_STEP),
    );
    this.fillNodes();
    this.tableError = this.measureTableError();
  }

  /** Walks outward from the flank centre so that every node is reached along the flank, never across a fold. */
  private fillNodes(): void {
    const { flank, out, columns, rows } = this;
    const seed = new Float64Array(2);
    if (!flank.ring.invert(0, 0, seed) || !flank.evaluate(seed[0], seed[1], out)) {
      throw new RangeError('oracle: the flank centre never meets the pinion');
    }
    const column = Math.round((out[0] - this.axialStart) / AXIAL_STEP);
    const row = Math.round((out[1] - this.radialStart) / RADIAL_STEP);
    const start = row * columns + column;
    const inverse = new Float64Array(4);
    const centerSign = Math.sign(this.inverseJacobian(seed[0], seed[1], inverse));
    const seen = new Uint8Array(columns * rows);
    const queue: number[] = [];
    const tryNode = (node: number, theta: number, height: number, J: ArrayLike<number>, at: number): void => {
      const x = this.axialStart + (node % columns) * AXIAL_STEP;
      const rho = this.radialStart + Math.floor(node / columns) * RADIAL_STEP;
      if (!this.solve(x, rho, theta, height, J, at)) return;
      if (Math.abs(out[3]) > CHART_REACH || Math.abs(out[4]) > CHART_REACH) return;
      const psi = out[2];
      const t = this.solvedTheta;
      const h = this.solvedHeight;
      if (Math.sign(this.inverseJacobian(t, h, inverse)) !== centerSign) return;
      this.nodePsi[node] = psi;
      this.nodeTheta[node] = t;
      this.nodeHeight[node] = h;
      this.nodeInverse.set(inverse, node * 4);
      queue.push(node);
    };
    seen[start] = 1;
    tryNode(start, seed[0], seed[1], Array.from(inverse), 0);
    for (let head = 0; head < queue.length; head++) {
      const node = queue[head];
      const c = node % columns;
      const neighbours = [
        c > 0 ? node - 1 : -1,
        c < columns - 1 ? node + 1 : -1,
        node - columns,
        node + columns,
      ];
      for (const next of neighbours) {
        if (next < 0 || next >= columns * rows || seen[next]) continue;
        seen[next] = 1;
        tryNode(next, this.nodeTheta[node], this.nodeHeight[node], this.nodeInverse, node * 4);
      }
    }
  }

  /** ∂(θ, x)/∂(axial, ρ) by central differences into `inverse`; returns the determinant of the forward map. */
  private inverseJacobian(theta: number, height: number, inverse: Float64Array): number {
    const { flank, shifted } = this;
    const ht = 1e-5;
    const hx = 1e-3;
    flank.evaluate(theta + ht, height, shifted);
    const xp = shifted[0];
    const rp = shifted[1];
    flank.evaluate(theta - ht, height, shifted);
    const xt = (xp - shifted[0]) / (2 * ht);
    const rt = (rp - shifted[1]) / (2 * ht);
    flank.evaluate(theta, height + hx, shifted);
    const xq = shifted[0];
    const rq = shifted[1];
    flank.evaluate(theta, height - hx, shifted);
    const xh = (xq - shifted[0]) / (2 * hx);
    const rh = (rq - shifted[1]) / (2 * hx);
    const det = xt * rh - xh * rt;
    inverse[0] = rh / det;
    inverse[1] = -xh / det;
    inverse[2] = -rt / det;
    inverse[3] = xt / det;
    return det;
  }

  private solvedTheta = 0;
  private solvedHeight = 0;

  /**
   * Newton with the start's own Jacobian held (quadratic convergence is not needed from a near start). Leaves
   * the pinion point in `out`.
   */
  private solve(
    x: number,
    rho: number,
    theta: number,
    height: number,
    inverse: ArrayLike<number>,
    at: number,
  ): boolean {
    const { flank, out } = this;
    let t = theta;
    let h = height;
    for (let step = 0; step < 30; step++) {
      if (!flank.evaluate(t, h, out)) return false;
      const dx = x - out[0];
      const dr = rho - out[1];
      if (Math.abs(dx) + Math.abs(dr) < INVERSION_TOLERANCE) {
        this.solvedTheta = t;
        this.solvedHeight = h;
        return true;
      }
      t += inverse[at] * dx + inverse[at + 1] * dr;
      h += inverse[at + 2] * dx + inverse[at + 3] * dr;
    }
    return false;
  }

  private measureTableError(): number {
    let worst = 0;
    const { columns, rows } = this;
    for (let row = 0; row < rows - 1; row += 3) {
      for (let c = 0; c < columns - 1; c += 5) {
        const x = this.axialStart + (c + 0.5) * AXIAL_STEP;
        const rho = this.radialStart + (row + 0.5) * RADIAL_STEP;
        const difference = Math.abs(this.table(x, rho) - this.exact(x, rho));
        if (difference > worst) worst = difference;
      }
    }
    return worst;
  }

  /** ψ from the table, rad, or NaN. */
  table(x: number, rho: number): number {
    const p = (x - this.axialStart) / AXIAL_STEP;
    const q = (rho - this.radialStart) / RADIAL_STEP;
    if (!(p >= 0 && q >= 0 && p < this.columns - 1 && q < this.rows - 1)) return Number.NaN;
    const c = Math.floor(p);
    const r = Math.floor(q);
    const f = p - c;
    const g = q - r;
    const node = r * this.columns + c;
    const { nodePsi } = this;
    const low = nodePsi[node] + f * (nodePsi[node + 1] - nodePsi[node]);
    const up = node + this.columns;
    const high = nodePsi[up] + f * (nodePsi[up + 1] - nodePsi[up]);
    return low + g * (high - low);
  }

  /** ψ of the exact flank, rad, or NaN where there is none. */
  exact(x: number, rho: number): number {
    const c = Math.round((x - this.axialStart) / AXIAL_STEP);
    const r = Math.round((rho - this.radialStart) / RADIAL_STEP);
    if (!(c >= 0 && r >= 0 && c < this.columns && r < this.rows)) return Number.NaN;
    const node = r * this.columns + c;
    if (Number.isNaN(this.nodePsi[node])) return Number.NaN;
    const ok = this.solve(x, rho, this.nodeTheta[node], this.nodeHeight[node], this.nodeInverse, node * 4);
    return ok ? this.out[2] : Number.NaN;
  }

  /** Design flank coordinates (u, v) of the pinion point at (x, ρ), or null. */
  partner(x: number, rho: number): { readonly u: number; readonly v: number } | null {
    if (Number.isNaN(this.exact(x, rho))) return null;
    return { u: this.out[3], v: this.out[4] };
  }

  /** Pinion tip radius at x, mm, linear between the columns; NaN where no tip is generated. */
  tip(x: number): number {
    const p = (x - this.axialStart) / AXIAL_STEP;
    if (!(p >= 0 && p < this.columns - 1)) return Number.NaN;
    const c = Math.floor(p);
    return this.columnTip[c] + (p - c) * (this.columnTip[c + 1] - this.columnTip[c]);
  }
}
