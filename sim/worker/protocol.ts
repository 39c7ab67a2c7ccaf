import type { GridSize } from '../contact/grid.ts';
import type { Pose } from '../contact/pose.ts';
import type { BacklashReport, PatchReport } from '../contact/report.ts';
import type { GearSetDefinition } from '../gearset/definition.ts';
import type { UnmakeableCode } from '../gearset/errors.ts';
import type { FlankOutline, GeometryReport } from '../gearset/geometryReport.ts';
import type { MakeabilityWarning } from '../gearset/makeability.ts';
import type { GearSolids, SolidDetail } from '../gearset/solids.ts';

export type { GridSize } from '../contact/grid.ts';
// biome-ignore lint/performance/noBarrelFile: the app may reach the core's values only through this folder
export { NOT_MEETING } from '../contact/grid.ts';
export type { BacklashReport, EdgeName, PatchReport } from '../contact/report.ts';
export { EDGES } from '../contact/report.ts';
export { FLANKS } from '../gearset/definition.ts';
export type { FlankOutline } from '../gearset/geometryReport.ts';

/** A gear set as loaded: everything about it that does not depend on the pose. */
export interface LoadedGearSet {
  readonly geometry: GeometryReport;
  readonly outline: FlankOutline;
  readonly gearRatio: number;
  /** negative offset: everything is computed and drawn as the mirror image with a positive offset */
  readonly mirrored: boolean;
  /** makeable, but close to a limit; field first */
  readonly warnings: readonly MakeabilityWarning[];
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

export interface SolveResult {
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  readonly grid: GridSize;
  readonly drive: FlankResult;
  readonly coast: FlankResult;
  readonly backlash: BacklashReport;
  /** rad of ring angle, ring free play j over one pitch, equally spaced phases starting at 0; NaN without contact */
  readonly freePlayCurve: Float32Array;
}

export type WorkerFailure =
  | {
      readonly kind: 'unmakeable' | 'bad-argument';
      readonly code: UnmakeableCode;
      readonly field: string;
      readonly value: string;
      readonly allowed: string;
    }
  | { readonly kind: 'not-loaded'; readonly gearSetId: string }
  | { readonly kind: 'internal'; readonly message: string };

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly failure: WorkerFailure };

/** What the worker offers; `sim/worker/client.ts` is the way in for the app. */
export interface MeshService {
  /** Builds and keeps a gear set under `gearSetId` (replaces one of the same id). */
  load(gearSetId: string, definition: GearSetDefinition): Promise<Outcome<LoadedGearSet>>;
  /** Solves one pose on the display grid; film in mm. */
  solve(gearSetId: string, pose: Pose, film: number): Promise<Outcome<SolveResult>>;
  /** Triangle meshes of ring and pinion from the solver's own surfaces, for drawing. */
  solids(gearSetId: string, detail: SolidDetail): Promise<Outcome<GearSolids>>;
}
