import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import type { Outcome, SolveResult } from '../../sim/worker/protocol.ts';
import { axleOf } from '../../src/state/axles.ts';
import { followSetup, type MeshSource, poseOfSetup, useMesh } from '../../src/state/mesh.ts';
import { chooseAxle, stepPinionShim } from '../../src/state/moves.ts';
import { setupAsFound, useSetup } from '../../src/state/setup.ts';
import { eventually } from '../support/eventually.ts';

/** The real core, answering when it is told to. */
function heldCore() {
  const core = new MeshCore();
  const held: (() => void)[] = [];
  const solved: number[] = [];
  let spoil: ((definition: GearSetDefinition) => GearSetDefinition) | null = null;
  const source: MeshSource = {
    load: async (id, definition) => core.load(id, spoil === null ? definition : spoil(definition)),
    solveLatest: (id, pose, film) =>
      new Promise<Outcome<SolveResult>>((answer) => {
        held.push(() => {
          solved.push(pose.pinionIn);
          answer(core.solve(id, pose, film));
        });
      }),
  };
  return {
    source,
    solved,
    asked: () => eventually(() => expect(held.length).toBeGreaterThan(0)),
    release: async () => {
      await eventually(() => expect(held.length).toBeGreaterThan(0));
      held.shift()?.();
      await new Promise((resolve) => setTimeout(resolve, 0));
    },
    spoilLoads: (spoiler: typeof spoil) => {
      spoil = spoiler;
    },
  };
}

let end = () => {};

beforeEach(() => {
  useSetup.getState().reset();
  useMesh.getState().reset();
});
afterEach(() => end());

describe('the mesh that is shown', () => {
  it('is the core’s answer to the live set-up', async () => {
    const core = heldCore();
    end = followSetup(core.source);
    expect(useMesh.getState()).toMatchObject({ shown: null, pending: true, failure: null });
    await core.release();
    const { shown, pending } = useMesh.getState();
    expect(pending).toBe(false);
    expect(shown?.axleId).toBe('borrin');

    const direct = new MeshCore();
    direct.load('borrin', axleOf('borrin').axle.gearset);
    const setup = setupAsFound('borrin');
    const expected = direct.solve('borrin', poseOfSetup(setup), setup.film);
    expect(expected.ok && expected.value.backlash).toEqual(shown?.result.backlash);
    expect(expected.ok && expected.value.drive.separation).toEqual(shown?.result.drive.separation);
  });

  it('never shows a gear set with the result of another one', async () => {
    const core = heldCore();
    end = followSetup(core.source);
    await core.release();
    chooseAxle('dornet');
    expect(useMesh.getState()).toMatchObject({ pending: true });
    expect(useMesh.getState().shown?.axleId).toBe('borrin');
    await core.release();
    expect(useMesh.getState().shown?.axleId).toBe('dornet');
    expect(useMesh.getState().shown?.loaded.outline.faceWidth).toBe(axleOf('dornet').axle.gearset.faceWidth);
  });

  it('keeps the last good picture when the core refuses, names the field, and recovers', async () => {
    const core = heldCore();
    end = followSetup(core.source);
    await core.release();
    const good = useMesh.getState().shown;
    core.spoilLoads((definition) => ({ ...definition, faceWidth: 500 }));
    chooseAxle('aldra');
    await eventually(() => expect(useMesh.getState().failure).not.toBeNull());
    const { failure, shown, pending } = useMesh.getState();
    expect(shown).toBe(good);
    expect(pending).toBe(false);
    expect(failure).toMatchObject({
      field: expect.any(String),
      value: expect.any(String),
      allowed: expect.any(String),
    });

    core.spoilLoads(null);
    useMesh.getState().retry();
    await core.release();
    expect(useMesh.getState()).toMatchObject({ failure: null });
    expect(useMesh.getState().shown?.axleId).toBe('aldra');
  });

  it('stays pending until the newest set-up is answered', async () => {
    const core = heldCore();
    end = followSetup(core.source);
    await core.release();
    stepPinionShim(1);
    await core.asked();
    stepPinionShim(1);
    await core.release();
    expect(useMesh.getState().pending).toBe(true);
    await core.release();
    expect(useMesh.getState().pending).toBe(false);
    expect(useMesh.getState().shown?.result.pose.pinionIn).toBeCloseTo(0.05, 9);
  });

  it('reset empties it', async () => {
    const core = heldCore();
    end = followSetup(core.source);
    await core.release();
    useMesh.getState().reset();
    expect(useMesh.getState()).toMatchObject({ shown: null, pending: false, failure: null });
  });
});
