import * as Comlink from 'comlink';
import type { Pose } from '../contact/pose.ts';
import type { WorkerApi } from './entry.ts';
import { guardWorker } from './guarded.ts';
import type { MeshService, Outcome, SolveResult } from './protocol.ts';

/** Handle of the app on the core in its worker. */
export interface MeshClient extends MeshService {
  /**
   * As `solve`, for a control that moves faster than answers come: one request is under way at a time and only
   * the newest waits behind it. Resolves to null for a request that a newer one replaced.
   */
  solveLatest(gearSetId: string, pose: Pose, film: number): Promise<Outcome<SolveResult> | null>;
  dispose(): void;
}

interface Waiting {
  readonly request: readonly [string, Pose, number];
  readonly answer: (outcome: Outcome<SolveResult> | null) => void;
}

/** Starts the worker. A worker that cannot start or dies answers every request with an `internal` failure. */
export const createMeshService = (): MeshClient => {
  const worker = new Worker(new URL('./entry.ts', import.meta.url), { type: 'module', name: 'mesh core' });
  const remote = Comlink.wrap<WorkerApi>(worker);
  const { guarded, close } = guardWorker(worker);

  let busy = false;
  let waiting: Waiting | null = null;
  const solve: MeshService['solve'] = (...request) => guarded(() => remote.solve(...request));

  const pump = async (first: Waiting): Promise<void> => {
    busy = true;
    let next: Waiting | null = first;
    while (next) {
      const outcome = await solve(...next.request);
      next.answer(outcome);
      next = waiting;
      waiting = null;
    }
    busy = false;
  };

  return {
    load: (...request) => guarded(() => remote.load(...request)),
    solve,
    solids: (...request) => guarded(() => remote.solids(...request)),
    solveLatest: (...request) =>
      new Promise((answer) => {
        const mine: Waiting = { request, answer };
        if (!busy) {
          void pump(mine);
          return;
        }
        waiting?.answer(null);
        waiting = mine;
      }),
    dispose: () => {
      close('the mesh service was closed');
      remote[Comlink.releaseProxy]();
      worker.terminate();
    },
  };
};
