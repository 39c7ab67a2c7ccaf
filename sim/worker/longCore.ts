import { type KeptBacklash, keepBacklash } from '../contact/keepBacklash.ts';
import { findLargerMoves, type LargerMoves } from '../contact/largerMoves.ts';
import { findPatchMoves, type PatchMoves } from '../contact/patchMoves.ts';
import { type RingReadings, readRoundRing } from '../contact/ringReadings.ts';
import { createShimMap, type MapAxis, orderShimMap, solveShimMap } from '../contact/shimMap.ts';
import { attempt, badArgument, checkFilm, checkPose } from './attempt.ts';
import { GearSets } from './gearSets.ts';
import type {
  KeepBacklashRequest,
  LargerMovesRequest,
  LoadRequest,
  PatchMovesRequest,
  RingReadingsRequest,
  ShimMapRequest,
} from './longProtocol.ts';
import type { Outcome } from './protocol.ts';
import { packPiece, type ShimMapPiece } from './shimMapPiece.ts';

/** Gear sets kept ready: two side by side, and one's own beside the one it was made from. */
const KEPT = 4;
/** Cells per piece of a shim map: some ten milliseconds, as long as a short request may have to wait. */
const CELLS_PER_PIECE = 48;

/** A job begun; ask for its pieces until there are no more, or drop it. */
export interface Begun {
  readonly job: number;
}

type Job = Iterator<ShimMapPiece, void, void>;

/**
 * The core behind the second worker, synchronous and free of any messaging: the worker entry exposes it, tests compare
 * with it. Long work goes in pieces that the caller asks for one by one: not asking any more is cancelling.
 */
export class LongCore {
  private readonly gearSets = new GearSets(KEPT);
  private readonly jobs = new Map<number, Job>();
  private lastJob = 0;

  load({ gearSetId, definition }: LoadRequest): Outcome<{ readonly gearSetId: string }> {
    return attempt(() => {
      this.gearSets.get(gearSetId, definition);
      return { gearSetId };
    });
  }

  patchMoves(request: PatchMovesRequest): Outcome<readonly PatchMoves[]> {
    return attempt(() => {
      const { gearSetId, definition, pose, film, steps } = request;
      checkPose(pose);
      checkFilm(film);
      steps.forEach(checkStep);
      const { solver, scratch } = this.gearSets.get(gearSetId, definition).display;
      return steps.map((step) => findPatchMoves(solver, pose, film, step, scratch));
    });
  }

  keepBacklash({ gearSetId, definition, pose, wanted }: KeepBacklashRequest): Outcome<KeptBacklash> {
    return attempt(() => {
      checkPose(pose);
      if (!Number.isFinite(wanted)) throw badArgument('wanted', wanted, 'use a reading in mm');
      const { solver, scratch } = this.gearSets.get(gearSetId, definition).display;
      return keepBacklash(solver, pose, wanted, scratch);
    });
  }

  largerMoves({ gearSetId, definition, pose, most, spare }: LargerMovesRequest): Outcome<LargerMoves> {
    return attempt(() => {
      checkPose(pose);
      if (!(Number.isFinite(most) && most > 0)) throw badArgument('most', most, 'use a factor above 0');
      if (!(Number.isFinite(spare) && spare >= 0)) throw badArgument('spare', spare, 'use 0 mm or more');
      // a picture needs no more than the coarse grid
      const { solver, scratch } = this.gearSets.get(gearSetId, definition).search;
      return findLargerMoves(solver, pose, most, spare, scratch);
    });
  }

  ringReadings(request: RingReadingsRequest): Outcome<RingReadings> {
    return attempt(() => {
      const { gearSetId, definition, pose, runout, places } = request;
      checkPose(pose);
      if (!Number.isFinite(runout.amplitude))
        throw badArgument('runout.amplitude', runout.amplitude, 'use a number of mm');
      if (!Number.isFinite(runout.highAt)) throw badArgument('runout.highAt', runout.highAt, 'use an angle');
      if (!Number.isInteger(places) || places < 1 || places > MOST_PLACES) {
        throw badArgument('places', places, `use a whole number from 1 to ${MOST_PLACES}`);
      }
      const { solver, scratch } = this.gearSets.get(gearSetId, definition).display;
      return readRoundRing(solver, pose, runout, places, scratch);
    });
  }

  beginShimMap({ gearSetId, definition, plane }: ShimMapRequest): Outcome<Begun> {
    return attempt(() => {
      checkFilm(plane.film);
      checkAxis('plane.pinionIn', plane.pinionIn);
      checkAxis('plane.ringAway', plane.ringAway);
      const corner = { ...plane, pinionIn: plane.pinionIn.low, ringAway: plane.ringAway.low };
      checkPose(corner);
      const { solver, scratch } = this.gearSets.get(gearSetId, definition).search;
      const map = createShimMap(plane);
      const { cells } = orderShimMap(map);
      function* pieces(): Job & Iterable<ShimMapPiece> {
        for (const chunk of solveShimMap(solver, map, scratch, CELLS_PER_PIECE)) {
          yield packPiece(map, cells.slice(chunk.from, chunk.to), chunk);
        }
      }
      return this.begin(pieces());
    });
  }

  /** The next piece of a job; null when it is done or was dropped. */
  next(job: number): Outcome<ShimMapPiece | null> {
    return attempt(() => {
      const step = this.jobs.get(job)?.next();
      if (step && !step.done) return step.value;
      this.jobs.delete(job);
      return null;
    });
  }

  drop(job: number): void {
    this.jobs.delete(job);
  }

  private begin(pieces: Job): Begun {
    const job = ++this.lastJob;
    this.jobs.set(job, pieces);
    return { job };
  }
}

const POSE_STEP_FIELDS = ['pinionIn', 'ringAway', 'offsetError', 'shaftAngleError'] as const;

const checkStep = (step: PatchMovesRequest['steps'][number], index: number): void => {
  for (const field of POSE_STEP_FIELDS) {
    const value = step[field];
    if (value === undefined || Number.isFinite(value)) continue;
    throw badArgument(`steps.${index}.${field}`, value, 'use a number, or leave it out');
  }
};

/** Cells of a map along one axis, places round a ring: far more than a screen shows, far fewer than would fill the memory. */
const MOST_PLACES = 400;

const checkAxis = (field: string, { low, high, count }: MapAxis): void => {
  if (!Number.isFinite(low)) throw badArgument(`${field}.low`, low, 'use a number of mm');
  if (!(Number.isFinite(high) && high > low))
    throw badArgument(`${field}.high`, high, `use more than ${low} mm`);
  if (!Number.isInteger(count) || count < 2 || count > MOST_PLACES) {
    throw badArgument(`${field}.count`, count, `use a whole number from 2 to ${MOST_PLACES}`);
  }
};
