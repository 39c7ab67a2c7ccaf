import * as Comlink from 'comlink';
import type { DiagnoseWorkerApi } from './diagnoseEntry.ts';
import type { DiagnoseService, MatchAnswer, MatchRequest } from './diagnoseProtocol.ts';
import { guardWorker } from './guarded.ts';
import type { Outcome } from './protocol.ts';

interface Waiting {
  readonly request: MatchRequest;
  readonly done: (outcome: Outcome<MatchAnswer> | null) => void;
}

/** Starts the diagnosing worker. Of requests that wait only the newest is worked on. */
export const createDiagnoseService = (): DiagnoseService => {
  const worker = new Worker(new URL('./diagnoseEntry.ts', import.meta.url), {
    type: 'module',
    name: 'diagnosis',
  });
  const remote = Comlink.wrap<DiagnoseWorkerApi>(worker);
  const { guarded, close } = guardWorker(worker);
  let busy = false;
  let waiting: Waiting | null = null;

  const pump = async (first: Waiting): Promise<void> => {
    busy = true;
    let next: Waiting | null = first;
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
    patterns: (request) => guarded(() => remote.patterns(request)),
    dispose: () => {
      close('the diagnosing service was closed');
      remote[Comlink.releaseProxy]();
      worker.terminate();
    },
  };
};
