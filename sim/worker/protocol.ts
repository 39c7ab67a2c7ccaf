import type { Pose } from '../contact/pose.ts';
import type { FlankName, GearSetDefinition } from '../gearset/definition.ts';
import type { UnmakeableCode } from '../gearset/errors.ts';
import type { GearSolids, SolidDetail } from '../gearset/solids.ts';

/** Nodes of the flank grid: `columns` along u (toe→heel), `rows` along v (working root→face). */
export interface GridSize {
  readonly columns: number;
  readonly rows: number;
}

/** Display grid (docs/model.md §9). */
export const DISPLAY_GRID: GridSize = { columns: 61, rows: 31 };

export const EDGES = ['toe', 'heel', 'face', 'root'] as const;
export type EdgeName = (typeof EDGES)[number];

/** What the marking compound shows on one flank (docs/model.md §7), in the units of files and screens. */
export interface PatchReport {
  /** mean u of the mark, −1 toe … +1 heel; null when there is no mark */
  readonly toeHeel: number | null;
  /** mean v of the mark, −1 working root … +1 face; null when there is no mark */
  readonly rootFace: number | null;
  /** extent along u / 2 */
  readonly length: number;
  /** extent along v / 2 */
  readonly height: number;
  /** share of the (u,v) square */
  readonly area: number;
  /** µrad of ring angle, peak to peak over a pitch */
  readonly transmissionError: number;
  readonly edges: readonly EdgeName[];
  /** mean number of tooth pairs that have a contact line at a phase; below 1 the mesh has gaps */
  readonly contactRatio: number;
  /** share of a pitch without any contact line (contact ratio below 1) */
  readonly gapShare: number;
}

export interface BacklashReport {
  /** mm at the heel, square to the drive flank, least over a pitch */
  readonly normal: number;
  readonly normalMean: number;
  readonly normalRange: number;
  /** mm at the heel radius along the turning direction, least over a pitch */
  readonly tangential: number;
  readonly tangentialMean: number;
  /** degrees of ring angle, least over a pitch */
  readonly angle: number;
  /** true when the teeth bind somewhere in the pitch (least backlash zero or below) */
  readonly binding: boolean;
}

export interface GeometryReport {
  /** degrees */
  readonly ringPitchAngle: number;
  readonly pinionPitchAngle: number;
  readonly ringSpiralAngle: number;
  readonly limitPressureAngle: number;
  /** mm */
  readonly ringMeanRadius: number;
  readonly pinionMeanRadius: number;
  readonly meanNormalModule: number;
  readonly workingDepth: number;
  readonly ringAddendum: number;
  readonly pinionAddendum: number;
  /** degrees */
  readonly driveBladeAngle: number;
  readonly coastBladeAngle: number;
  /** mm */
  readonly pointWidth: number;
  /** degrees */
  readonly cutterLeadAngle: number;
  /** mm */
  readonly limitCurvatureRadius: number;
  readonly meanPoint: readonly [number, number, number];
}

/**
 * Tooth outline of the ring flank developed flat, mm: l along the face width (toe −b/2 … heel +b/2),
 * d along the tooth height from the pitch cone. A height line is d(l) = d0 + slope·l.
 */
export interface FlankOutline {
  readonly faceWidth: number;
  readonly face: { readonly d0: number; readonly slope: number };
  readonly workingRoot: { readonly d0: number; readonly slope: number };
  readonly root: { readonly d0: number; readonly slope: number };
  /** Looking square at the flank from its slot, face up: is the heel on the right? (standard-cut; mirrored for reverse-cut) */
  readonly heelOnRight: Readonly<Record<FlankName, boolean>>;
}

/** A gear set as loaded: everything about it that does not depend on the pose. */
export interface LoadedGearSet {
  readonly geometry: GeometryReport;
  readonly outline: FlankOutline;
  readonly gearRatio: number;
  /** makeable, but close to a limit; each in the words of the core, field first */
  readonly warnings: readonly { readonly field: string; readonly message: string }[];
}

/**
 * One flank of one solved pose. Grid arrays are row-major, index = row·columns + column;
 * column along u (−1 toe … +1 heel), row along v (−1 working root … +1 face), both equally spaced.
 */
export interface FlankResult extends PatchReport {
  /** mm between the flanks where each point would meet; continues smoothly past the pinion tip; NOT_MEETING where a point never meets */
  readonly separation: Float32Array;
  /** mm from the opposing pinion tip, negative = no pinion tooth opposite (mask the mark there) */
  readonly tipClearance: Float32Array;
  /** rad, ring angle at which the point is in contact (its contact line); NOT_MEETING where it never meets */
  readonly phase: Float32Array;
  /** rad of ring angle, TE over one ring pitch, equally spaced phases starting at phase 0; least value over neighbouring pairs; NaN where no pair is in contact */
  readonly transmissionErrorCurve: Float32Array;
}

/** Placed in grid arrays where a ring point has no contact root (never meets the pinion flank). */
export const NOT_MEETING = 1e6;

export interface SolveResult {
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  readonly grid: GridSize;
  readonly drive: FlankResult;
  readonly coast: FlankResult;
  readonly backlash: BacklashReport;
  /** rad of ring angle, ring free play j over one pitch, equally spaced phases starting at 0 */
  readonly backlashCurve: Float32Array;
}

export type WorkerFailure =
  | { readonly kind: 'unmakeable'; readonly code: UnmakeableCode; readonly field: string; readonly value: string; readonly allowed: string }
  | { readonly kind: 'bad-argument'; readonly field: string; readonly value: string; readonly allowed: string }
  | { readonly kind: 'not-loaded'; readonly gearSetId: string }
  | { readonly kind: 'internal'; readonly message: string };

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: WorkerFailure };

/** The whole interface of the worker; sim/worker/client.ts hides Comlink behind the same methods. */
export interface MeshService {
  /** Builds and keeps a gear set under `gearSetId` (replaces one of the same id). */
  load(gearSetId: string, definition: GearSetDefinition): Promise<Outcome<LoadedGearSet>>;
  /** Solves one pose on the display grid; film in mm. */
  solve(gearSetId: string, pose: Pose, film: number): Promise<Outcome<SolveResult>>;
  /** Triangle meshes of ring and pinion from the solver's own surfaces, for drawing. */
  solids(gearSetId: string, detail: SolidDetail): Promise<Outcome<GearSolids>>;
}
