import { type Backlash, type DialSetting, readDial, tabulateFreePlay } from '../contact/backlash.ts';
import { SEARCH_GRID } from '../contact/grid.ts';
import { type MeshSolution, MeshSolver } from '../contact/meshSolver.ts';
import { createMarkRule, describePatch, type MarkRule, separate, setFilm } from '../contact/patch.ts';
import { tabulateTransmission } from '../contact/transmission.ts';
import { type EaseOffDefinition, FLANKS, type FlankName } from '../gearset/definition.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import { TURN } from '../math/angles.ts';
import { markCorrelation } from './markCorrelation.ts';
import { evaluateSurfaces, fitNodeSurfaces, type NodeSurfaces } from './nodeSurfaces.ts';
import { PARTNER_STRIDE, type PartnerMap, tabulatePartners } from './partnerMap.ts';
import { BASIS_TERMS, fillBasis, POSE_COUNT } from './poseBasis.ts';

/** What one flank shows, in this order; tilt only when asked for. */
const FLANK_FEATURES = ['toeHeel', 'rootFace', 'length', 'height', 'tilt'] as const;
const FLANK_STRIDE = FLANK_FEATURES.length;
/** drive, coast, then the dial in mm */
export const DIAL_FEATURE = 2 * FLANK_STRIDE;
export const FEATURE_COUNT = DIAL_FEATURE + 1;
export const featureAt = (flank: FlankName): number => (flank === 'drive' ? 0 : FLANK_STRIDE);

/** Same share of the working depth as in the solver (docs/model.md §7). */
const ROOT_MARGIN = 0.01;
const MM_PER_UM = 1e-3;
/** A quadratic in (u, v): 1, u, v, uu, uv, vv; mm */
const SHAPE_TERMS = 6;

/**
 * The solver as the diagnosis asks it (docs/model.md §12): any pose, any ease-off and tooth thickness near the
 * definition's, in a fraction of a solve. Node surfaces stand in for the posing of nodes; contact lines, mark and
 * backlash are the solver's own code. Not re-entrant: it owns its buffers.
 */
export class ForwardModel {
  readonly mesh: GearMesh;
  readonly solver: MeshSolver;
  private readonly surfaces: NodeSurfaces;
  private readonly partners: Readonly<Record<FlankName, PartnerMap>>;
  /** |λ| per node, mm per rad of pinion */
  private readonly levers: Readonly<Record<FlankName, Float64Array>>;
  private readonly base: Readonly<Record<FlankName, Float64Array>>;
  private readonly solution: MeshSolution;
  private readonly rule: MarkRule;
  private readonly dial: DialSetting;
  private readonly basis = new Float64Array(BASIS_TERMS);
  private readonly place = new Float64Array(POSE_COUNT).fill(Number.NaN);
  private readonly shape = new Float64Array(SHAPE_TERMS);
  /** ease-off under which each flank was last laid against the other in this pose; NaN: not yet */
  private readonly laid: Readonly<Record<FlankName, Float64Array>> = {
    drive: new Float64Array(SHAPE_TERMS).fill(Number.NaN),
    coast: new Float64Array(SHAPE_TERMS).fill(Number.NaN),
  };
  /** (u, v) in −1 … +1 of the place where every node meets the other flank in this pose; filled when an ease-off first asks */
  private readonly met: Readonly<Record<FlankName, Float64Array>>;
  private readonly isMet: Record<FlankName, boolean> = { drive: false, coast: false };

  /** `film` in mm is only used to run the solver while fitting. */
  constructor(mesh: GearMesh, film: number) {
    const solver = new MeshSolver(mesh, SEARCH_GRID);
    this.mesh = mesh;
    this.solver = solver;
    this.surfaces = fitNodeSurfaces(solver, film);
    this.partners = {
      drive: tabulatePartners(mesh, 'drive', SEARCH_GRID),
      coast: tabulatePartners(mesh, 'coast', SEARCH_GRID),
    };
    this.levers = { drive: leversOf(mesh, 'drive'), coast: leversOf(mesh, 'coast') };
    this.solution = solver.createSolution();
    const nodes = SEARCH_GRID.columns * SEARCH_GRID.rows;
    this.base = { drive: new Float64Array(nodes), coast: new Float64Array(nodes) };
    this.met = { drive: new Float64Array(2 * nodes), coast: new Float64Array(2 * nodes) };
    this.rule = createMarkRule(ROOT_MARGIN * mesh.blank.workingDepth);
    this.dial = {
      ratio: mesh.pitch.ratio,
      pitch: TURN / mesh.definition.ringTeeth,
      constantPlay: solver.pinionThinning / mesh.pitch.ratio,
      dialLever: solver.dialLever,
      dialRadius: solver.dialRadius,
    };
  }

  /**
   * Stands the mesh in a pose (four numbers from `at` on, mm and degrees) moved by `dp`, `dr` mm of pinionIn and
   * ringAway. Costs nothing when it stands there already.
   */
  setPose(values: ArrayLike<number>, at: number, dp: number, dr: number): void {
    const { place, basis } = this;
    const a = values[at] + dp;
    const b = values[at + 1] + dr;
    if (a === place[0] && b === place[1] && values[at + 2] === place[2] && values[at + 3] === place[3])
      return;
    place[0] = a;
    place[1] = b;
    place[2] = values[at + 2];
    place[3] = values[at + 3];
    fillBasis(place, 0, basis);
    for (const flank of FLANKS) {
      this.laid[flank].fill(Number.NaN);
      this.isMet[flank] = false;
      evaluateSurfaces(this.surfaces[flank], basis, this.solution[flank]);
      this.base[flank].set(this.solution[flank].gap);
    }
  }

  /**
   * What paint and dial show in the pose set before. `values` holds the changes of ease-off from `drive` and `coast` on
   * (−1: none); film mm; thickness mm at the dial. Writes FEATURE_COUNT numbers to `out` from `to` on and returns the
   * edges reached, drive in the low four bits (EDGE_BIT), coast in the next four.
   */
  read(
    film: number,
    thickness: number,
    values: ArrayLike<number>,
    drive: number,
    coast: number,
    withTilt: boolean,
    out: Float64Array,
    to: number,
  ): number {
    setFilm(this.rule, film);
    const edges =
      this.readFlank('drive', film, values, drive, withTilt, out, to) +
      16 * this.readFlank('coast', film, values, coast, withTilt, out, to + FLANK_STRIDE);
    const { solution, dial } = this;
    tabulateFreePlay(
      solution.drive.transmission.values,
      solution.coast.transmission.values,
      dial,
      solution.freePlay,
    );
    readDial(solution.freePlay, dial, solution.backlash as Backlash);
    out[to + DIAL_FEATURE] = solution.backlash.normal + thickness;
    return edges;
  }

  /** mm of a dial along the turning direction per mm of one square to the flank. */
  get tangentialPerSquare(): number {
    return this.dial.dialRadius / this.dial.dialLever;
  }

  /** Share of the height that has a pinion tooth opposite begins here: v of the pinion tip at mid width, pose as set. */
  tipLine(): number {
    const { columns, rows } = SEARCH_GRID;
    const { tipClearance } = this.solution.drive;
    const middle = columns >> 1;
    for (let j = 1; j < rows; j++) {
      const above = tipClearance[j * columns + middle];
      const below = tipClearance[(j - 1) * columns + middle];
      if (above >= 0 && below < 0) return -1 + ((j - above / (above - below)) * 2) / (rows - 1);
    }
    return -1;
  }

  private readFlank(
    flank: FlankName,
    film: number,
    values: ArrayLike<number>,
    shapeAt: number,
    withTilt: boolean,
    out: Float64Array,
    to: number,
  ): number {
    const { columns, rows } = SEARCH_GRID;
    const solution = this.solution[flank];
    if (shapeAt < 0) this.shape.fill(0);
    else if (!changeOfEaseOff(this.mesh.definition.easeOff[flank], values, shapeAt, this.shape)) {
      out.fill(Number.NaN, to, to + FLANK_STRIDE);
      return 0;
    }
    this.lay(flank);
    describePatch(solution.separation, solution.tipClearance, columns, rows, this.rule, solution.patch);
    const { patch } = solution;
    out[to] = patch.toeHeel;
    out[to + 1] = patch.rootFace;
    out[to + 2] = patch.length;
    out[to + 3] = patch.height;
    out[to + 4] = withTilt
      ? markCorrelation(solution.separation, solution.tipClearance, columns, rows, film)
      : 0;
    return patch.edges;
  }

  /** Contact lines and separation in the pose and with the ease-off as set; nothing to do where they are there already. */
  private lay(flank: FlankName): void {
    const { shape } = this;
    const laid = this.laid[flank];
    if (shape.every((term, k) => term === laid[k])) return;
    laid.set(shape);
    const { columns, rows } = SEARCH_GRID;
    const solution = this.solution[flank];
    solution.gap.set(this.base[flank]);
    if (shape.some((term) => term !== 0)) this.addEaseOff(flank);
    tabulateTransmission(solution, columns, rows, false, solution.transmission);
    separate({ lever: this.levers[flank] }, solution, solution.transmission, solution.separation);
  }

  /** The pinion flank's ease-off acts where the node meets it: at the partner's place, not the node's own. */
  private addEaseOff(flank: FlankName): void {
    if (!this.isMet[flank]) this.meet(flank);
    const { gap } = this.solution[flank];
    const met = this.met[flank];
    const levers = this.levers[flank];
    const [c0, cu, cv, cuu, cuv, cvv] = this.shape;
    for (let node = 0; node < gap.length; node++) {
      const u = met[2 * node];
      const v = met[2 * node + 1];
      gap[node] += (c0 + u * (cu + u * cuu + v * cuv) + v * (cv + v * cvv)) / levers[node];
    }
  }

  /** Once per pose: predictions of a diagnosis change the ease-off far more often than the pose. */
  private meet(flank: FlankName): void {
    const map = this.partners[flank];
    const met = this.met[flank];
    const { columns, rows } = SEARCH_GRID;
    const [p0, p1, p2, p3] = this.place;
    for (let j = 0, node = 0, at = 0; j < rows; j++) {
      const v0 = -1 + (2 * j) / (rows - 1);
      for (let i = 0; i < columns; i++, node++, at += PARTNER_STRIDE) {
        met[2 * node] =
          -1 +
          (2 * i) / (columns - 1) +
          p0 * map[at] +
          p1 * map[at + 1] +
          p2 * map[at + 2] +
          p3 * map[at + 3];
        met[2 * node + 1] = v0 + p0 * map[at + 4] + p1 * map[at + 5] + p2 * map[at + 6] + p3 * map[at + 7];
      }
    }
    this.isMet[flank] = true;
  }
}

const leversOf = (mesh: GearMesh, flank: FlankName): Float64Array => {
  const { columns, rows } = SEARCH_GRID;
  const { ring } = mesh.flanks[flank];
  const out = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const here = ring.tryAt(-1 + (2 * i) / (columns - 1), -1 + (2 * j) / (rows - 1));
      // m_z = (X×N)_z is the same however the ring is turned
      const moment = here ? here.point[0] * here.normal[1] - here.point[1] * here.normal[0] : 1;
      out[j * columns + i] = Math.abs(moment) / mesh.pitch.ratio;
    }
  }
  return out;
};

/** Coefficients (mm) by which the changed ease-off exceeds the drawn one; false when it is no hill any more. */
const changeOfEaseOff = (
  drawn: EaseOffDefinition,
  values: ArrayLike<number>,
  at: number,
  out: Float64Array,
): boolean => {
  const { lengthwise, profile, bias, centerToeHeel: u, centerRootFace: v } = drawn;
  const longer = lengthwise * Math.exp(values[at + 2]);
  const higher = profile * Math.exp(values[at + 3]);
  if (!(longer * higher > 1.02 * bias * bias)) return false;
  const u1 = u + values[at];
  const v1 = v + values[at + 1];
  out[0] =
    longer * u1 * u1 - lengthwise * u * u + higher * v1 * v1 - profile * v * v + 2 * bias * (u1 * v1 - u * v);
  out[1] = -2 * (longer * u1 - lengthwise * u + bias * (v1 - v));
  out[2] = -2 * (higher * v1 - profile * v + bias * (u1 - u));
  out[3] = longer - lengthwise;
  out[4] = 0;
  out[5] = higher - profile;
  for (let k = 0; k < SHAPE_TERMS; k++) out[k] *= MM_PER_UM;
  return true;
};
