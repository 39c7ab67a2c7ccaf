import { FLANKS, type FlankName } from '../gearset/definition.ts';
import { UnmakeableError } from '../gearset/errors.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import { RAD_PER_DEG, TURN } from '../math/angles.ts';
import { type Backlash, type DialSetting, readDial, tabulateFreePlay } from './backlash.ts';
import { DISPLAY_GRID, type GridSize, PHASES_PER_PITCH } from './grid.ts';
import { buildNodeTables, type NodeTables } from './nodeTable.ts';
import { createMarkRule, describePatch, type MarkRule, type Patch, separate, setFilm } from './patch.ts';
import { DESIGN_POSE, type Pose } from './pose.ts';
import { type PosedAxis, type PosedFlank, poseFlank } from './posedFlank.ts';
import { createTransmissionTable, type TransmissionTable, tabulateTransmission } from './transmission.ts';

/** Root contact counts within this share of the working depth of the pinion tip (docs/model.md §7). */
const ROOT_MARGIN = 0.01;
const THINNING_PASSES = 4;
const HEEL_MIDDLE = { u: 1, v: 0 };

/** One flank of a solved pose; buffers are owned by the solution and overwritten by each solve. */
export interface FlankSolution extends PosedFlank {
  /** mm; NOT_MEETING where the point never meets */
  readonly separation: Float64Array;
  readonly transmission: TransmissionTable;
  readonly patch: Patch;
  /** rad of ring angle, peak to peak of TE_all over a pitch */
  transmissionError: number;
  /** potential contact length in pitches; below 1 no pair is in contact for part of a pitch */
  contactRatio: number;
  /** share of the pitch without contact */
  gapShare: number;
}

/** Caller-owned result of `MeshSolver.solve`. */
export interface MeshSolution {
  readonly drive: FlankSolution;
  readonly coast: FlankSolution;
  readonly backlash: Backlash;
  /** ring free play j(φ), rad, at PHASES_PER_PITCH phases; NaN where a flank has no contact */
  readonly freePlay: Float64Array;
}

const createFlankSolution = (nodes: number, ringPitch: number): FlankSolution => ({
  phase: new Float64Array(nodes),
  gap: new Float64Array(nodes),
  tipClearance: new Float64Array(nodes),
  separation: new Float64Array(nodes),
  probe: new Float64Array(3),
  transmission: createTransmissionTable(ringPitch),
  patch: { toeHeel: Number.NaN, rootFace: Number.NaN, length: 0, height: 0, area: 0, edges: 0 },
  transmissionError: Number.NaN,
  contactRatio: 0.5,
  gapShare: 0.5,
});

/**
 * The explicit solver of one gear set on one grid (docs/model.md §5–§7). Building tabulates the flanks; `solve`
 * then runs without allocation.
 */
export class MeshSolver {
  readonly mesh: GearMesh;
  readonly size: GridSize;
  private readonly tables: NodeTables;
  private readonly axis: PosedAxis;
  private readonly rule: MarkRule;
  private readonly ringPitch: number;
  private readonly dial: DialSetting;
  /** rad of pinion by which its coast flank is turned back to leave the design backlash */
  readonly pinionThinning: number;
  /** |v_n|, mm of normal motion at the heel per rad of ring */
  readonly dialLever: number;
  /** mm, radius at which the tangential dial reads */
  readonly dialRadius: number;

  /** `tables`, where given, are those of this mesh on this grid (easeOffShift.ts); else they are built here. */
  constructor(mesh: GearMesh, size: GridSize = DISPLAY_GRID, tables = buildNodeTables(mesh, size)) {
    this.mesh = mesh;
    this.size = size;
    this.ringPitch = TURN / mesh.definition.ringTeeth;
    this.axis = {
      ratio: mesh.pitch.ratio,
      offset: mesh.pitch.offset,
      ox: 0.5,
      oy: 0.5,
      oz: 0.5,
      ax: 1.5,
      az: 0.5,
    };
    this.rule = createMarkRule(ROOT_MARGIN * mesh.blank.workingDepth);
    this.tables = tables;
    const heel = mesh.flanks.drive.ring.at(HEEL_MIDDLE.u, HEEL_MIDDLE.v);
    // v_n = (ẑ×X)·N = z component of X×N
    this.dialLever = Math.abs(heel.point[0] * heel.normal[1] - heel.point[1] * heel.normal[0]);
    this.dialRadius = Math.hypot(heel.point[0], heel.point[1]);
    const design = this.createSolution();
    this.setAxis(DESIGN_POSE);
    for (const flank of FLANKS) this.runFlank(flank, design[flank]);
    const wanted = mesh.definition.backlash / this.dialLever;
    this.dial = {
      ratio: mesh.pitch.ratio,
      pitch: this.ringPitch,
      constantPlay: wanted,
      dialLever: this.dialLever,
      dialRadius: this.dialRadius,
    };
    // The thinning shifts the two flanks' phases against each other by micrometres: a few passes are exact.
    for (let pass = 0; pass < THINNING_PASSES; pass++) {
      this.readBacklash(design);
      this.dial.constantPlay += wanted - design.backlash.normal / this.dialLever;
    }
    this.pinionThinning = this.dial.constantPlay * mesh.pitch.ratio;
    const least = design.backlash.normal;
    if (!Number.isFinite(least)) {
      throw new UnmakeableError(
        'no-contact-root',
        'faceWidth',
        `${mesh.definition.faceWidth} mm leaves the two flanks no phase of common contact`,
        'use a wider faceWidth or more teeth',
      );
    }
  }

  /** Buffers for one solution; reuse them for every solve. */
  createSolution(): MeshSolution {
    const nodes = this.size.columns * this.size.rows;
    return {
      drive: createFlankSolution(nodes, this.ringPitch),
      coast: createFlankSolution(nodes, this.ringPitch),
      backlash: {
        normal: 0.5,
        normalMean: 0.5,
        normalRange: 0.5,
        tangential: 0.5,
        tangentialMean: 0.5,
        angle: 0.5,
      },
      freePlay: new Float64Array(PHASES_PER_PITCH),
    };
  }

  /** Solves one pose at a film thickness in mm; writes everything into `out`. */
  solve(pose: Pose, film: number, out: MeshSolution): void {
    this.setAxis(pose);
    setFilm(this.rule, film);
    for (const flank of FLANKS) {
      const solution = out[flank];
      this.runFlank(flank, solution);
      this.readFlank(flank, solution);
    }
    this.readBacklash(out);
  }

  private readBacklash(out: MeshSolution): void {
    const { freePlay } = out;
    tabulateFreePlay(out.drive.transmission.values, out.coast.transmission.values, this.dial, freePlay);
    readDial(freePlay, this.dial, out.backlash);
  }

  private setAxis(pose: Pose): void {
    const { mirrored, pitch } = this.mesh;
    const sigma = pose.shaftAngleError * RAD_PER_DEG;
    this.axis.ox = -pose.pinionIn;
    this.axis.oy = pitch.offset + (mirrored ? -pose.offsetError : pose.offsetError);
    this.axis.oz = pose.ringAway;
    this.axis.ax = Math.cos(sigma);
    this.axis.az = Math.sin(sigma);
  }

  private runFlank(flank: FlankName, out: FlankSolution): void {
    const { columns, rows } = this.size;
    poseFlank(this.tables[flank], this.axis, out);
    tabulateTransmission(out, columns, rows, true, out.transmission);
  }

  private readFlank(flank: FlankName, out: FlankSolution): void {
    const { ratio } = this.mesh.pitch;
    const { columns, rows } = this.size;
    separate(this.tables[flank], out, out.transmission, out.separation);
    describePatch(out.separation, out.tipClearance, columns, rows, this.rule, out.patch);
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    let empty = 0;
    const { values, range } = out.transmission;
    for (let k = 0; k < PHASES_PER_PITCH; k++) {
      const value = values[k];
      if (value === Number.POSITIVE_INFINITY) {
        empty++;
        continue;
      }
      if (value < low) low = value;
      if (value > high) high = value;
    }
    out.transmissionError = high >= low ? (high - low) / ratio : Number.NaN;
    out.gapShare = empty / PHASES_PER_PITCH;
    out.contactRatio = range[1] > range[0] ? (range[1] - range[0]) / PHASES_PER_PITCH : 0;
  }
}
