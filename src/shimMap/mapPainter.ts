import * as Comlink from 'comlink';
import { guardWorker } from '../../sim/worker/guarded.ts';
import { createTurns } from '../../sim/worker/turns.ts';
import type { PaintingWorkerApi } from './pictureEntry.ts';
import type { MapPainter } from './pictureProtocol.ts';

let painter: MapPainter | null = null;

/** The painting worker, started when first asked for. */
export function mapPainter(): MapPainter {
  painter ??= createMapPainter();
  return painter;
}

function createMapPainter(): MapPainter {
  const worker = new Worker(new URL('./pictureEntry.ts', import.meta.url), {
    type: 'module',
    name: 'map pictures',
  });
  const remote = Comlink.wrap<PaintingWorkerApi>(worker);
  const { guarded } = guardWorker(worker);
  const turns = createTurns();
  return {
    paint: (request, signal) =>
      turns.take(true, signal, () =>
        guarded(async () => ({ ok: true, value: await remote.paint(request) }) as const),
      ),
  };
}
