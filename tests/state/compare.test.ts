import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MeshCore } from '../../sim/worker/core.ts';
import { axleOf } from '../../src/state/axles.ts';
import { type CompareSource, followCompared, leftTarget, useCompare } from '../../src/state/compare.ts';
import { poseOfSetup, useMesh } from '../../src/state/mesh.ts';
import { chooseAxle, stepPinionShim } from '../../src/state/moves.ts';
import { setupAsFound, useSetup } from '../../src/state/setup.ts';
import { useView } from '../../src/state/view.ts';
import { eventually } from '../support/eventually.ts';

/** The real core, behind the door the app knows; counts what it is asked. */
function source(core = new MeshCore()) {
  const asked = { load: 0, solve: 0, solids: 0 };
  const client: CompareSource = {
    load: async (...request) => {
      asked.load += 1;
      return core.load(...request);
    },
    solve: async (...request) => {
      asked.solve += 1;
      return core.solve(...request);
    },
    solids: async (...request) => {
      asked.solids += 1;
      return core.solids(...request);
    },
  };
  return { client, asked, core };
}

function solveHere(axleId: string, setup = setupAsFound(axleId)) {
  const core = new MeshCore();
  core.load(axleId, axleOf(axleId).axle.gearset);
  const solved = core.solve(axleId, poseOfSetup(setup), setup.film);
  if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
  return solved.value;
}

const shownOf = (axleId: string) =>
  eventually(() => expect(useCompare.getState().shown?.axleId).toBe(axleId));

let end = () => {};

beforeEach(() => {
  for (const store of [useSetup, useMesh, useView, useCompare]) store.getState().reset();
  useView.getState().showPicture('side-by-side');
});
afterEach(() => end());

describe('the left side', () => {
  it('is the axle on the bench as it was found, until something else is chosen', async () => {
    const { client } = source();
    end = followCompared(client);
    await shownOf('borrin');
    expect(useCompare.getState().shown?.result.backlash).toEqual(solveHere('borrin').backlash);
    chooseAxle('cavel');
    await shownOf('cavel');
    expect(useCompare.getState().shown?.result.drive).toEqual(solveHere('cavel').drive);
  });

  it('keeps the present set-up while the right one goes on', async () => {
    const { client } = source();
    end = followCompared(client);
    stepPinionShim(1);
    const kept = useSetup.getState().committed;
    useCompare.getState().keepPresent();
    stepPinionShim(1);
    chooseAxle('elspar');
    await eventually(() => expect(useCompare.getState().target?.setup).toEqual(kept));
    expect(useCompare.getState().shown?.result.drive).toEqual(solveHere('borrin', kept).drive);
  });

  it('moves alike: the same pose and film on another axle, at every step', async () => {
    const { client } = source();
    end = followCompared(client);
    useCompare.getState().choose({ stand: 'alike', axleId: 'cavel' });
    await shownOf('cavel');
    useSetup.getState().preview({ offsetError: 0.04, film: 0.02 });
    stepPinionShim(-1);
    const wanted = useSetup.getState().live;
    await eventually(() => expect(useCompare.getState().shown?.result.pose).toEqual(poseOfSetup(wanted)));
    expect(useCompare.getState().shown?.result.film).toBe(0.02);
    expect(useCompare.getState().target?.setup).toBeNull();
  });

  it('at the design position has no pose at all', () => {
    const present = { ...setupAsFound('aldra'), offsetError: 0.1, film: 0.015 };
    const { pose, film } = leftTarget({ stand: 'design', axleId: null }, present);
    expect(Object.values(pose).every((value) => Math.abs(value) < 1e-12)).toBe(true);
    expect(film).toBe(0.015);
    expect(leftTarget({ stand: 'design', axleId: 'borrin' }, present).film).toBe(
      axleOf('borrin').axle.film_mm,
    );
  });

  it('is asked for only while the two are looked at, and brings the solids of both once', async () => {
    const { client, asked } = source();
    useView.getState().showPicture('gears');
    end = followCompared(client);
    useCompare.getState().choose({ stand: 'design', axleId: 'dornet' });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(asked).toEqual({ load: 0, solve: 0, solids: 0 });

    useView.getState().showPicture('side-by-side');
    await shownOf('dornet');
    const direct = new MeshCore();
    const loaded = direct.load('borrin', axleOf('borrin').axle.gearset);
    if (!loaded.ok) throw new Error('not loaded');
    useMesh.setState({ shown: { axleId: 'borrin', loaded: loaded.value, result: solveHere('borrin') } });
    await eventually(() => expect(useCompare.getState().rightSolids?.axleId).toBe('borrin'));
    expect(useCompare.getState().leftSolids?.axleId).toBe('dornet');
    const before = asked.solids;
    useCompare.getState().choose({ stand: 'found', axleId: 'dornet' });
    await eventually(() => expect(useCompare.getState().target?.setup).toEqual(setupAsFound('dornet')));
    expect(asked.solids).toBe(before);
    // the same axle on both sides is drawn from the same solids
    useCompare.getState().choose({ stand: 'found', axleId: null });
    await eventually(() => expect(useCompare.getState().leftSolids).toBe(useCompare.getState().rightSolids));
    expect(asked.solids).toBe(before);
  });

  it('is built again when the core has forgotten it', async () => {
    const held = source();
    end = followCompared(held.client);
    await shownOf('borrin');
    // as many others as the core keeps
    for (const id of ['u', 'v', 'w', 'x', 'y', 'z']) held.core.load(id, axleOf('aldra').axle.gearset);
    useCompare.getState().choose({ stand: 'design', axleId: null });
    await eventually(() => expect(useCompare.getState().shown?.result.pose.pinionIn).toBeCloseTo(0, 12));
    await eventually(() => expect(useCompare.getState().failure).toBeNull());
    expect(held.asked.load).toBeGreaterThan(1);
  });
});
