import { PatternDesigner } from '../contact/designPattern.ts';
import type { HomePatch } from '../contact/homePatch.ts';
import { type KeptBacklash, keepBacklash } from '../contact/keepBacklash.ts';
import { findLargerMoves, type LargerMoves } from '../contact/largerMoves.ts';
import { findPatchMoves, type PatchMoves } from '../contact/patchMoves.ts';
import { type RingReadings, readRoundRing } from '../contact/ringReadings.ts';
import { createShimMap, type MapAxis, orderShimMap, solveShimMap } from '../contact/shimMap.ts';
import { type SpreadSample, solveSpread } from '../contact/spread.ts';
import { startFromCaliper } from '../gearset/caliper.ts';
import { FLANKS, type FlankName, type GearSetDefinition } from '../gearset/definition.ts';
import { buildGearMesh } from '../gearset/gearMesh.ts';
import { type Mend, walkToMakeable } from '../gearset/nearestMakeable.ts';
import { attempt, badArgument, checkFilm, checkPose } from './attempt.ts';
import { GearSets } from './gearSets.ts';
import type {
  CaliperRequest,
  CaliperValue,
  DesignPatternRequest,
  DesignPatternValue,
  HomePatchesRequest,
  KeepBacklashRequest,
  LargerMovesRequest,
  LoadRequest,
  NearestMakeableRequest,
  PatchMovesRequest,
  RingReadingsRequest,
  ShimMapRequest,
  SpreadRequest,
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

/** Nearest values so far, one per field looked at. */
export interface MendPiece {
  readonly mends: ReadonlyArray<Mend | null>;
}

/** Jobs of one kind, by number. */
class Jobs<Piece> {
  private readonly running = new Map<number, Iterator<Piece, void, void>>();

  begin(job: number, pieces: Iterator<Piece, void, void>): Begun {
    this.running.set(job, pieces);
    return { job };
  }

  /** The next piece; null when the job is done or was dropped. */
  next(job: number): Outcome<Piece | null> {
    return attempt(() => {
      const step = this.running.get(job)?.next();
      if (step && !step.done) return step.value;
      this.running.delete(job);
      return null;
    });
  }

  drop(job: number): void {
    this.running.delete(job);
  }
}

/**
 * The core behind the second worker, synchronous and free of any messaging: the worker entry exposes it, tests compare
 * with it. Long work goes in pieces that the caller asks for one by one: not asking any more is cancelling.
 */
export class LongCore {
  private readonly gearSets = new GearSets(KEPT);
  private readonly shimMaps = new Jobs<ShimMapPiece>();
  private readonly spreads = new Jobs<SpreadSample>();
  private readonly mends = new Jobs<MendPiece>();
  private readonly designers = new Map<string, PatternDesigner>();
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
      function* pieces(): Generator<ShimMapPiece, void, void> {
        for (const chunk of solveShimMap(solver, map, scratch, CELLS_PER_PIECE)) {
          yield packPiece(map, cells.slice(chunk.from, chunk.to), chunk);
        }
      }
      return this.shimMaps.begin(++this.lastJob, pieces());
    });
  }

  /** The next piece of a job; null when it is done or was dropped. */
  nextOfShimMap(job: number): Outcome<ShimMapPiece | null> {
    return this.shimMaps.next(job);
  }

  beginSpread({ definition, question, count, unknowns }: SpreadRequest): Outcome<Begun> {
    return attempt(() => {
      checkPose(question.pose);
      checkFilm(question.film);
      question.steps.forEach(checkStep);
      if (!Number.isInteger(count) || count < 1 || count > MOST_DRAWS) {
        throw badArgument('count', count, `use a whole number from 1 to ${MOST_DRAWS}`);
      }
      for (const [name, width] of Object.entries(unknowns)) {
        if (!(Number.isFinite(width) && width >= 0)) {
          throw badArgument(`unknowns.${name}`, width, 'use a number of 0 or more');
        }
      }
      return this.spreads.begin(++this.lastJob, solveSpread(definition, question, count, unknowns));
    });
  }

  nextOfSpread(job: number): Outcome<SpreadSample | null> {
    return this.spreads.next(job);
  }

  beginNearestMakeable({ definition, fields }: NearestMakeableRequest): Outcome<Begun> {
    return attempt(() => {
      function* pieces(): Generator<MendPiece, void, void> {
        const mends: Array<Mend | null> = [];
        for (const field of fields) {
          const walk = walkToMakeable(definition, field);
          for (let step = walk.next(); ; step = walk.next()) {
            if (step.done) {
              mends.push(step.value);
              break;
            }
            yield { mends: [...mends] };
          }
        }
        yield { mends };
      }
      return this.mends.begin(++this.lastJob, pieces());
    });
  }

  nextOfNearestMakeable(job: number): Outcome<MendPiece | null> {
    return this.mends.next(job);
  }

  drop(job: number): void {
    for (const jobs of [this.shimMaps, this.spreads, this.mends]) jobs.drop(job);
  }

  homePatches({ definition, film }: HomePatchesRequest): Outcome<Record<FlankName, HomePatch>> {
    return attempt(() => {
      checkFilm(film);
      return this.designerFor(definition).patchesFor(definition.easeOff, film);
    });
  }

  designPattern({ definition, wanted, film }: DesignPatternRequest): Outcome<DesignPatternValue> {
    return attempt(() => {
      checkFilm(film);
      for (const flank of FLANKS) {
        for (const [wish, value] of Object.entries(wanted[flank] ?? {})) {
          if (value === undefined || Number.isFinite(value)) continue;
          throw badArgument(`wanted.${flank}.${wish}`, value, 'use a number, or leave it out');
        }
      }
      const patterns = this.designerFor(definition).design(definition.easeOff, wanted, film);
      const { drive, coast } = definition.easeOff;
      const easeOff = {
        drive: patterns.drive?.easeOff ?? drive,
        coast: patterns.coast?.easeOff ?? coast,
      };
      return { patterns, easeOff };
    });
  }

  caliper({ reading }: CaliperRequest): Outcome<CaliperValue> {
    return attempt(() => {
      const start = startFromCaliper(reading);
      if (start.makeable) return { definition: start.definition, altered: start.altered, refusal: null };
      const { code, field, value, allowed } = start.error;
      return { definition: start.definition, altered: [], refusal: { code, field, value, allowed } };
    });
  }

  /** A drag changes the ease-off only, and a designer does not care which one its set has. */
  private designerFor(definition: GearSetDefinition): PatternDesigner {
    const key = JSON.stringify({ ...definition, easeOff: null });
    const designer = this.designers.get(key) ?? new PatternDesigner(buildGearMesh(definition));
    this.designers.delete(key);
    this.designers.set(key, designer);
    for (const oldest of this.designers.keys()) {
      if (this.designers.size <= KEPT) break;
      this.designers.delete(oldest);
    }
    return designer;
  }
}

/** Draws of a spread: far more than its quantiles ask for. */
const MOST_DRAWS = 5000;

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
