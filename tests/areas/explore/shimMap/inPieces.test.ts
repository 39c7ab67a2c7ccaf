import { describe, expect, test } from 'vitest';
import { fieldsInPieces } from '../../../../src/areas/explore/shimMap/fields.ts';
import { atOnce, inPieces, type Pieces } from '../../../../src/areas/explore/shimMap/inPieces.ts';
import { regionsInPieces, regionsOf } from '../../../../src/areas/explore/shimMap/regions.ts';
import { drawnMap } from './solvedMap.ts';

/** Adds 1 … count, resting before each; tells how far it came. */
function* sum(count: number, reached: { last: number }): Pieces<number> {
  let total = 0;
  for (let k = 1; k <= count; k++) {
    yield;
    reached.last = k;
    total += k;
  }
  return total;
}

const soon = () => Promise.resolve();

describe('work in pieces', () => {
  test('comes to the same at once and with rests', async () => {
    const at = { last: 0 };
    expect(atOnce(sum(100, at))).toBe(5050);
    expect(await inPieces(sum(100, at), soon, new AbortController().signal)).toBe(5050);
  });

  test('waits for a rest before it begins', async () => {
    const at = { last: 0 };
    let rest = (): void => undefined;
    const rested = new Promise<void>((resolve) => {
      rest = resolve;
    });
    const work = inPieces(sum(3, at), () => rested, new AbortController().signal);
    await soon();
    expect(at.last).toBe(0);
    rest();
    expect(await work).toBe(6);
  });

  test('dropped, it gives nothing and goes no further', async () => {
    const abort = new AbortController();
    const at = { last: 0 };
    let rests = 0;
    const slow = function* (): Pieces<number> {
      const end = performance.now() + 20;
      const pieces = sum(1e9, at);
      for (;;) {
        pieces.next();
        if (performance.now() > end) abort.abort();
        yield;
      }
    };
    const result = await inPieces(
      slow(),
      async () => {
        rests++;
      },
      abort.signal,
    );
    expect(result).toBeNull();
    expect(rests).toBeGreaterThan(1);
    const { last } = at;
    await new Promise((resolve) => setTimeout(resolve, 10));
    expect(at.last).toBe(last);
  });

  test('a map’s fields and borders can rest after every one of them', () => {
    const { axle, shown, fields } = drawnMap('borrin', 4);
    const countOf = (pieces: Pieces<unknown>): number => {
      let rests = 0;
      while (!pieces.next().done) rests++;
      return rests;
    };
    const { backlash } = axle.limits;
    const edges = regionsOf(fields, backlash).edges.length;
    expect(countOf(fieldsInPieces(shown, backlash.reads, 1.2))).toBe(7);
    // five bands, two limits, binding, unknown, and the edges that occur
    expect(countOf(regionsInPieces(fields, backlash))).toBe(9 + edges);
    expect(edges).toBeGreaterThan(2);
  });
});
