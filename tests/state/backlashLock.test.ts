import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { AXLE_IDS } from '../../models/index.ts';
import { fittedNow, preloadChange } from '../../sim/worker/assembly.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import type { KeptBacklash } from '../../sim/worker/longProtocol.ts';
import type { LoadedGearSet, Outcome } from '../../sim/worker/protocol.ts';
import { axleOf } from '../../src/state/axles.ts';
import { followHeldReading, heldFor, useBacklashLock } from '../../src/state/backlashLock.ts';
import { adoptHash, currentHash } from '../../src/state/link.ts';
import { type LockedPinion, type LockSource, lockPinion } from '../../src/state/lockedPinion.ts';
import { followSetup, poseOfSetup, useMesh } from '../../src/state/mesh.ts';
import { chooseAxle, goAsFound, stepRing } from '../../src/state/moves.ts';
import { preloadToHold } from '../../src/state/positions.ts';
import { usePreferences } from '../../src/state/preferences.ts';
import { redoSetup, type Setup, setupAsFound, undoSetup, useSetup } from '../../src/state/setup.ts';
import { useWantedShim } from '../../src/state/wantedShim.ts';
import { eventually } from '../support/eventually.ts';

/** mm, the owner's bound for free shims */
const HELD = 0.002;

const core = new MeshCore();
const long = new LongCore();
const built = new Map<string, Outcome<LoadedGearSet>>();

/** The core with the gear set of this axle in it; building one takes longer than all that is asked of it. */
const loadOnce = (axleId: string): void => {
  if (built.has(axleId)) return;
  built.set(axleId, core.load(axleId, axleOf(axleId).axle.gearset));
};

/** What the solver reads with a set-up, asked afresh. */
function readingOf(setup: Setup): number {
  loadOnce(setup.axleId);
  const solved = core.solve(setup.axleId, poseOfSetup(setup), setup.film);
  if (!solved.ok || solved.value.backlash.normal === null) throw new Error('no reading');
  return solved.value.backlash.normal;
}

/** The real solver behind the lock; `hold` keeps its answers back until they are let go. */
function source() {
  const waiting: (() => void)[] = [];
  const asked: number[] = [];
  let holding = false;
  let broken = false;
  const lockSource: LockSource = {
    load: async (gearSetId, definition) => ({
      ...long.load({ kind: 'load', gearSetId, definition }),
      request: { kind: 'load', gearSetId, definition },
    }),
    keepBacklash: async (gearSetId, definition, pose, wanted) => {
      asked.push(pose.pinionIn);
      if (holding) await new Promise<void>((resolve) => waiting.push(resolve));
      const request = { kind: 'keepBacklash', gearSetId, definition, pose, wanted } as const;
      const outcome: Outcome<KeptBacklash> = broken
        ? { ok: false, failure: { kind: 'internal', message: 'the worker died' } }
        : long.keepBacklash(request);
      return { ...outcome, request };
    },
  };
  return {
    lockSource,
    asked,
    hold: () => {
      holding = true;
    },
    release: async () => {
      await eventually(() => expect(waiting.length).toBeGreaterThan(0));
      waiting.shift()?.();
    },
    releaseAll: () => {
      holding = false;
      for (const go of waiting.splice(0)) go();
    },
    break: () => {
      broken = true;
    },
  };
}

const live = () => useSetup.getState().live;
const past = () => useSetup.temporal.getState().pastStates.length;
const lockStore = () => useBacklashLock.getState();

let endings: (() => void)[] = [];
let answers: ReturnType<typeof source>;
let pinion: LockedPinion;

const meshAtRest = () => eventually(() => expect(useMesh.getState().pending).toBe(false));
/** Until nothing is wanted and the mesh of what is live is there. */
const atRest = async () => {
  await eventually(() => expect(useWantedShim.getState().mm).toBeNull());
  await meshAtRest();
};
const held = () => eventually(() => expect(lockStore().held).not.toBeNull());
const switchOn = async () => {
  await meshAtRest();
  lockStore().switchTo(true);
  await held();
};
const apply = async (mm: number) => {
  pinion.apply(mm);
  await atRest();
};

beforeEach(() => {
  useSetup.getState().reset();
  useMesh.getState().reset();
  usePreferences.getState().reset();
  lockStore().reset();
  useWantedShim.setState({ mm: null });
  answers = source();
  pinion = lockPinion(answers.lockSource);
  endings = [
    followSetup({
      load: async (axleId) => {
        loadOnce(axleId);
        return built.get(axleId) as Outcome<LoadedGearSet>;
      },
      solveLatest: async (...request) => core.solve(...request),
    }),
    followHeldReading(),
  ];
});
afterEach(() => {
  for (const end of endings) end();
});

describe.each(AXLE_IDS)('the backlash lock on %s', (axleId) => {
  const { axle } = axleOf(axleId);
  const design = axle.pinionShim.design;

  it('free shims: the reading stays within 0.002 mm over ±0.2 mm of pinion shim, preload and all', async () => {
    chooseAxle(axleId);
    usePreferences.getState().change({ fine: true });
    await switchOn();
    const wanted = readingOf(live());
    let away = 0;
    for (const change of [0.2, 0.1, 0.013, -0.05, -0.2]) {
      await apply(design + change);
      expect(live().fitment.pinionShim).toBe(design + change);
      expect(Math.abs(readingOf(live()) - wanted)).toBeLessThan(HELD);
      expect(preloadChange(axle.sides, live().fitment)).toBeCloseTo(
        preloadChange(axle.sides, fittedNow(axle)),
        5,
      );
      away = Math.max(away, Math.abs(poseOfSetup(live()).ringAway));
    }
    // the lock has something to do
    expect(away).toBeGreaterThan(0.02);
    const { fitment } = live();
    expect(
      Math.abs(readingOf({ ...live(), fitment: { ...fitment, pinionShim: design } }) - wanted),
    ).toBeGreaterThan(10 * HELD);
  });

  it('real parts: the nearest the hardware has, total held, no creep on the way back', async () => {
    chooseAxle(axleId);
    await switchOn();
    const start = live();
    const wanted = readingOf(start);
    const { ringSide, oppositeSide } = axle.sides;
    for (const change of [0.05, 0.1, 0.15, 0.2, 0.1, -0.1]) {
      await apply(design + change);
      const { fitment } = live();
      for (const [device, setting] of [
        [ringSide, fitment.ringSide],
        [oppositeSide, fitment.oppositeSide],
      ] as const) {
        if (device.kind === 'adjuster') expect(Number.isInteger(setting)).toBe(true);
      }
      const hold = preloadToHold(axle, fittedNow(axle), fitment);
      expect(hold).toBeCloseTo(preloadChange(axle.sides, fittedNow(axle)), 9);
      // one step of the ring either way reads worse, or it is the last there is
      const miss = Math.abs(readingOf(live()) - wanted);
      const here = live();
      for (const direction of [1, -1] as const) {
        if (!stepRing(direction)) continue;
        expect(Math.abs(readingOf(live()) - wanted)).toBeGreaterThanOrEqual(miss - 1e-4);
        undoSetup();
        expect(live()).toBe(here);
      }
    }
    await apply(start.fitment.pinionShim);
    expect(live().fitment).toEqual(start.fitment);
  });
});

describe('one lock, many hands', () => {
  it('a drag is one entry for undo, and undo brings back what was held', async () => {
    await switchOn();
    for (const mm of [1.375, 1.4, 1.425]) pinion.preview(mm);
    expect(past()).toBe(0);
    pinion.commit();
    await atRest();
    expect(past()).toBe(1);
    expect(live().fitment.pinionShim).toBe(1.425);
    expect(live().fitment.ringSide).toBeLessThan(setupAsFound('borrin').fitment.ringSide);
    const { reading } = heldFor(live()) ?? {};
    undoSetup();
    expect(live()).toEqual(setupAsFound('borrin'));
    await meshAtRest();
    expect(lockStore().held?.reading).toBe(reading);
    redoSetup();
    expect(lockStore().held?.reading).toBe(reading);
  });

  it('complete changes in quick succession are one entry each, in their order', async () => {
    await switchOn();
    answers.hold();
    for (const mm of [1.375, 1.4, 1.425]) pinion.apply(mm);
    expect(useWantedShim.getState().mm).toBe(1.425);
    answers.releaseAll();
    await atRest();
    expect(past()).toBe(3);
    expect(live().fitment.pinionShim).toBe(1.425);
    undoSetup();
    expect(live().fitment.pinionShim).toBe(1.4);
  });

  it('of the steps of a drag only the newest is worked out; shim and sides come together', async () => {
    await switchOn();
    const seen: string[] = [];
    endings.push(
      useSetup.subscribe(({ live: { fitment } }) => seen.push(`${fitment.pinionShim} ${fitment.ringSide}`)),
    );
    answers.hold();
    for (let step = 1; step <= 10; step += 1) pinion.preview(1.35 + step * 0.025);
    await answers.release();
    await answers.release();
    pinion.commit();
    answers.releaseAll();
    await atRest();
    expect(answers.asked.map((pinionIn) => pinionIn.toFixed(3))).toEqual(['0.025', '0.250']);
    // never the new shim with the former sides
    const sides = setupAsFound('borrin').fitment.ringSide;
    expect(seen.filter((pair) => pair.startsWith('1.6 ')).every((pair) => !pair.endsWith(` ${sides}`))).toBe(
      true,
    );
  });

  it('the ring moved meanwhile: worked out anew from there; another axle meanwhile: the wish is void', async () => {
    await switchOn();
    answers.hold();
    pinion.apply(1.4);
    await eventually(() => expect(answers.asked).toHaveLength(1));
    stepRing(-1);
    const wanted = readingOf(live());
    answers.releaseAll();
    await atRest();
    expect(live().fitment.pinionShim).toBe(1.4);
    expect(Math.abs(readingOf(live()) - wanted)).toBeLessThan(0.016);
    expect(lockStore().held?.reading).toBeCloseTo(wanted, 12);
    expect(past()).toBe(2);

    answers.hold();
    pinion.apply(1.45);
    await eventually(() => expect(answers.asked.length).toBeGreaterThan(2));
    chooseAxle('cavel');
    answers.releaseAll();
    await atRest();
    expect(live()).toEqual(setupAsFound('cavel'));
  });

  it('holds the new reading after the ring was moved by hand, and after going as found', async () => {
    await switchOn();
    const first = lockStore().held?.reading;
    stepRing(-1);
    await held();
    expect(lockStore().held?.reading).toBeCloseTo(readingOf(live()), 12);
    expect(lockStore().held?.reading).not.toBeCloseTo(first ?? 0, 3);
    await apply(1.4);
    goAsFound();
    await held();
    expect(lockStore().held?.reading).toBe(first);
  });

  it('without an answer the shim goes alone and the lock says so; the next change tries again', async () => {
    await switchOn();
    answers.break();
    await apply(1.4);
    expect(live().fitment).toEqual({ ...setupAsFound('borrin').fitment, pinionShim: 1.4 });
    expect(lockStore().failed).toBe(true);
    stepRing(1);
    expect(lockStore().failed).toBe(false);
  });

  it('a link carries the reading that is held, and a link without one ends the lock', async () => {
    await switchOn();
    await apply(1.4);
    const hash = currentHash();
    expect(hash).toMatch(/&keep=0\.\d{2,4}(&|$)/);
    const kept = lockStore().held?.reading ?? 0;
    adoptHash('/explore?v=1&axle=borrin');
    expect(lockStore()).toMatchObject({ on: false, held: null });
    adoptHash(hash);
    expect(lockStore().on).toBe(true);
    expect(lockStore().held?.reading).toBeCloseTo(kept, 4);
    expect(currentHash()).toBe(hash);
  });

  it('switching it on holds what is read then, whatever was held before', async () => {
    await switchOn();
    await apply(1.425);
    lockStore().switchTo(false);
    await switchOn();
    expect(lockStore().held?.reading).toBe(useMesh.getState().shown?.result.backlash.normal);
  });
});
