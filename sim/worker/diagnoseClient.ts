import * as Comlink from 'comlink';
import type { DiagnoseWorkerApi } from './diagnoseEntry.ts';
import type { DiagnoseService, MatchRequest } from './diagnoseProtocol.ts';
import { guardWorker } from './guarded.ts';

/** Starts the diagnosing worker. Of requests that wait only the newest is worked on. */
export const createDiagnoseService = (): DiagnoseService => {
  const worker = new Worker(new URL('./diagnoseEntry.ts', import.meta.url), {
    type: 'module',
    name: 'diagnosis',
  });
  const remote = Comlink.wrap<DiagnoseWorkerApi>(worker);
  const { guarded, close } = guardWorker(worker);
  type Done = Parameters<
    ConstructorParameters<typeof Promise<Awaited<ReturnType<DiagnoseService['match']>>>>[0]
  >[0];
  let busy = false;
  let waiting: { readonly request: MatchRequest; readonly done: Done } | null = null;

  const pump = async (first: { readonly request: MatchRequest; readonly done: Done }): Promise<void> => {
    busy = true;
    let next: typeof waiting = first;
    while (next) {
      const { request, done } = next;
      done(await guarded(() => remote.match(request)));
      next = waiting;
      waiting = null;
    }
    busy = false;
  };

  return {
    match: (request) =>
      new Promise((done) => {
        if (!busy) {
          void pump({ request, done });
          return;
        }
        waiting?.done(null);
        waiting = { request, done };
      }),
    dispose: () => {
      close('the diagnosing service was closed');
      remote[Comlink.releaseProxy]();
      worker.terminate();
    },
  };
};
