import * as Comlink from 'comlink';
import { LongCore } from './longCore.ts';

/** The second worker's side: pieces of long work leave by transfer, nothing is copied. */
const core = new LongCore();

const api = {
  load: core.load.bind(core),
  patchMoves: core.patchMoves.bind(core),
  keepBacklash: core.keepBacklash.bind(core),
  largerMoves: core.largerMoves.bind(core),
  ringReadings: core.ringReadings.bind(core),
  beginShimMap: core.beginShimMap.bind(core),
  nextOfShimMap: (job: number) => {
    const piece = core.nextOfShimMap(job);
    if (!piece.ok || piece.value === null) return piece;
    const { cells, numbers, flags } = piece.value;
    return Comlink.transfer(piece, [cells.buffer, numbers.buffer, flags.buffer] as Transferable[]);
  },
  beginSpread: core.beginSpread.bind(core),
  nextOfSpread: core.nextOfSpread.bind(core),
  beginNearestMakeable: core.beginNearestMakeable.bind(core),
  nextOfNearestMakeable: core.nextOfNearestMakeable.bind(core),
  homePatches: core.homePatches.bind(core),
  designPattern: core.designPattern.bind(core),
  caliper: core.caliper.bind(core),
  drop: core.drop.bind(core),
};

export type LongWorkerApi = typeof api;

// The second argument matters where the worker scope is not the global one (vitest's node worker).
Comlink.expose(api, self as unknown as Comlink.Endpoint);
