import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MeshCore } from '../../sim/worker/core.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import { adjustmentsOf } from '../../src/state/adjustments.ts';
import { axleOf } from '../../src/state/axles.ts';
import { useBacklashLock } from '../../src/state/backlashLock.ts';
import { followSetup, poseOfSetup, useMesh } from '../../src/state/mesh.ts';
import { stepPinionShim } from '../../src/state/moves.ts';
import { followPatchMoves, type PatchMovesSource, usePatchMoves } from '../../src/state/patchMoves.ts';
import { nextPosition, pinionShimPositions } from '../../src/state/positions.ts';
import { usePreferences } from '../../src/state/preferences.ts';
import { setupAsFound, useSetup } from '../../src/state/setup.ts';
import { eventually } from '../support/eventually.ts';

const core = new MeshCore();
const long = new LongCore();
core.load('borrin', axleOf('borrin').axle.gearset);

let asked: number;
let broken: boolean;
let endings: (() => void)[] = [];

const source: PatchMovesSource = {
  patchMoves: async (gearSetId, definition, pose, film, steps, { signal } = {}) => {
    asked += 1;
    const request = { kind: 'patchMoves', gearSetId, definition, pose, film, steps } as const;
    if (signal?.aborted) return null;
    if (broken) return { ok: false, failure: { kind: 'internal', message: 'the worker died' }, request };
    return { ...long.patchMoves(request), request };
  },
};

const moves = () => usePatchMoves.getState();
const atRest = () => eventually(() => expect(useMesh.getState().pending).toBe(false));
const answered = () =>
  eventually(() => {
    expect(moves().shown).not.toBeNull();
    expect(moves().shown?.of).toBe(useMesh.getState().shown);
  });
const start = async () => {
  endings.push(followPatchMoves(source));
  await answered();
};

beforeEach(async () => {
  asked = 0;
  broken = false;
  useSetup.getState().reset();
  useMesh.getState().reset();
  usePreferences.getState().reset();
  useBacklashLock.getState().reset();
  moves().reset();
  endings = [
    followSetup({
      load: async (...request) => core.load(...request),
      solveLatest: async (...request) => core.solve(...request),
    }),
  ];
  await atRest();
});
afterEach(() => {
  for (const end of endings) end();
});

describe('the adjustments', () => {
  it('are the + button’s step and the ring’s → of this axle, in the direction that its shim pushes', () => {
    for (const [id, sign] of [
      ['borrin', 1],
      ['elspar', -1],
    ] as const) {
      const { axle } = axleOf(id);
      const setup = setupAsFound(id);
      const [pinion, ring] = adjustmentsOf(axle, setup, null);
      const positions = pinionShimPositions(axle, null);
      const thicker = nextPosition(positions, setup.fitment.pinionShim, 1) ?? Number.NaN;
      const pose = poseOfSetup(setup);
      const after = poseOfSetup({ ...setup, fitment: { ...setup.fitment, pinionShim: thicker } });
      expect(pinion.step.pinionIn).toBeCloseTo(after.pinionIn - pose.pinionIn, 9);
      expect(Math.sign(pinion.step.pinionIn ?? 0)).toBe(sign);
      expect(ring.step.ringAway).toBeLessThan(0);
    }
  });

  it('follow fine steps; housing errors count once they are set', () => {
    const { axle } = axleOf('cavel');
    const setup = setupAsFound('cavel');
    expect(adjustmentsOf(axle, setup, null).map(({ name, amount }) => [name, amount])).toEqual([
      ['pinion', 0.03],
      ['ring', 1.75 / 26],
    ]);
    expect(
      adjustmentsOf(axle, { offsetError: 0.1, shaftAngleError: -0.05 }, 0.001).map(({ name, amount }) => [
        name,
        amount,
      ]),
    ).toEqual([
      ['pinion', 0.001],
      ['ring', 0.001],
      ['offset', 0.001],
      ['angle', 0.001],
    ]);
  });
});

describe('the moves of the marks', () => {
  it('are the solver’s for the mesh that is shown', async () => {
    await start();
    const { axle } = axleOf('borrin');
    const direct = long.patchMoves({
      kind: 'patchMoves',
      gearSetId: 'direct',
      definition: axle.gearset,
      pose: poseOfSetup(setupAsFound('borrin')),
      film: axle.film_mm,
      steps: adjustmentsOf(axle, setupAsFound('borrin'), null).map(({ step }) => step),
    });
    expect(moves().shown?.list.map((one) => one.moves)).toEqual(direct.ok && direct.value);
  });

  it('are asked for once a change has come to rest, not at its steps', async () => {
    await start();
    const before = asked;
    for (let step = 0; step < 8; step += 1) {
      useSetup.getState().preview({ film: 0.013 + step * 0.001 });
      await atRest();
    }
    expect(asked).toBe(before);
    expect(moves().shown?.of).not.toBe(useMesh.getState().shown);
    useSetup.getState().commit();
    await answered();
    expect(asked).toBe(before + 1);
  });

  it('with the backlash kept the pinion’s step moves the ring too, and the dial stays', async () => {
    useBacklashLock.getState().switchTo(true);
    await start();
    const [pinion, ring] = moves().shown?.list ?? [];
    expect(pinion.backlashKept).toBe(true);
    expect(Math.abs(pinion.moves.dial ?? 1)).toBeLessThan(2e-4);
    expect(Math.abs(ring.moves.dial ?? 0)).toBeGreaterThan(0.01);
    useBacklashLock.getState().switchTo(false);
    await eventually(() => expect(moves().shown?.list[0].backlashKept).toBe(false));
    expect(Math.abs(moves().shown?.list[0].moves.dial ?? 0)).toBeGreaterThan(0.003);
  });

  it('fine steps ask anew; nothing is asked any more once it has ended', async () => {
    await start();
    const coarse = moves().shown?.list[0].moves.drive?.rootFace ?? 0;
    usePreferences.getState().change({ fine: true, fineStep: 0.001 });
    await eventually(() => expect(moves().shown?.list[0].adjustment.amount).toBe(0.001));
    // as straight as §9 of the model says: to a tenth
    const fine = moves().shown?.list[0].moves.drive?.rootFace ?? 0;
    expect((25 * fine) / coarse).toBeGreaterThan(0.9);
    expect((25 * fine) / coarse).toBeLessThan(1.1);
    const before = asked;
    for (const end of endings.splice(1)) end();
    stepPinionShim(1);
    await atRest();
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(asked).toBe(before);
  });

  it('an answer that fails is said, and the next change tries again', async () => {
    broken = true;
    endings.push(followPatchMoves(source));
    await eventually(() => expect(moves().failed).toBe(true));
    broken = false;
    stepPinionShim(1);
    await atRest();
    await answered();
    expect(moves().failed).toBe(false);
  });
});
