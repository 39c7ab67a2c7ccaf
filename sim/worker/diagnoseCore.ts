import { poseOfFitment } from '../assembly/fitment.ts';
import { EaseOffShift } from '../contact/easeOffShift.ts';
import { MeshSolver } from '../contact/meshSolver.ts';
import type { Pose } from '../contact/pose.ts';
import { adviseFrom } from '../diagnose/adviseFrom.ts';
import { diagnose, type NearestSet } from '../diagnose/diagnose.ts';
import { ObservationError } from '../diagnose/errors.ts';
import { ForwardModel } from '../diagnose/forwardModel.ts';
import type { Observation, Sighting } from '../diagnose/observation.ts';
import type { EaseOffDefinition, FlankName, GearSetDefinition } from '../gearset/definition.ts';
import { buildGearMesh, type GearMesh } from '../gearset/gearMesh.ts';
import { attempt, badArgument, checkFilm, checkPose } from './attempt.ts';
import type { MatchAnswer, MatchRequest, PatternsRequest } from './diagnoseProtocol.ts';
import type { Outcome, SolveResult } from './protocol.ts';
import { solveResult } from './solveResult.ts';

/** mm, below which two looks were at the same shims */
const SAME_PLACE = 1e-6;

/** What a gear set needs to be matched, kept from one request to the next. */
interface Ready {
  readonly key: string;
  readonly mesh: GearMesh;
  readonly model: ForwardModel;
  display: MeshSolver | null;
  shift: EaseOffShift | null;
}

type ForGearSet = Pick<MatchRequest, 'gearSetId' | 'definition' | 'film'>;

/** The core behind the diagnosing worker, synchronous and free of any messaging. Keeps the last gear set. */
export class DiagnoseCore {
  private ready: Ready | null = null;

  match(request: MatchRequest): Outcome<MatchAnswer> {
    return attempt(() => {
      const { film, regime, hardware, limits, present } = request;
      checkFilm(film);
      const ready = this.readyFor(request);
      const perSquare = request.reads === 'square' ? 1 : ready.model.tangentialPerSquare;
      const seen = squareReadings(request.seen, perSquare);
      const recorded = request.recorded && squareReadings(request.recorded, perSquare);
      try {
        const here = poseOfFitment(hardware, present);
        const earlier = (request.earlier ?? []).map((look): Sighting => {
          const there = poseOfFitment(hardware, look.fitted);
          return {
            seen: squareReadings(look.seen, perSquare),
            pinionIn: there.pinionIn - here.pinionIn,
            ringAway: there.ringAway - here.ringAway,
          };
        });
        const { posterior, ...diagnosis } = diagnose(ready.model, seen, { regime, film, earlier });
        const looksBefore = earlier.filter(
          ({ pinionIn, ringAway }) => Math.hypot(pinionIn, ringAway) < SAME_PLACE,
        ).length;
        const advice = adviseFrom(
          ready.model,
          seen,
          { ...diagnosis, posterior },
          { hardware, present, limits, film, recorded, looksBefore },
        );
        const { nearest } = diagnosis;
        const solver = solverFor(ready, nearest.set);
        const { definition } = request;
        const change = advice.kind === 'refused' ? null : advice.change;
        const moved: Pose | null = change && {
          ...nearest.pose,
          pinionIn: nearest.pose.pinionIn + change.move.pinionIn,
          ringAway: nearest.pose.ringAway + change.move.ringAway,
        };
        return {
          diagnosis,
          advice,
          definition: nearest.set
            ? { ...definition, easeOff: easeOffOf(definition, nearest.set) }
            : definition,
          nearest: solved(solver, nearest.pose, nearest.film),
          next: moved && solved(solver, moved, film),
        };
      } catch (error) {
        if (error instanceof ObservationError) throw badArgument(error.field, error.value, error.allowed);
        throw error;
      }
    });
  }

  patterns(request: PatternsRequest): Outcome<readonly SolveResult[]> {
    return attempt(() => {
      checkFilm(request.film);
      request.poses.forEach(checkPose);
      const solver = solverFor(this.readyFor(request), null);
      return request.poses.map((pose) => solved(solver, pose, request.film));
    });
  }

  private readyFor({ gearSetId, definition, film }: ForGearSet): Ready {
    const key = JSON.stringify([gearSetId, definition, film]);
    if (this.ready?.key === key) return this.ready;
    const mesh = buildGearMesh(definition);
    this.ready = { key, mesh, model: new ForwardModel(mesh, film), display: null, shift: null };
    return this.ready;
  }
}

/** The diagnosis reads the dial square to the flank. */
const squareReadings = (seen: Observation, perSquare: number): Observation => ({
  ...seen,
  backlash: seen.backlash.map((reading) => reading / perSquare),
});

const solved = (solver: MeshSolver, pose: Pose, film: number): SolveResult => {
  const solution = solver.createSolution();
  solver.solve(pose, film, solution);
  return solveResult(solver, solution, pose, film);
};

/** On the display grid; with the ease-off the marks speak for where the set is not taken as defined. */
const solverFor = (ready: Ready, set: NearestSet | null): MeshSolver => {
  if (set === null) {
    ready.display ??= new MeshSolver(ready.mesh);
    return ready.display;
  }
  ready.shift ??= new EaseOffShift(ready.mesh);
  return ready.shift.solverFor(easeOffOf(ready.mesh.definition, set));
};

/** The ease-off of the nearest set. */
const easeOffOf = ({ easeOff }: GearSetDefinition, set: NearestSet): GearSetDefinition['easeOff'] => {
  const changed = (flank: FlankName): EaseOffDefinition => {
    const by = set[flank];
    return {
      ...easeOff[flank],
      centerToeHeel: easeOff[flank].centerToeHeel + by.centerToeHeel,
      centerRootFace: easeOff[flank].centerRootFace + by.centerRootFace,
      lengthwise: easeOff[flank].lengthwise * by.lengthwise,
      profile: easeOff[flank].profile * by.profile,
    };
  };
  return { drive: changed('drive'), coast: changed('coast') };
};
