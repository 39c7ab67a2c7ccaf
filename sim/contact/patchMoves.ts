import { FLANKS, type FlankName } from '../gearset/definition.ts';
import type { MeshSolution, MeshSolver } from './meshSolver.ts';
import type { Pose } from './pose.ts';

/** One step of an adjustment in pose space: mm, degrees for the shaft angle; what is left out stays. */
export type PoseStep = Partial<Pose>;

/** Move of the mark's centre per step, in flank coordinates. */
export interface PatchMove {
  readonly toeHeel: number;
  readonly rootFace: number;
}

/** Where one step takes the marks and the dial (docs/model.md §9). */
export interface PatchMoves {
  /** null where a flank shows no mark half a step to either side */
  readonly drive: PatchMove | null;
  readonly coast: PatchMove | null;
  /** mm on the dial square to the flank, least over a pitch; null without a common phase of contact */
  readonly dial: number | null;
}

/** The pose `share` steps on. */
export const stepPose = (pose: Pose, step: PoseStep, share: number): Pose => ({
  pinionIn: pose.pinionIn + share * (step.pinionIn ?? 0),
  ringAway: pose.ringAway + share * (step.ringAway ?? 0),
  offsetError: pose.offsetError + share * (step.offsetError ?? 0),
  shaftAngleError: pose.shaftAngleError + share * (step.shaftAngleError ?? 0),
});

const centresOf = ({ drive, coast }: MeshSolution): Readonly<Record<FlankName, PatchMove>> => ({
  drive: { toeHeel: drive.patch.toeHeel, rootFace: drive.patch.rootFace },
  coast: { toeHeel: coast.patch.toeHeel, rootFace: coast.patch.rootFace },
});

/**
 * Central difference of the solved mesh over one step about `pose`, from half a step before to half a step after
 * (docs/model.md §9): two solves, no rule. `film` in mm; `scratch` is overwritten.
 */
export const findPatchMoves = (
  solver: MeshSolver,
  pose: Pose,
  film: number,
  step: PoseStep,
  scratch: MeshSolution,
): PatchMoves => {
  solver.solve(stepPose(pose, step, -0.5), film, scratch);
  const before = centresOf(scratch);
  const dialBefore = scratch.backlash.normal;
  solver.solve(stepPose(pose, step, 0.5), film, scratch);
  const after = centresOf(scratch);
  const moves: Record<FlankName, PatchMove | null> = { drive: null, coast: null };
  for (const flank of FLANKS) {
    const toeHeel = after[flank].toeHeel - before[flank].toeHeel;
    const rootFace = after[flank].rootFace - before[flank].rootFace;
    if (Number.isFinite(toeHeel)) moves[flank] = { toeHeel, rootFace };
  }
  const dial = scratch.backlash.normal - dialBefore;
  return { ...moves, dial: Number.isFinite(dial) ? dial : null };
};
