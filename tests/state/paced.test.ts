import { describe, expect, it } from 'vitest';
import { paced } from '../../src/state/paced.ts';

/** A clock that a test winds on. */
function handClock() {
  let now = 0;
  let waiting: { at: number; callback: () => void }[] = [];
  return {
    now: () => now,
    later: (callback: () => void, ms: number) => waiting.push({ at: now + ms, callback }),
    wind: (ms: number) => {
      now += ms;
      const due = waiting.filter(({ at }) => at <= now);
      waiting = waiting.filter(({ at }) => at > now);
      for (const { callback } of due) callback();
    },
  };
}

describe('paced calls', () => {
  it('go through at once until the pace is reached, then the newest follows when there is room', () => {
    const clock = handClock();
    const through: number[] = [];
    const write = paced<number>((value) => through.push(value), { most: 3, perMs: 100 }, clock);
    for (let value = 1; value <= 9; value += 1) {
      write(value);
      clock.wind(1);
    }
    expect(through).toEqual([1, 2, 3]);
    clock.wind(90);
    expect(through).toEqual([1, 2, 3]);
    clock.wind(1);
    expect(through).toEqual([1, 2, 3, 9]);
  });

  it('never exceed the pace in any stretch of time, and end at the last value', () => {
    const clock = handClock();
    const through: { at: number; value: number }[] = [];
    const write = paced<number>(
      (value) => through.push({ at: clock.now(), value }),
      { most: 80, perMs: 30_000 },
      clock,
    );
    for (let value = 0; value < 4000; value += 1) {
      write(value);
      clock.wind(33);
    }
    clock.wind(30_000);
    for (const { at } of through) {
      const within = through.filter((other) => other.at >= at && other.at < at + 30_000);
      expect(within.length).toBeLessThanOrEqual(80);
    }
    expect(through.at(-1)?.value).toBe(3999);
  });
});
