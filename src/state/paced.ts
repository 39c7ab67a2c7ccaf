export interface Pace {
  /** calls let through within `perMs` */
  readonly most: number;
  readonly perMs: number;
}

export interface Clock {
  readonly now: () => number;
  /** Calls back after `ms`. */
  readonly later: (callback: () => void, ms: number) => void;
}

/**
 * Lets calls through at once as long as the pace allows; beyond it only the newest is kept and goes through as soon as
 * there is room. Browsers refuse an address that changes too often (some after 100 times in 30 s), which a held arrow
 * key reaches.
 */
export function paced<T>(call: (value: T) => void, pace: Pace, clock: Clock): (value: T) => void {
  const times: number[] = [];
  let waiting: { readonly value: T } | null = null;

  const go = (value: T) => {
    times.push(clock.now());
    if (times.length > pace.most) times.shift();
    call(value);
  };
  const room = (): number =>
    times.length < pace.most ? 0 : Math.max(0, times[0] + pace.perMs - clock.now());

  const retry = () => {
    if (waiting === null) return;
    const { value } = waiting;
    waiting = null;
    go(value);
  };
  return (value) => {
    if (waiting !== null) {
      waiting = { value };
      return;
    }
    const wait = room();
    if (wait === 0) go(value);
    else {
      waiting = { value };
      clock.later(retry, wait);
    }
  };
}
