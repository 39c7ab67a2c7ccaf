import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createShimMap } from '../../sim/contact/shimMap.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import type { ShimMapPlane } from '../../sim/worker/longProtocol.ts';
import { copyMap, unpackPiece } from '../../sim/worker/shimMapPiece.ts';
import { goToDesign, stepPinionShim } from '../../src/state/moves.ts';
import { setupAsFound, useSetup } from '../../src/state/setup.ts';
import { followShimMap, type ShimMapSource, useShimMap } from '../../src/state/shimMap.ts';
import { eventually } from '../support/eventually.ts';

/** The real core; each piece of a map comes when it is let through. */
function heldSource() {
  const core = new LongCore();
  const asked: ShimMapPlane[] = [];
  const held: (() => void)[] = [];
  const turn = () => new Promise<void>((go) => held.push(go));
  const source: ShimMapSource = {
    shimMap: async (gearSetId, definition, plane, { signal, onProgress } = {}) => {
      const request = { kind: 'shimMap', gearSetId, definition, plane } as const;
      asked.push(plane);
      const begun = core.beginShimMap(request);
      if (!begun.ok) return { ...begun, request };
      const map = createShimMap(plane);
      for (;;) {
        await turn();
        // as the real client: nothing is reported once the signal is aborted, but a late piece may have been on its way
        if (signal?.aborted) return null;
        const next = core.nextOfShimMap(begun.value.job);
        if (!next.ok) return { ...next, request };
        if (next.value === null) return { ok: true, value: map, request };
        unpackPiece(map, next.value);
        const { to, total, covered } = next.value;
        onProgress?.({ map: copyMap(map), solvedCells: to, total, covered });
      }
    },
  };
  const settle = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
  const release = async (pieces = 1): Promise<void> => {
    for (let i = 0; i < pieces; i++) {
      // at most the rest before a new subject
      for (let wait = 0; held.length === 0 && wait < 2000; wait++) await settle();
      expect(held.length).toBeGreaterThan(0);
      held.shift()?.();
      await settle();
    }
  };
  /** The two pieces of the home plane: its cells, and that there are no more. */
  const HOME = 2;
  return {
    source,
    asked,
    release,
    home: () => release(HOME),
    untilDone: async () => {
      for (let i = 0; i < 200 && useShimMap.getState().progress !== null; i++) await release();
    },
    /** lets everything go that is still held */
    flush: async () => {
      while (held.length > 0) {
        held.shift()?.();
        await settle();
      }
    },
  };
}

let end = () => {};

beforeEach(() => {
  useSetup.getState().reset();
  useShimMap.getState().reset();
});
afterEach(() => end());

const state = () => useShimMap.getState();
/** 81 of 3721 cells in pieces of 48 */
const FIRST_PASS = 2;

describe('the shim map that is shown', () => {
  it('comes coarse first within a tenth of the cells, is refined in place and ends complete', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    expect(state()).toMatchObject({ shown: null, progress: 0, stopped: false, failure: null });
    await held.home();
    expect(state().shown).toBeNull();
    await held.release(FIRST_PASS);
    const first = state().shown;
    expect(first?.covered).toBe(8);
    const solved = first?.map.solved.reduce((sum, one) => sum + one, 0) ?? 0;
    expect(solved).toBe(81);
    expect(solved).toBeLessThanOrEqual(3721 / 10);
    const seen = new Set<number>([8]);
    const end2 = useShimMap.subscribe(({ shown }) => seen.add(shown?.covered ?? 0));
    await held.untilDone();
    end2();
    expect([...seen]).toEqual([8, 4, 2, 1]);
    expect(state().shown?.map.solved.every((one) => one === 1)).toBe(true);
    expect(state().progress).toBeNull();
    // what was shown before is left as it was
    expect(first?.map.solved.reduce((sum, one) => sum + one, 0)).toBe(81);
  });

  it('knows home: the marks in the design position of a true housing, with the same film', async () => {
    const held = heldSource();
    useSetup.getState().apply({ offsetError: 0.05, film: 0.015 });
    end = followShimMap(held.source);
    await held.home();
    await held.release(FIRST_PASS);
    expect(held.asked[0]).toMatchObject({ offsetError: 0, shaftAngleError: 0, film: 0.015 });
    expect(held.asked[1]).toMatchObject({ offsetError: 0.05, film: 0.015 });
    expect(state().shown?.home.drive.toeHeel).toBeCloseTo(-0.11, 1);
  });

  it('does not depend on the shims: moving them asks for nothing', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    await held.release(FIRST_PASS);
    const { shown } = state();
    stepPinionShim(1);
    goToDesign();
    await held.release();
    expect(state().shown).toBe(shown);
    expect(held.asked).toHaveLength(2);
  });

  it('of another film or axle is gone at once, and what was on its way never arrives', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    await held.release(FIRST_PASS);
    expect(state().shown).not.toBeNull();
    useSetup.getState().apply({ film: 0.02 });
    expect(state()).toMatchObject({ shown: null, progress: 0 });
    const seen: unknown[] = [];
    const end2 = useShimMap.subscribe(({ shown }) => seen.push(shown?.subject.film ?? null));
    await held.flush();
    expect(seen.filter((film) => film !== null)).toEqual([]);
    await eventually(() => expect(held.asked).toHaveLength(3));
    await held.home();
    await held.release(FIRST_PASS);
    end2();
    expect(state().shown?.subject).toMatchObject({ axleId: 'borrin', film: 0.02 });
    useSetup.getState().apply(setupAsFound('cavel'));
    expect(state().shown).toBeNull();
  });

  it('waits until a slider is at rest: steps under way begin no map', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    for (let step = 1; step <= 20; step++) useSetup.getState().preview({ film: 0.012 + step * 0.0005 });
    await held.flush();
    await eventually(() => expect(held.asked).toHaveLength(3));
    expect(held.asked[2].film).toBeCloseTo(0.022, 9);
  });

  it('of a subject seen before is there at once when it was finished', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    await held.untilDone();
    const { shown } = state();
    useSetup.getState().apply({ film: 0.02 });
    expect(state().shown).toBeNull();
    useSetup.getState().apply({ film: 0.012 });
    expect(state()).toMatchObject({ shown, progress: null });
    // also after the picture was away
    end();
    expect(state().shown).toBeNull();
    end = followShimMap(held.source);
    expect(state().shown).toBe(shown);
  });

  it('stops when told, keeps what is solved, and goes on to the same end', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    await held.release(FIRST_PASS + 1);
    state().stop();
    const { shown } = state();
    expect(state()).toMatchObject({ stopped: true, progress: null });
    await held.flush();
    expect(state()).toMatchObject({ stopped: true, progress: null });
    expect(state().shown).toBe(shown);
    state().goOn();
    expect(state()).toMatchObject({ stopped: false, shown });
    await held.home();
    // the first pass again shows nothing coarser than what is there
    await held.release(FIRST_PASS);
    expect(state().shown).toBe(shown);
    await held.untilDone();
    expect(state().shown?.covered).toBe(1);
    // stopped while resting before a new subject: nothing is begun
    useSetup.getState().apply({ film: 0.03 });
    const asked = held.asked.length;
    state().stop();
    await new Promise((resolve) => setTimeout(resolve, 250));
    expect(held.asked).toHaveLength(asked);
    // a new subject begins by itself
    useSetup.getState().apply({ film: 0.031 });
    expect(state().stopped).toBe(false);
    await eventually(() => expect(held.asked.length).toBeGreaterThan(asked));
  });

  it('that fails says why and is tried again on demand', async () => {
    const failure = { kind: 'internal', message: 'gone' } as const;
    let fails = true;
    const held = heldSource();
    const source: ShimMapSource = {
      shimMap: (gearSetId, definition, plane, options) =>
        fails
          ? Promise.resolve({
              ok: false,
              failure,
              request: { kind: 'shimMap', gearSetId, definition, plane },
            })
          : held.source.shimMap(gearSetId, definition, plane, options),
    };
    end = followShimMap(source);
    await eventually(() => expect(state().failure).toEqual(failure));
    expect(state()).toMatchObject({ shown: null, progress: null });
    fails = false;
    state().goOn();
    expect(state().failure).toBeNull();
    await held.home();
    await held.release(FIRST_PASS);
    expect(state().shown?.covered).toBe(8);
  });

  it('is nobody’s any more once the picture is gone', async () => {
    const held = heldSource();
    end = followShimMap(held.source);
    await held.home();
    end();
    await held.flush();
    useSetup.getState().apply({ film: 0.02 });
    await new Promise((resolve) => setTimeout(resolve, 250));
    expect(state().shown).toBeNull();
    expect(held.asked).toHaveLength(2);
  });
});
