import type { Pose } from '../../sim/contact/pose.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import type { FlankName, GearSetDefinition } from '../../sim/gearset/definition.ts';
import {
  type Blank,
  type CutterSetting,
  findBlank,
  findPitchPoint,
  PINION_POINT,
  PinionFlank,
  type PitchPoint,
  pinionTipRadius,
  RING_POINT,
  RingFlank,
  setCutter,
} from './geometry.ts';
import { PinionSurface } from './pinionSurface.ts';
import { goldenMinimum } from './roots.ts';
import { wrapAngle } from './vector.ts';

/** Number of flank points lengthwise (u) and in depth (v), borders included. */
export interface PointGrid {
  readonly u: number;
  readonly v: number;
}

export interface MeshOptions {
  /** flank points, default 201×81 */
  readonly points?: PointGrid;
  /** how many pinion angles over a pitch, default 24 */
  readonly pinionAngles?: number;
  /** default true: points far from touching are thrown out by a table of the pinion flank before the exact search */
  readonly screened?: boolean;
}

export const DEFAULT_GRID: PointGrid = { u: 201, v: 81 };
export const DEFAULT_ANGLES = 24;
/** Neighbouring tooth pairs looked at on either side. */
const PAIR_REACH = 6;

/** Where on the flank's border a first touch happened; null inside the flank. */
export type Border = 'toe' | 'heel' | 'face' | 'root' | 'tip' | null;

/** First touch of one flank at one pinion angle, when the ring is turned until it meets the pinion. */
export interface Touch {
  /** rad */
  readonly pinionAngle: number;
  /** rad, ring angle at first touch */
  readonly ringAngle: number;
  /** flank coordinates of the touching ring point */
  readonly u: number;
  readonly v: number;
  /** tooth pair, 0 the one that meets at pinion angle 0 at the pitch point */
  readonly pair: number;
  /** a touch on a border is edge contact, which no line-of-action computation sees */
  readonly border: Border;
}

/** Least gap of one ring point over a rolling cycle. */
export interface RolledGap {
  readonly u: number;
  readonly v: number;
  /** mm of normal gap; NaN where no pinion surface passes */
  readonly separation: number;
  /** rad, where in the roll (of pair 0) the gap is least */
  readonly pinionAngle: number;
  readonly ringAngle: number;
  /** false when the pinion's tip or the end of its flank cuts the passing short: the least is then not stationary */
  readonly stationary: boolean;
  /** what held the ring at that moment */
  readonly heldBy: Touch;
}

/** Gap of one ring point while the touch of some other point holds the ring. */
export interface HeldGap {
  /** mm of normal gap */
  readonly separation: number;
  readonly heldBy: Touch;
}

/** Ring rocked between the two flanks at fixed pinion angles (docs/model.md §7). mm, rad, named otherwise. */
export interface RockedBacklash {
  /** rad of ring angle at each pinion angle; NaN where a flank finds nothing to touch */
  readonly ringAngles: Float64Array;
  /** mm square to the drive flank at the heel */
  readonly normal: number;
  readonly normalMean: number;
  readonly normalRange: number;
  readonly tangential: number;
  readonly angleDeg: number;
  /** how many of the touches it rests on are border touches */
  readonly borderTouches: number;
}

interface FlankPoints {
  readonly grid: PointGrid;
  readonly X: Float64Array;
  readonly Y: Float64Array;
  readonly Z: Float64Array;
}

interface FlankModel {
  readonly ring: RingFlank;
  readonly surface: PinionSurface;
  readonly pinion: PinionFlank;
  /** sign of the lever: −1 where the pinion drives the ring forward */
  readonly sign: number;
}

/** A gear set ready for brute-force meshing. */
export class Oracle {
  readonly definition: GearSetDefinition;
  readonly pitch: PitchPoint;
  readonly blank: Blank;
  readonly cutter: CutterSetting;
  readonly flanks: Readonly<Record<FlankName, FlankModel>>;
  /** (ẑ×X)·N and radius at the drive flank's heel mid-height: where the dial stands */
  readonly heelLever: number;
  readonly heelRadius: number;
  private readonly pointCache = new Map<string, FlankPoints>();
  private thinned: number | null = null;

  constructor(definition: GearSetDefinition) {
    this.definition = definition;
    this.pitch = findPitchPoint(definition);
    this.blank = findBlank(definition, this.pitch);
    this.cutter = setCutter(definition, this.pitch, this.blank);
    const build = (name: FlankName): FlankModel => {
      const ring = new RingFlank(definition, this.pitch, this.blank, this.cutter, name);
      const pinion = new PinionFlank(this.pitch, ring, definition.easeOff[name]);
      const surface = new PinionSurface(pinion, (x) => pinionTipRadius(this.pitch, this.blank, x));
      const seed = new Float64Array(2);
      const out = new Float64Array(PINION_POINT);
      ring.invert(0, 0, seed);
      pinion.evaluate(seed[0], seed[1], out);
      return { ring, surface, pinion, sign: Math.sign(out[6]) };
    };
    this.flanks = { drive: build('drive'), coast: build('coast') };
    const heel = this.ringPoint('drive', 1, 0);
    this.heelLever = Math.abs(heel[0] * heel[4] - heel[1] * heel[3]);
    this.heelRadius = Math.hypot(heel[0], heel[1]);
  }

  /** rad of pinion angle from one tooth to the next */
  get pinionPitch(): number {
    return (2 * Math.PI) / this.definition.pinionTeeth;
  }

  /** rad of ring angle from one tooth to the next */
  get ringPitch(): number {
    return (2 * Math.PI) / this.definition.ringTeeth;
  }

  /** Ring point and outward normal at flank coordinates, [X, Y, Z, Nx, Ny, Nz]. */
  ringPoint(flank: FlankName, u: number, v: number): Float64Array {
    const seed = new Float64Array(2);
    const out = new Float64Array(RING_POINT);
    const { ring } = this.flanks[flank];
    if (!ring.invert(u, v, seed)) throw new RangeError(`oracle: no ${flank} flank point at u=${u}, v=${v}`);
    ring.evaluate(seed[0], seed[1], out);
    return out;
  }

  points(flank: FlankName, grid: PointGrid): FlankPoints {
    const key = `${flank} ${grid.u} ${grid.v}`;
    const known = this.pointCache.get(key);
    if (known) return known;
    const { ring } = this.flanks[flank];
    const count = grid.u * grid.v;
    const made: FlankPoints = {
      grid,
      X: new Float64Array(count),
      Y: new Float64Array(count),
      Z: new Float64Array(count),
    };
    const seed = new Float64Array(2);
    const out = new Float64Array(RING_POINT);
    for (let i = 0; i < grid.u; i++) {
      for (let j = 0; j < grid.v; j++) {
        const u = -1 + (2 * i) / (grid.u - 1);
        const v = -1 + (2 * j) / (grid.v - 1);
        if (!ring.invert(u, v, seed, j > 0)) {
          throw new RangeError(`oracle: no ${flank} flank point at u=${u}, v=${v}`);
        }
        ring.evaluate(seed[0], seed[1], out);
        const k = i * grid.v + j;
        made.X[k] = out[0];
        made.Y[k] = out[1];
        made.Z[k] = out[2];
      }
    }
    this.pointCache.set(key, made);
    return made;
  }

  /**
   * Constant angle (pinion rad) taken off the pinion tooth, half from each flank, so that the least rocking over
   * a pitch in the design pose is the definition's backlash.
   */
  get thinning(): number {
    if (this.thinned === null) {
      const wanted = this.definition.backlash / this.heelLever;
      let thinning = 0;
      // The rocking is linear in the thinning but for a sub-micrometre shift along the roll: twice is exact.
      for (let pass = 0; pass < 2; pass++) {
        const mesh = new OracleMesh(
          this,
          DESIGN_POSE,
          DEFAULT_GRID,
          this.pinionAngles(DEFAULT_ANGLES),
          thinning,
        );
        thinning += (wanted - mesh.backlash().normal / this.heelLever) * this.pitch.ratio;
      }
      this.thinned = thinning;
    }
    return this.thinned;
  }

  /** `count` pinion angles evenly over one pinion pitch, rad. */
  pinionAngles(count: number): Float64Array {
    return Float64Array.from({ length: count }, (_, k) => (k * this.pinionPitch) / count);
  }

  /** The mesh in a pose. Nothing is searched before it is asked for. */
  mesh(pose: Partial<Pose> = {}, options: MeshOptions = {}): OracleMesh {
    return new OracleMesh(
      this,
      { ...DESIGN_POSE, ...pose },
      options.points ?? DEFAULT_GRID,
      this.pinionAngles(options.pinionAngles ?? DEFAULT_ANGLES),
      this.thinning,
      options.screened ?? true,
    );
  }
}

export function buildOracle(definition: GearSetDefinition): Oracle {
  return new Oracle(definition);
}

/** Per flank working memory of the sweep over all points and pairs. */
interface SweepState {
  gaps: Float64Array;
  pairs: Int32Array;
  pairCount: number;
  least: number;
}

/**
 * One pose of one gear set, meshed by turning the ring until the first of all flank points of all tooth pairs
 * touches the pinion. Gap angles are pinion radians; positive is open.
 */
export class OracleMesh {
  readonly oracle: Oracle;
  readonly pose: Pose;
  readonly grid: PointGrid;
  readonly pinionAngles: Float64Array;
  /** false: every point is inverted on the exact pinion flank, nothing is thrown out by the table */
  readonly screened: boolean;
  private readonly halfThinning: number;
  private readonly ox: number;
  private readonly oy: number;
  private readonly oz: number;
  private readonly cosTip: number;
  private readonly sinTip: number;
  private readonly sweeps: Record<FlankName, SweepState>;
  private readonly known: Partial<Record<FlankName, readonly (Touch | null)[]>> = {};
  private readonly errors: Partial<Record<FlankName, Float64Array>> = {};
  private readonly lastOffset: Partial<Record<FlankName, number>> = {};
  private readonly seed = new Float64Array(2);
  private readonly point = new Float64Array(RING_POINT);

  constructor(
    oracle: Oracle,
    pose: Pose,
    grid: PointGrid,
    pinionAngles: Float64Array,
    thinning: number,
    screened = true,
  ) {
    this.screened = screened;
    this.oracle = oracle;
    this.pose = pose;
    this.grid = grid;
    this.pinionAngles = pinionAngles;
    this.halfThinning = thinning / 2;
    const sigma = (pose.shaftAngleError * Math.PI) / 180;
    this.cosTip = Math.cos(sigma);
    this.sinTip = Math.sin(sigma);
    this.ox = -pose.pinionIn;
    this.oy = oracle.definition.offset + pose.offsetError;
    this.oz = pose.ringAway;
    const count = grid.u * grid.v;
    const sweep = (): SweepState => ({
      gaps: new Float64Array(count * (2 * PAIR_REACH + 1)),
      pairs: new Int32Array(2 * PAIR_REACH + 1),
      pairCount: 0,
      least: Number.POSITIVE_INFINITY,
    });
    this.sweeps = { drive: sweep(), coast: sweep() };
  }

  /** First touches at all pinion angles; null where no point has a pinion tooth opposite (contact ratio below 1). */
  touches(flank: FlankName): readonly (Touch | null)[] {
    let made = this.known[flank];
    if (!made) {
      made = Array.from(this.pinionAngles, (angle) => this.touch(flank, angle));
      this.known[flank] = made;
    }
    return made;
  }

  /**
   * Gap of one ring point (ring frame) of pair `pair` at given ring and pinion angles against the exact pinion
   * surface, pinion rad. NaN: no pinion surface at its radius and axial place.
   */
  gap(
    flank: FlankName,
    X: number,
    Y: number,
    Z: number,
    pair: number,
    ringAngle: number,
    pinionAngle: number,
  ): number {
    const { oracle } = this;
    const { surface, sign, pinion } = oracle.flanks[flank];
    const phi = ringAngle + pair * oracle.ringPitch;
    const c = Math.cos(phi);
    const s = Math.sin(phi);
    const px = c * X - s * Y - this.ox;
    const py = s * X + c * Y - this.oy;
    const pz = Z - this.oz;
    const axial = this.cosTip * px + this.sinTip * pz;
    const up = -this.sinTip * px + this.cosTip * pz;
    const rho = Math.sqrt(py * py + up * up);
    if (!(rho <= surface.tip(axial))) return Number.NaN;
    const psi = surface.exact(axial, rho);
    const turned = psi + pinionAngle + pair * oracle.pinionPitch - (Math.atan2(up, py) - pinion.reference);
    return sign * wrapAngle(turned) + this.halfThinning;
  }

  /** All points of all pairs against the pinion surface: tabulated when screened, else exact. */
  private sweep(flank: FlankName, ringAngle: number, pinionAngle: number): void {
    const state = this.sweeps[flank];
    state.pairCount = 0;
    state.least = Number.POSITIVE_INFINITY;
    for (let pair = -PAIR_REACH; pair <= PAIR_REACH; pair++) {
      // A pair none of whose sparse points has a pinion tooth near by is left out.
      if (this.sweepPair(flank, ringAngle, pinionAngle, pair, 10, 0) > state.least + NEAR_GAP) continue;
      const least = this.screened
        ? this.sweepPair(flank, ringAngle, pinionAngle, pair, 1, state.pairCount)
        : this.sweepPairExactly(flank, ringAngle, pinionAngle, pair, state.pairCount);
      state.pairs[state.pairCount++] = pair;
      if (least < state.least) state.least = least;
    }
  }

  private sweepPair(
    flank: FlankName,
    ringAngle: number,
    pinionAngle: number,
    pair: number,
    stride: number,
    slot: number,
  ): number {
    const { oracle, grid, ox, oy, oz, cosTip, sinTip, halfThinning } = this;
    const { surface, sign, pinion } = oracle.flanks[flank];
    const { X, Y, Z } = oracle.points(flank, grid);
    const { gaps } = this.sweeps[flank];
    const { columnTip, nodePsi, columns, rows, axialStart, radialStart } = surface;
    const perAxial = 1 / PinionSurface.axialStep;
    const perRadial = 1 / PinionSurface.radialStep;
    const phi = ringAngle + pair * oracle.ringPitch;
    const c = Math.cos(phi);
    const s = Math.sin(phi);
    const turned = pinionAngle + pair * oracle.pinionPitch + pinion.reference;
    const base = slot * grid.u * grid.v;
    const TURN = 2 * Math.PI;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < grid.u; i += stride) {
      for (let j = 0; j < grid.v; j += stride) {
        const k = i * grid.v + j;
        const x = X[k];
        const y = Y[k];
        const px = c * x - s * y - ox;
        const py = s * x + c * y - oy;
        const pz = Z[k] - oz;
        const axial = cosTip * px + sinTip * pz;
        const up = cosTip * pz - sinTip * px;
        let gap = Number.POSITIVE_INFINITY;
        const p = (axial - axialStart) * perAxial;
        if (p >= 0 && p < columns - 1) {
          const rho = Math.sqrt(py * py + up * up);
          const col = p | 0;
          const f = p - col;
          const q = (rho - radialStart) * perRadial;
          const tip = columnTip[col] + f * (columnTip[col + 1] - columnTip[col]);
          if (rho <= tip && q >= 0 && q < rows - 1) {
            const row = q | 0;
            const node = row * columns + col;
            const low = nodePsi[node] + f * (nodePsi[node + 1] - nodePsi[node]);
            const above = node + columns;
            const high = nodePsi[above] + f * (nodePsi[above + 1] - nodePsi[above]);
            let turn = low + (q - row) * (high - low) + turned - Math.atan2(up, py);
            turn -= TURN * Math.round(turn / TURN);
            const open = sign * turn + halfThinning;
            // NaN (beyond the pinion flank) fails this comparison and stays at infinity.
            if (open > -DEEPEST) gap = open;
          }
        }
        if (stride === 1) gaps[base + k] = gap;
        if (gap < least) least = gap;
      }
    }
    return least;
  }

  private sweepPairExactly(
    flank: FlankName,
    ring: number,
    pinion: number,
    pair: number,
    slot: number,
  ): number {
    const { X, Y, Z } = this.oracle.points(flank, this.grid);
    const { gaps } = this.sweeps[flank];
    const base = slot * X.length;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < X.length; k++) {
      const gap = this.gap(flank, X[k], Y[k], Z[k], pair, ring, pinion);
      const open = gap > -DEEPEST ? gap : Number.POSITIVE_INFINITY;
      gaps[base + k] = open;
      if (open < least) least = open;
    }
    return least;
  }

  /**
   * Turns the ring at fixed pinion angle until the first point touches. Root-find on the least gap over all
   * points and pairs: turning the ring by dφ closes every near gap by about m·dφ, so the least gap itself
   * over m is the next step; the far points are thrown out by the table, the rest settled on the exact surface.
   */
  touch(flank: FlankName, pinionAngle: number): Touch | null {
    const { oracle, grid } = this;
    const { surface, sign } = oracle.flanks[flank];
    const ratio = oracle.pitch.ratio;
    const state = this.sweeps[flank];
    const count = grid.u * grid.v;
    let ringAngle = pinionAngle / ratio + (this.lastOffset[flank] ?? (sign * this.halfThinning) / ratio);
    let correction = Number.POSITIVE_INFINITY;
    for (let step = 0; step < 30 && Math.abs(correction) > 2e-4; step++) {
      if (step > 0) ringAngle += correction;
      this.sweep(flank, ringAngle, pinionAngle);
      if (!Number.isFinite(state.least)) return null;
      correction = (sign * state.least) / ratio;
    }
    if (Math.abs(correction) > 2e-4)
      throw new Error(`oracle: ${flank} touch at pinion angle ${pinionAngle} not found`);

    const limit = state.least + (this.screened ? 2.5 * surface.tableError : 0) + Math.abs(correction) * ratio;
    let candidates: number[] = [];
    for (let slot = 0; slot < state.pairCount; slot++) {
      for (let k = 0; k < count; k++) {
        if (state.gaps[slot * count + k] <= limit) candidates.push(slot * count + k);
      }
    }
    const { X, Y, Z } = oracle.points(flank, grid);
    let best = -1;
    let least = 0;
    for (let step = 0; step < 30; step++) {
      least = Number.POSITIVE_INFINITY;
      best = -1;
      const gaps = candidates.map((id) => {
        const k = id % count;
        const pair = state.pairs[(id - k) / count];
        const gap = this.gap(flank, X[k], Y[k], Z[k], pair, ringAngle, pinionAngle);
        if (gap < least) {
          least = gap;
          best = id;
        }
        return gap;
      });
      if (best < 0) return null;
      if (Math.abs(least) < 1e-12) break;
      ringAngle += (sign * least) / ratio;
      const keep = least + Math.abs(least) + 1e-8;
      candidates = candidates.filter((_, index) => gaps[index] <= keep);
    }
    const k = best % count;
    const pair = state.pairs[(best - k) / count];
    const refined = this.refine(flank, Math.floor(k / grid.v), k % grid.v, pair, ringAngle, pinionAngle);
    this.lastOffset[flank] = refined.ringAngle - pinionAngle / ratio;
    return refined;
  }

  /** Gap at any flank coordinates, pinion rad. */
  private gapAt(flank: FlankName, u: number, v: number, pair: number, ring: number, pinion: number): number {
    const { ring: ringFlank } = this.oracle.flanks[flank];
    if (!ringFlank.invert(u, v, this.seed, true)) return Number.NaN;
    ringFlank.evaluate(this.seed[0], this.seed[1], this.point);
    return this.gap(flank, this.point[0], this.point[1], this.point[2], pair, ring, pinion);
  }

  /**
   * From the touching grid point to the touching point between grid points: the bottom of the quadratic through
   * 3×3 exact gaps, again with a narrower stencil; held inside the flank. A stencil that meets the pinion's tip
   * or the end of its flank leaves the grid point as it is and is called a border touch.
   */
  private refine(
    flank: FlankName,
    column: number,
    row: number,
    pair: number,
    ringAngle: number,
    pinionAngle: number,
  ): Touch {
    const { grid, oracle } = this;
    const { sign } = oracle.flanks[flank];
    let hu = 2 / (grid.u - 1);
    let hv = 2 / (grid.v - 1);
    let u = -1 + column * hu;
    let v = -1 + row * hv;
    let ring = ringAngle;
    this.seed.fill(0);
    this.seed[1] = this.oracle.blank.ringDedendum;
    const g = new Float64Array(9);
    for (let pass = 0; pass < 5; pass++) {
      const cu = Math.max(-1 + hu, Math.min(1 - hu, u));
      const cv = Math.max(-1 + hv, Math.min(1 - hv, v));
      for (let i = 0; i < 9; i++) {
        const du = ((i % 3) - 1) * hu;
        const dv = (Math.floor(i / 3) - 1) * hv;
        g[i] = this.gapAt(flank, cu + du, cv + dv, pair, ring, pinionAngle);
        if (Number.isNaN(g[i])) return { pinionAngle, ringAngle: ring, u, v, pair, border: 'tip' };
      }
      // Quadratic through the stencil in stencil steps (p, q).
      const gp = (g[2] + g[5] + g[8] - g[0] - g[3] - g[6]) / 6;
      const gq = (g[6] + g[7] + g[8] - g[0] - g[1] - g[2]) / 6;
      const gpp = (g[0] + g[2] + g[3] + g[5] + g[6] + g[8] - 2 * (g[1] + g[4] + g[7])) / 3;
      const gqq = (g[0] + g[1] + g[2] + g[6] + g[7] + g[8] - 2 * (g[3] + g[4] + g[5])) / 3;
      const gpq = (g[0] + g[8] - g[2] - g[6]) / 4;
      const det = gpp * gqq - gpq * gpq;
      let p = (u - cu) / hu;
      let q = (v - cv) / hv;
      const pRange = [Math.max(-3, (-1 - cu) / hu), Math.min(3, (1 - cu) / hu)];
      const qRange = [Math.max(-3, (-1 - cv) / hv), Math.min(3, (1 - cv) / hv)];
      const clamp = (value: number, range: number[]) => Math.max(range[0], Math.min(range[1], value));
      if (det > 0 && gpp > 0) {
        p = (gpq * gq - gqq * gp) / det;
        q = (gpq * gp - gpp * gq) / det;
        if (p !== clamp(p, pRange)) {
          p = clamp(p, pRange);
          q = clamp(-(gq + gpq * p) / gqq, qRange);
        }
        if (q !== clamp(q, qRange)) {
          q = clamp(q, qRange);
          p = clamp(-(gp + gpq * q) / gpp, pRange);
        }
      }
      const nextU = cu + p * hu;
      const nextV = cv + q * hv;
      const gap = this.gapAt(flank, nextU, nextV, pair, ring, pinionAngle);
      if (Number.isNaN(gap)) return { pinionAngle, ringAngle: ring, u, v, pair, border: 'tip' };
      if (gap > 0 && pass > 0) break;
      if (gap <= Math.min(...g)) {
        u = nextU;
        v = nextV;
        ring += (sign * gap) / oracle.pitch.ratio;
        if (Math.abs(gap) < 1e-12 && pass > 0) break;
      }
      if (Math.abs(p) < 1 && Math.abs(q) < 1) {
        hu /= 2;
        hv /= 2;
      }
    }
    return { pinionAngle, ringAngle: ring, u, v, pair, border: borderOf(u, v) };
  }

  /** Ring angle against pinion angle / m over the given pinion angles, rad; NaN where nothing touches. */
  motionError(flank: FlankName): Float64Array {
    let made = this.errors[flank];
    if (!made) {
      const ratio = this.oracle.pitch.ratio;
      made = Float64Array.from(this.touches(flank), (touch) =>
        touch ? touch.ringAngle - touch.pinionAngle / ratio : Number.NaN,
      );
      this.errors[flank] = made;
    }
    return made;
  }

  /**
   * Motion error between the searched pinion angles: a parabola through samples of one tooth pair; where the
   * load passes from pair to pair, both pairs' parabolas are carried on and the one that touches first counts.
   */
  private interpolatedError(flank: FlankName, pinionAngle: number): number {
    const touches = this.touches(flank);
    const error = this.motionError(flank);
    const count = error.length;
    const { sign } = this.oracle.flanks[flank];
    const place = (pinionAngle / this.oracle.pinionPitch) * count;
    const k = Math.floor(place);
    const index = (i: number) => ((i % count) + count) % count;
    // The same tooth keeps its number when the pair number is counted on from pitch to pitch.
    const tooth = (i: number) => (touches[index(i)]?.pair ?? 0) + Math.floor(i / count);
    const along = (samples: readonly number[]): number => {
      const anchor = tooth(samples[0]);
      const same = samples.filter((i) => tooth(i) === anchor).slice(0, 3);
      let value = 0;
      for (const i of same) {
        let weight = 1;
        for (const j of same) if (j !== i) weight *= (place - j) / (i - j);
        value += weight * error[index(i)];
      }
      return value;
    };
    const left = along([k, k - 1, k - 2]);
    const right = along([k + 1, k + 2, k + 3]);
    if (tooth(k) === tooth(k + 1)) return along([k, k + 1, k - 1, k + 2]);
    return sign < 0 ? Math.max(left, right) : Math.min(left, right);
  }

  /** Peak-to-peak transmission error over a pitch, rad of ring angle, extremes closed in on beyond the samples. */
  transmissionError(flank: FlankName): number {
    const error = this.motionError(flank);
    const { pinionAngles, oracle } = this;
    const spacing = oracle.pinionPitch / pinionAngles.length;
    const closeIn = (direction: number): number => {
      let at = 0;
      for (let k = 1; k < error.length; k++) {
        if (direction * error[k] < direction * error[at]) at = k;
      }
      const value = (angle: number): number => {
        const touch = this.touch(flank, angle);
        return touch ? direction * (touch.ringAngle - angle / oracle.pitch.ratio) : Number.POSITIVE_INFINITY;
      };
      const center = pinionAngles[at];
      return direction * goldenMinimum(value, center - spacing, center + spacing, spacing * 0.01).value;
    };
    return closeIn(-1) - closeIn(1);
  }

  /** Rocks the ring between drive and coast contact at each pinion angle. */
  backlash(): RockedBacklash {
    const { oracle } = this;
    const drive = this.touches('drive');
    const coast = this.touches('coast');
    const coastSign = oracle.flanks.coast.sign;
    const ringAngles = new Float64Array(drive.length);
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    let sum = 0;
    let borderTouches = 0;
    for (let k = 0; k < drive.length; k++) {
      const d = drive[k];
      const c = coast[k];
      const rock = d && c ? coastSign * (c.ringAngle - d.ringAngle) : Number.NaN;
      if (d?.border) borderTouches++;
      if (c?.border) borderTouches++;
      ringAngles[k] = rock;
      least = Math.min(least, rock);
      most = Math.max(most, rock);
      sum += rock;
    }
    return {
      ringAngles,
      normal: least * oracle.heelLever,
      normalMean: (sum / drive.length) * oracle.heelLever,
      normalRange: (most - least) * oracle.heelLever,
      tangential: least * oracle.heelRadius,
      angleDeg: (least * 180) / Math.PI,
      borderTouches,
    };
  }

  /**
   * Least normal gap of ring point (u, v) while the pair rolls in contact: at every pinion angle the ring stands
   * where the brute-force touch holds it. mm = gap angle × the point's own lever. Found on touches interpolated
   * between the pinion angles, then settled with touches searched anew around the least.
   */
  rolledGap(flank: FlankName, u: number, v: number): RolledGap | null {
    const { oracle } = this;
    const { ratio } = oracle.pitch;
    const [X, Y, Z, Nx, Ny] = oracle.ringPoint(flank, u, v);
    const lever = Math.abs(X * Ny - Y * Nx) / ratio;
    const error = this.motionError(flank);
    if (error.some(Number.isNaN)) return null;
    const follow = (pinionAngle: number) => pinionAngle / ratio + this.interpolatedError(flank, pinionAngle);
    const passing = (pinionAngle: number): number => {
      const gap = this.gap(flank, X, Y, Z, 0, follow(pinionAngle), pinionAngle);
      return Number.isNaN(gap) ? Number.POSITIVE_INFINITY : gap;
    };
    const reach = 3 * oracle.pinionPitch;
    const steps = 240;
    const spacing = (2 * reach) / steps;
    let at = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k <= steps; k++) {
      const value = passing(-reach + k * spacing);
      if (value < least) {
        least = value;
        at = k;
      }
    }
    if (at < 0) return null;
    const low = -reach + (at - 1) * spacing;
    const high = low + 2 * spacing;
    const stationary = Number.isFinite(passing(low)) && Number.isFinite(passing(high));
    const rough = goldenMinimum(passing, low, high, 1e-5).at;

    // A touch may be searched at any pinion angle; bring it to the pitch where the samples are.
    const exactly = (pinionAngle: number): { gap: number; ring: number; heldBy: Touch } | null => {
      const shift = Math.floor(pinionAngle / oracle.pinionPitch);
      const touch = this.touch(flank, pinionAngle - shift * oracle.pinionPitch);
      if (!touch) return null;
      const ring = touch.ringAngle + shift * oracle.ringPitch;
      return { gap: this.gap(flank, X, Y, Z, 0, ring, pinionAngle), ring, heldBy: touch };
    };
    const step = 5e-4 * ratio;
    let best: { gap: number; ring: number; heldBy: Touch } | null = null;
    let bestAngle = rough;
    for (const angle of [rough - step, rough, rough + step]) {
      const found = exactly(angle);
      if (found && (best === null || found.gap < best.gap)) {
        best = found;
        bestAngle = angle;
      }
    }
    if (!best) return null;
    return {
      u,
      v,
      separation: best.gap * lever,
      pinionAngle: bestAngle,
      ringAngle: best.ring,
      stationary,
      heldBy: best.heldBy,
    };
  }

  /**
   * Normal gap of ring point (u, v), mm, when the ring stands at `ringAngle` (rad) and the pinion where the
   * brute-force touch holds it there. docs/model.md §7's separation is this at the point's own phase; `rolledGap`
   * is the least over the whole pass.
   */
  heldGap(flank: FlankName, u: number, v: number, ringAngle: number): HeldGap | null {
    const { oracle } = this;
    const { ratio } = oracle.pitch;
    const [X, Y, Z, Nx, Ny] = oracle.ringPoint(flank, u, v);
    const lever = Math.abs(X * Ny - Y * Nx) / ratio;
    // Where must the pinion stand for the touch to hold the ring at this angle? Motion error is a small shift.
    let pinionAngle = ringAngle * ratio;
    let heldBy: Touch | null = null;
    for (let i = 0; i < 4; i++) {
      const shift = Math.floor(pinionAngle / oracle.pinionPitch);
      heldBy = this.touch(flank, pinionAngle - shift * oracle.pinionPitch);
      if (!heldBy) return null;
      const miss = ringAngle - (heldBy.ringAngle + shift * oracle.ringPitch);
      if (Math.abs(miss) < 1e-12) break;
      pinionAngle += miss * ratio;
    }
    if (!heldBy) return null;
    const gap = this.gap(flank, X, Y, Z, 0, ringAngle, pinionAngle);
    return Number.isNaN(gap) ? null : { separation: gap * lever, heldBy };
  }

  /** `rolledGap` for several points. */
  rolledGaps(flank: FlankName, points: readonly (readonly [number, number])[]): (RolledGap | null)[] {
    return points.map(([u, v]) => this.rolledGap(flank, u, v));
  }
}

/** Pinion rad: a pair whose sparse points stay this much further open than the least gap so far has no share. */
const NEAR_GAP = 0.02;
/** Pinion rad: deeper than this is not interference but another tooth's flank. */
const DEEPEST = 0.15;

function borderOf(u: number, v: number): Border {
  const near = 1e-9;
  if (u <= -1 + near) return 'toe';
  if (u >= 1 - near) return 'heel';
  if (v >= 1 - near) return 'face';
  if (v <= -1 + near) return 'root';
  return null;
}
