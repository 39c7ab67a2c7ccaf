import * as Comlink from 'comlink';
import { createShimMap } from '../contact/shimMap.ts';
import { guardWorker } from './guarded.ts';
import type { Begun } from './longCore.ts';
import type { LongWorkerApi } from './longEntry.ts';
import type {
  Answer,
  KeepBacklashRequest,
  LargerMovesRequest,
  LoadRequest,
  LongService,
  PatchMovesRequest,
  RingReadingsRequest,
  ShimMapRequest,
} from './longProtocol.ts';
import type { Outcome } from './protocol.ts';
import { copyMap, type ShimMapPiece, unpackPiece } from './shimMapPiece.ts';
import { createTurns } from './turns.ts';

/** Starts the second worker. One that cannot start or dies answers every request with an `internal` failure. */
export const createLongService = (): LongService => {
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
  const work = async (
    begin: () => Promise<Outcome<Begun>>,
    signal: AbortSignal | undefined,
    onPiece: (piece: ShimMapPiece) => void,
  ): Promise<Outcome<true> | null> => {
    const start = await turns.take(false, signal, async () => {
      const begun = await guarded(begin);
      if (signal?.aborted && begun.ok) drop(begun.value.job);
      return begun;
    });
    if (!start?.ok) return start;
    const { job } = start.value;
    for (;;) {
      const next = await turns.take(false, signal, () => guarded(() => remote.next(job)));
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
      const ended = await work(
        () => remote.beginShimMap(request),
        signal,
        (piece) => {
          map ??= createShimMap(plane);
          unpackPiece(map, piece);
          const { to: solvedCells, total, covered } = piece;
          onProgress?.({ map: copyMap(map), solvedCells, total, covered });
        },
      );
      if (ended === null) return null;
      if (!ended.ok) return { ...ended, request };
      return { ok: true, value: map ?? createShimMap(plane), request };
    },
    dispose: () => {
      close('the long service was closed');
      remote[Comlink.releaseProxy]();
      worker.terminate();
    },
  };
};
