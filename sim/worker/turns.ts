/** One piece of work is under way at a time; those asked for urgently go before those that can wait. */
export interface Turns {
  /** Runs `work` when its turn comes. Null when `signal` is aborted before or meanwhile: then `work` may not even start. */
  take<T>(urgent: boolean, signal: AbortSignal | undefined, work: () => Promise<T>): Promise<T | null>;
}

export const createTurns = (): Turns => {
  const urgent: Array<() => Promise<unknown>> = [];
  const patient: Array<() => Promise<unknown>> = [];
  let busy = false;

  const first = () => urgent.shift() ?? patient.shift();
  const pump = async (): Promise<void> => {
    if (busy) return;
    busy = true;
    for (let next = first(); next; next = first()) await next();
    busy = false;
  };

  return {
    take: (isUrgent, signal, work) =>
      new Promise((resolve, reject) => {
        const giveUp = (): void => resolve(null);
        if (signal?.aborted) {
          giveUp();
          return;
        }
        signal?.addEventListener('abort', giveUp, { once: true });
        (isUrgent ? urgent : patient).push(async () => {
          if (signal?.aborted) return;
          await work().then(resolve, reject);
          signal?.removeEventListener('abort', giveUp);
        });
        void pump();
      }),
  };
};
