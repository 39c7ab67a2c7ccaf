import type { DialDirection } from '../assembly/dial.ts';
import type { AxleHardware, Fitment } from '../assembly/hardware.ts';
import type { Pose } from '../contact/pose.ts';
import type { AdviceAnswer, BacklashLimits } from '../diagnose/adviseFrom.ts';
import type { Diagnosis } from '../diagnose/diagnose.ts';
import type { Observation } from '../diagnose/observation.ts';
import type { Regime } from '../diagnose/unknowns.ts';
import type { GearSetDefinition } from '../gearset/definition.ts';
import type { Outcome, SolveResult } from './protocol.ts';

export type { Cost } from '../assembly/adviceCost.ts';
export type { Wish } from '../assembly/adviceScore.ts';
export type { Advice, ShimChange } from '../assembly/advise.ts';
export type { Expected, ExpectedMark, Spread } from '../assembly/foretell.ts';
export type { AdviceAnswer, BacklashLimits } from '../diagnose/adviseFrom.ts';
export type { Diagnosis, NearestMesh } from '../diagnose/diagnose.ts';
export type { ReadingName } from '../diagnose/evidence.ts';
export type { NextReading, NextReadingName } from '../diagnose/nextReading.ts';
export type { Observation, SeenMark } from '../diagnose/observation.ts';
// biome-ignore lint/performance/noBarrelFile: the app may reach the core's values only through this folder
export { CAREFUL, MOST_EARLIER, ROUGH } from '../diagnose/observation.ts';
export type { Alternative, Estimate, PoseEstimate } from '../diagnose/summary.ts';
export type { Housing, Regime } from '../diagnose/unknowns.ts';

/** One look at an axle, and what belongs to it. */
export interface MatchRequest {
  readonly gearSetId: string;
  readonly definition: GearSetDefinition;
  /** mm, film of the workshop where the observation states none */
  readonly film: number;
  readonly regime: Regime;
  /** its readings, and those recorded, as the dial read them in `reads` */
  readonly seen: Observation;
  readonly reads: DialDirection;
  readonly hardware: AxleHardware;
  readonly limits: BacklashLimits;
  /** what was fitted while it was seen */
  readonly present: Fitment;
  /** the same set seen before this look, oldest first; read in `reads` too */
  readonly earlier?: readonly { readonly seen: Observation; readonly fitted: Fitment }[];
  /** what was recorded before teardown: the target of a used set; null for a new one */
  readonly recorded: Observation | null;
}

/** What it means and what to fit next (docs/model.md §12, §13). */
export interface MatchAnswer {
  readonly diagnosis: Diagnosis;
  readonly advice: AdviceAnswer;
  /** the gear set as the marks speak for it: with the nearest mesh's ease-off; as defined in the known regime */
  readonly definition: GearSetDefinition;
  /** the nearest simulated mesh, solved on the display grid for drawing */
  readonly nearest: SolveResult;
  /** the same mesh after the advised change; null when nothing is changed */
  readonly next: SolveResult | null;
}

/** States of an axle whose patterns are wanted for picking one. */
export interface PatternsRequest {
  readonly gearSetId: string;
  readonly definition: GearSetDefinition;
  /** mm */
  readonly film: number;
  readonly poses: readonly Pose[];
}

/** From marks and readings to shims, in a worker of its own: painting never waits for it. */
export interface DiagnoseService {
  /** Null: a newer request has taken its place. */
  match(request: MatchRequest): Promise<Outcome<MatchAnswer> | null>;
  /** Each pose solved on the display grid, in order. */
  patterns(request: PatternsRequest): Promise<Outcome<readonly SolveResult[]>>;
  dispose(): void;
}
