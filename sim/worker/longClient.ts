import * as Comlink from 'comlink';
import { createShimMap } from '../contact/shimMap.ts';
import { type SpreadSample, summariseSpread } from '../contact/spread.ts';
import { guardWorker } from './guarded.ts';
import type { Begun, MendPiece } from './longCore.ts';
import type { LongWorkerApi } from './longEntry.ts';
import type {
  Answer,
  CaliperRequest,
  DesignPatternRequest,
  HomePatchesRequest,
  KeepBacklashRequest,
  LargerMovesRequest,
  LoadRequest,
  LongService,
  NearestMakeableRequest,
  PatchMovesRequest,
  RingReadingsRequest,
  ShimMapRequest,
  ShimMapStride,
  SpreadRequest,
} from './longProtocol.ts';
import type { Outcome } from './protocol.ts';
import { copyMap, type ShimMapPiece, unpackPiece } from './shimMapPiece.ts';
import { createTurns } from './turns.ts';

export interface LongServiceOptions {
  /** Awaited before each piece of long work: where processors are few, the hand at a slider goes first. */
  readonly beforePiece?: () => Promise<void>;
}

/** Starts the second worker. One that cannot start or dies answers every request with an `internal` failure. */
export const createLongService = ({ beforePiece }: LongServiceOptions = {}): LongService => {
  const worker = new Worker(new URL('./longEntry.ts', import.meta.url), {
    type: 'module',
    name: 'long work',
  });
  const remote = Comlink.wrap<LongWorkerApi>(worker);
  const { guarded, close } = guardWorker(worker);
  const turns = createTurns();

  /** A request that is answered in one go. */
  const ask = async <Request, Value>(
    request: Request,
    signal: AbortSignal | undefined,
    work: (request: Request) => Promise<Outcome<Value>>,
  ): Promise<Answer<Request, Value> | null> => {
    const outcome = await turns.take(true, signal, () => guarded(() => work(request)));
    return outcome && { ...outcome, request };
  };

  const drop = (job: number): void => {
    remote.drop(job).catch(() => undefined);
  };

  /** Asks for the pieces of a job one by one: true when the last has come, null when the signal was aborted. */
  const work = async <Piece>(
    begin: () => Promise<Outcome<Begun>>,
    askNext: (job: number) => Promise<Outcome<Piece | null>>,
    signal: AbortSignal | undefined,
    onPiece: (piece: Piece) => void,
  ): Promise<Outcome<true> | null> => {
    const start = await turns.take(false, signal, async () => {
      const begun = await guarded(begin);
      if (signal?.aborted && begun.ok) drop(begun.value.job);
      return begun;
    });
    if (!start?.ok) return start;
    const { job } = start.value;
    for (;;) {
      await beforePiece?.();
      const next = await turns.take(false, signal, () => guarded(() => askNext(job)));
      if (next === null) drop(job);
      if (!next?.ok) return next;
      if (next.value === null) return { ok: true, value: true };
      onPiece(next.value);
    }
  };

  return {
    load: (gearSetId, definition, { signal } = {}) => {
      const request: LoadRequest = { kind: 'load', gearSetId, definition };
      return ask(request, signal, (asked) => remote.load(asked));
    },
    patchMoves: (gearSetId, definition, pose, film, steps, { signal } = {}) => {
      const request: PatchMovesRequest = { kind: 'patchMoves', gearSetId, definition, pose, film, steps };
      return ask(request, signal, (asked) => remote.patchMoves(asked));
    },
    keepBacklash: (gearSetId, definition, pose, wanted, { signal } = {}) => {
      const request: KeepBacklashRequest = { kind: 'keepBacklash', gearSetId, definition, pose, wanted };
      return ask(request, signal, (asked) => remote.keepBacklash(asked));
    },
    largerMoves: (gearSetId, definition, pose, most, spare, { signal } = {}) => {
      const request: LargerMovesRequest = { kind: 'largerMoves', gearSetId, definition, pose, most, spare };
      return ask(request, signal, (asked) => remote.largerMoves(asked));
    },
    ringReadings: (gearSetId, definition, pose, runout, places, { signal } = {}) => {
      const request: RingReadingsRequest = {
        kind: 'ringReadings',
        gearSetId,
        definition,
        pose,
        runout,
        places,
      };
      return ask(request, signal, (asked) => remote.ringReadings(asked));
    },
    shimMap: async (gearSetId, definition, plane, { signal, onProgress } = {}) => {
      const request: ShimMapRequest = { kind: 'shimMap', gearSetId, definition, plane };
      let map: ReturnType<typeof createShimMap> | null = null;
      let told: ShimMapStride | null = null;
      const ended = await work(
        () => remote.beginShimMap(request),
        (job) => remote.nextOfShimMap(job),
        signal,
        (piece: ShimMapPiece) => {
          map ??= createShimMap(plane);
          unpackPiece(map, piece);
          const { to: solvedCells, total, covered } = piece;
          // a copy of the whole map is a quarter of a megabyte: once a pass, not once a piece
          const passDone = covered !== told;
          told = covered;
          onProgress?.({ map: passDone ? copyMap(map) : null, solvedCells, total, covered });
        },
      );
      if (ended === null) return null;
      if (!ended.ok) return { ...ended, request };
      return { ok: true, value: map ?? createShimMap(plane), request };
    },
    spread: async (gearSetId, definition, question, count, unknowns, { signal, onProgress } = {}) => {
      const request: SpreadRequest = { kind: 'spread', gearSetId, definition, question, count, unknowns };
      const samples: SpreadSample[] = [];
      const sumUp = () => summariseSpread(samples, question.steps.length);
      const ended = await work(
        () => remote.beginSpread(request),
        (job) => remote.nextOfSpread(job),
        signal,
        (sample: SpreadSample) => {
          samples.push(sample);
          onProgress?.({ drawn: samples.length, count, spread: sumUp() });
        },
      );
      if (ended === null) return null;
      return ended.ok ? { ok: true, value: { spread: sumUp(), samples }, request } : { ...ended, request };
    },
    homePatches: (gearSetId, definition, film, { signal } = {}) => {
      const request: HomePatchesRequest = { kind: 'homePatches', gearSetId, definition, film };
      return ask(request, signal, (asked) => remote.homePatches(asked));
    },
    designPattern: (gearSetId, definition, wanted, film, { signal } = {}) => {
      const request: DesignPatternRequest = { kind: 'designPattern', gearSetId, definition, wanted, film };
      return ask(request, signal, (asked) => remote.designPattern(asked));
    },
    nearestMakeable: async (definition, fields, { signal } = {}) => {
      const request: NearestMakeableRequest = { kind: 'nearestMakeable', definition, fields };
      let mends: MendPiece['mends'] = [];
      const ended = await work(
        () => remote.beginNearestMakeable(request),
        (job) => remote.nextOfNearestMakeable(job),
        signal,
        (piece: MendPiece) => {
          mends = piece.mends;
        },
      );
      if (ended === null) return null;
      return ended.ok ? { ok: true, value: mends, request } : { ...ended, request };
    },
    caliper: (reading, { signal } = {}) => {
      const request: CaliperRequest = { kind: 'caliper', reading };
      return ask(request, signal, (asked) => remote.caliper(asked));
    },
    dispose: () => {
      close('the long service was closed');
      remote[Comlink.releaseProxy]();
      worker.terminate();
    },
  };
};
