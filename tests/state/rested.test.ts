import { describe, expect, it } from 'vitest';
import { rested } from '../../src/state/rested.ts';

/** A clock that a test winds on. */
function handClock() {
  let now = 0;
  let waiting: { at: number; callback: () => void }[] = [];
  return {
    now: () => now,
    later: (callback: () => void, ms: number) => {
      waiting.push({ at: now + ms, callback });
    },
    wind: (ms: number) => {
      for (let step = 0; step < ms; step += 1) {
        now += 1;
        const due = waiting.filter(({ at }) => at <= now);
        waiting = waiting.filter(({ at }) => at > now);
        for (const { callback } of due) callback();
      }
    },
  };
}

describe('rested calls', () => {
  it('go through once, with the newest value, when no value has come for the rest', () => {
    const clock = handClock();
    const through: { at: number; value: number }[] = [];
    const write = rested<number>((value) => through.push({ at: clock.now(), value }), 100, clock);
    for (let value = 1; value <= 9; value += 1) {
      write.put(value);
      clock.wind(60);
    }
    expect(through).toEqual([]);
    clock.wind(100);
    expect(through).toEqual([{ at: 8 * 60 + 100, value: 9 }]);
    clock.wind(1000);
    expect(through).toHaveLength(1);
    write.put(10);
    clock.wind(100);
    expect(through.at(-1)?.value).toBe(10);
  });

  it('can be let through at once, and not twice', () => {
    const clock = handClock();
    const through: number[] = [];
    const write = rested<number>((value) => through.push(value), 100, clock);
    write.flush();
    write.put(1);
    write.flush();
    expect(through).toEqual([1]);
    clock.wind(500);
    expect(through).toEqual([1]);
  });
});
