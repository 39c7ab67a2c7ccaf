export interface Clock {
  readonly now: () => number;
  /** Calls back after `ms`. */
  readonly later: (callback: () => void, ms: number) => void;
}

/** A call that waits for its values to come to rest. */
export interface Rested<T> {
  /** Takes a value; the newest goes through once none has come for the rest. */
  put(value: T): void;
  /** Lets a waiting value through at once. */
  flush(): void;
}

/**
 * Holds back calls while values keep coming. A change of the address costs a browser several milliseconds and some
 * refuse it after 100 times in 30 s: a slider under way must do neither.
 */
export function rested<T>(call: (value: T) => void, restMs: number, clock: Clock): Rested<T> {
  let waiting: { readonly value: T; readonly due: number } | null = null;
  let watched = false;

  const flush = () => {
    if (waiting === null) return;
    const { value } = waiting;
    waiting = null;
    call(value);
  };
  const watch = () => {
    watched = false;
    if (waiting === null) return;
    const left = waiting.due - clock.now();
    if (left <= 0) flush();
    else {
      watched = true;
      clock.later(watch, left);
    }
  };
  const put = (value: T) => {
    waiting = { value, due: clock.now() + restMs };
    if (watched) return;
    watched = true;
    clock.later(watch, restMs);
  };
  return { put, flush };
}
