import type { Outcome } from './protocol.ts';

/** Turns whatever can go wrong on the way to a worker into an outcome. */
export interface Guard {
  /** The outcome of `work`; an `internal` failure when it throws or the worker dies first. */
  guarded<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>>;
  /** From now on every request fails with this reason. */
  close(reason: string): void;
}

/** A worker that cannot start or dies answers every request with an `internal` failure. */
export const guardWorker = (worker: Worker): Guard => {
  let died: (reason: string) => void = () => {};
  const death = new Promise<string>((resolve) => {
    died = resolve;
  });
  worker.addEventListener('error', (event) => died(event.message || 'the worker could not start'));
  return {
    guarded: (work) =>
      Promise.race([
        // async: a proxy that was released throws at once
        (async () => work())().catch((error: unknown) => failed(String(error))),
        death.then((message) => failed(message)),
      ]),
    close: (reason) => died(reason),
  };
};

const failed = (message: string): Outcome<never> => ({ ok: false, failure: { kind: 'internal', message } });
