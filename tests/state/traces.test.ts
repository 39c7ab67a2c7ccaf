import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MeshCore } from '../../sim/worker/core.ts';
import { axleOf } from '../../src/state/axles.ts';
import { followSetup, useMesh } from '../../src/state/mesh.ts';
import { chooseAxle, stepPinionShim, stepRing } from '../../src/state/moves.ts';
import { undoSetup, useSetup } from '../../src/state/setup.ts';
import { FORMER_REST_MS, followTraces, MOST_POINTS, useTraces } from '../../src/state/traces.ts';
import { eventually } from '../support/eventually.ts';

const core = new MeshCore();
for (const id of ['borrin', 'cavel']) core.load(id, axleOf(id).axle.gearset);

let endings: (() => void)[] = [];
const traces = () => useTraces.getState();
const shown = () => {
  const mesh = useMesh.getState().shown;
  if (mesh === null) throw new Error('no mesh shown');
  return mesh;
};
const atRest = () => eventually(() => expect(useMesh.getState().pending).toBe(false));
/** Until the former mark would have been drawn. */
const drawn = () => new Promise((resolve) => setTimeout(resolve, FORMER_REST_MS + 50));
const preview = async (film: number) => {
  useSetup.getState().preview({ film });
  await atRest();
};
const step = async (move: () => void) => {
  move();
  await atRest();
  await drawn();
};

beforeEach(async () => {
  useSetup.getState().reset();
  useMesh.getState().reset();
  traces().reset();
  endings = [
    followSetup({
      load: async (...request) => core.load(...request),
      solveLatest: async (...request) => core.solve(...request),
    }),
    followTraces(),
  ];
  await atRest();
});
afterEach(() => {
  for (const end of endings) end();
});

describe('what a change leaves on the maps', () => {
  it('nothing before the first change', () => {
    expect(traces()).toMatchObject({ former: null, trail: [] });
  });

  it('one step: the mesh before it, and the way from there', async () => {
    const before = shown();
    await step(() => stepPinionShim(1));
    expect(traces().former).toBe(before);
    const { drive } = before.result;
    const after = shown().result.drive;
    expect(traces().trail.map((point) => point.drive)).toEqual([
      { toeHeel: drive.toeHeel, rootFace: drive.rootFace },
      { toeHeel: after.toeHeel, rootFace: after.rootFace },
    ]);
  });

  it('a drag: the former mark comes when it is let go, and is the one before the drag', async () => {
    const before = shown();
    for (const film of [0.014, 0.016, 0.018]) await preview(film);
    expect(traces().former).toBeNull();
    expect(traces().trail).toHaveLength(4);
    await drawn();
    expect(traces().former).toBeNull();
    useSetup.getState().commit();
    await drawn();
    expect(traces().former).toBe(before);
    expect(traces().trail).toHaveLength(4);
  });

  it('the next change begins a new trail and has its own former mark', async () => {
    await step(() => stepPinionShim(1));
    const before = shown();
    await step(() => stepRing(1));
    expect(traces().former).toBe(before);
    expect(traces().trail).toHaveLength(2);
    const undone = shown();
    await step(undoSetup);
    expect(traces().former).toBe(undone);
  });

  it('in a quick row of changes it is the one before the last, drawn once they rest', async () => {
    stepPinionShim(1);
    await atRest();
    const before = shown();
    stepPinionShim(1);
    await atRest();
    expect(traces().former).toBeNull();
    await drawn();
    expect(traces().former).toBe(before);
  });

  it('dismissed it is gone until the next change', async () => {
    await step(() => stepPinionShim(1));
    traces().dismiss();
    expect(traces()).toMatchObject({ former: null, trail: [] });
    await step(() => stepPinionShim(1));
    expect(traces().former).not.toBeNull();
  });

  it('a drag that ends where it began changes nothing', async () => {
    await step(() => stepPinionShim(1));
    const { former } = traces();
    await preview(0.02);
    await preview(0.012);
    useSetup.getState().commit();
    await atRest();
    await drawn();
    expect(traces().former).toBe(former);
  });

  it('another axle has no former mark', async () => {
    await step(() => stepPinionShim(1));
    await step(() => chooseAxle('cavel'));
    expect(traces()).toMatchObject({ former: null, trail: [] });
    await step(() => stepPinionShim(1));
    expect(traces().former?.axleId).toBe('cavel');
  });

  it('a step without a mark leaves a hole in the trail, not a false point', () => {
    const { result } = shown();
    const drive = { ...result.drive, toeHeel: null, rootFace: null };
    useMesh.setState({ shown: { ...shown(), result: { ...result, film: 0.002, drive } } });
    expect(traces().trail.at(-1)?.drive).toBeNull();
    expect(traces().trail.at(-1)?.coast).not.toBeNull();
  });

  it('an endless drag keeps its beginning and a bounded number of points', async () => {
    const first = shown().result.drive;
    const { result } = shown();
    for (let i = 0; i < 3 * MOST_POINTS; i += 1) {
      const drive = { ...result.drive, toeHeel: i / 1000 };
      useSetup.getState().preview({ film: 0.012 + i * 1e-5 });
      useMesh.setState({ shown: { ...shown(), result: { ...result, film: 0.012 + i * 1e-5, drive } } });
    }
    expect(traces().trail.length).toBeLessThanOrEqual(MOST_POINTS + 1);
    expect(traces().trail[0].drive).toEqual({ toeHeel: first.toeHeel, rootFace: first.rootFace });
    expect(traces().trail.at(-1)?.drive?.toeHeel).toBeCloseTo((3 * MOST_POINTS - 1) / 1000, 9);
  });
});
