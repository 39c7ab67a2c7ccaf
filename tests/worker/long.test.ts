import '@vitest/web-worker';
import { afterAll, describe, expect, it } from 'vitest';
import { DISPLAY_GRID, SEARCH_GRID } from '../../sim/contact/grid.ts';
import { keepBacklash } from '../../sim/contact/keepBacklash.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { findPatchMoves } from '../../sim/contact/patchMoves.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { readRoundRing } from '../../sim/contact/ringReadings.ts';
import { createShimMap, type ShimMap, type ShimMapPlane, solveShimMap } from '../../sim/contact/shimMap.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { createLongService } from '../../sim/worker/longClient.ts';
import type { ShimMapProgress } from '../../sim/worker/longProtocol.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

const service = createLongService();
afterAll(() => service.dispose());

const [{ definition, film }, { definition: otherDefinition }] = SHIPPED_SETS;
const PLANE: ShimMapPlane = {
  pinionIn: { low: -0.2, high: 0.2, count: 17 },
  ringAway: { low: -0.15, high: 0.15, count: 13 },
  offsetError: 0.02,
  shaftAngleError: -0.01,
  film,
};
const STEPS = [{ pinionIn: 0.025 }, { ringAway: -0.03 }, { pinionIn: 0.02, ringAway: 0.01 }];

const directMap = (plane: ShimMapPlane) => {
  const solver = new MeshSolver(buildGearMesh(definition), SEARCH_GRID);
  const map = createShimMap(plane);
  for (const _ of solveShimMap(solver, map, solver.createSolution(), 1000));
  return map;
};

/** Digits: two solvers built of one mesh may differ in the last bits. */
const EQUAL = 11;

const expectSameMap = (found: ShimMap | false | undefined | null, direct: ShimMap): void => {
  if (!found) throw new Error('no map');
  expect(found.plane).toEqual(direct.plane);
  expect(found.solved).toEqual(direct.solved);
  expect(found.binding).toEqual(direct.binding);
  const pairs: Array<readonly [Float64Array, Float64Array]> = [
    [found.dial, direct.dial],
    [found.dialMean, direct.dialMean],
  ];
  for (const flank of FLANKS) {
    expect(found[flank].edges).toEqual(direct[flank].edges);
    pairs.push(
      [found[flank].toeHeel, direct[flank].toeHeel],
      [found[flank].rootFace, direct[flank].rootFace],
    );
  }
  for (const [ours, theirs] of pairs) {
    expect(ours).toHaveLength(theirs.length);
    ours.forEach((value, cell) => {
      expect(value).toBeCloseTo(theirs[cell], EQUAL);
    });
  }
};

const randomPose = (seed: number): Pose => {
  const random = seededRandom(seed);
  return {
    pinionIn: random.between(-0.2, 0.2),
    ringAway: random.between(-0.1, 0.2),
    offsetError: random.between(-0.05, 0.05),
    shaftAngleError: random.between(-0.03, 0.03),
  };
};

describe('long work behind the second worker', () => {
  it('patch moves and kept backlash are exactly those without a worker, each with its request (seed 40)', async () => {
    const solver = new MeshSolver(buildGearMesh(definition), DISPLAY_GRID);
    const scratch = solver.createSolution();
    const pose = randomPose(40);
    const moves = await service.patchMoves('a', definition, pose, film, STEPS);
    expect(moves).toEqual({
      ok: true,
      value: STEPS.map((step) => findPatchMoves(solver, pose, film, step, scratch)),
      request: { kind: 'patchMoves', gearSetId: 'a', definition, pose, film, steps: STEPS },
    });
    expect(await service.keepBacklash('a', definition, pose, 0.15)).toEqual({
      ok: true,
      value: keepBacklash(solver, pose, 0.15, scratch),
      request: { kind: 'keepBacklash', gearSetId: 'a', definition, pose, wanted: 0.15 },
    });
  });

  it('readings round the ring are those without a worker (seed 41)', async () => {
    const solver = new MeshSolver(buildGearMesh(definition), DISPLAY_GRID);
    const pose = randomPose(41);
    const runout = { amplitude: 0.02, highAt: 2 };
    const answer = await service.ringReadings('a', definition, pose, runout, 4);
    const direct = readRoundRing(solver, pose, runout, 4, solver.createSolution());
    expect(answer?.ok && answer.value.places.map(({ pose: at }) => at)).toEqual(
      direct.places.map(({ pose: at }) => at),
    );
    direct.places.forEach(({ square }, place) => {
      expect(answer?.ok && answer.value.places[place].square).toBeCloseTo(square, EQUAL);
    });
    expect(await service.ringReadings('a', definition, pose, runout, 0)).toMatchObject({
      failure: { kind: 'bad-argument', field: 'places' },
    });
  });

  it('a shim map is that of direct solves, coarse first; what was reported stays as it was', async () => {
    const seen: ShimMapProgress[] = [];
    const answer = await service.shimMap('a', definition, PLANE, { onProgress: (now) => seen.push(now) });
    const direct = directMap(PLANE);
    expectSameMap(answer?.ok && answer.value, direct);
    expect(answer?.request).toEqual({ kind: 'shimMap', gearSetId: 'a', definition, plane: PLANE });
    expect(seen.length).toBeGreaterThan(4);
    const counts = seen.map(({ solvedCells }) => solvedCells);
    const told = seen.flatMap(({ map, solvedCells }) => (map === null ? [] : [{ map, solvedCells }]));
    expect(told).toHaveLength(4);
    for (const { map, solvedCells } of told) {
      expect(map.solved.reduce((sum, one) => sum + one, 0)).toBe(solvedCells);
    }
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
    expect(seen[0].covered).toBe(8);
    expect(seen[0].solvedCells).toBeLessThan(17 * 13 * 0.1);
    expect(seen.at(-1)).toMatchObject({ covered: 1, solvedCells: 17 * 13, total: 17 * 13 });
    for (const { map } of told) {
      map.solved.forEach((solved, cell) => {
        if (solved) expect(map.dial[cell]).toBeCloseTo(direct.dial[cell], EQUAL);
        else expect(map.dial[cell]).toBeNaN();
      });
    }
  });

  it('cancelled work answers null at once and reports nothing after it', async () => {
    const control = new AbortController();
    let reports = 0;
    const answer = await service.shimMap('a', definition, PLANE, {
      signal: control.signal,
      onProgress: () => {
        reports++;
        if (reports === 2) control.abort();
      },
    });
    expect(answer).toBeNull();
    // The same worker goes on with other work, and nothing of the dropped one comes any more.
    expect(await service.shimMap('a', definition, PLANE)).toMatchObject({ ok: true });
    expect(reports).toBe(2);
  });

  it('aborted before its turn: never begun; aborted beforehand: not even asked', async () => {
    const late = new AbortController();
    const map = service.shimMap('a', definition, PLANE, { signal: late.signal });
    const moves = service.patchMoves('a', definition, DESIGN_POSE, film, STEPS, { signal: late.signal });
    late.abort();
    expect(await map).toBeNull();
    expect(await moves).toBeNull();
    const before = await service.keepBacklash('a', definition, DESIGN_POSE, 0.1, { signal: late.signal });
    expect(before).toBeNull();
  });

  it('short requests overtake a map, which then is no different; two maps do not mix', async () => {
    const order: string[] = [];
    const maps = ['first', 'second'].map((name, i) =>
      service.shimMap('a', definition, { ...PLANE, offsetError: 0.05 * i }).then((answer) => {
        order.push(name);
        return answer;
      }),
    );
    const moves = await service.patchMoves('b', otherDefinition, DESIGN_POSE, film, STEPS);
    order.push('moves');
    expect(moves).toMatchObject({ ok: true });
    const [first, second] = await Promise.all(maps);
    expect(order[0]).toBe('moves');
    expectSameMap(first?.ok && first.value, directMap({ ...PLANE, offsetError: 0 }));
    expectSameMap(second?.ok && second.value, directMap({ ...PLANE, offsetError: 0.05 }));
  });

  it('an id with a changed definition is built anew; one that is unchanged is not', async () => {
    const wide = { ...definition, backlash: definition.backlash + 0.1 };
    const kept = await service.keepBacklash('a', definition, DESIGN_POSE, definition.backlash);
    expect(kept?.ok && Math.abs(kept.value.ringAway)).toBeLessThan(1e-5);
    const anew = await service.keepBacklash('a', wide, DESIGN_POSE, wide.backlash);
    expect(anew?.ok && Math.abs(anew.value.ringAway)).toBeLessThan(1e-5);
  });

  it('says which field is wrong, and that a set cannot be made', async () => {
    const bad = { ok: false, failure: { kind: 'bad-argument' } };
    const pose = { ...DESIGN_POSE, pinionIn: Number.NaN };
    expect(await service.patchMoves('a', definition, pose, film, STEPS)).toMatchObject({
      ...bad,
      failure: { field: 'pose.pinionIn' },
    });
    expect(await service.patchMoves('a', definition, DESIGN_POSE, 0, STEPS)).toMatchObject({
      ...bad,
      failure: { field: 'film' },
    });
    const steps = [{}, { ringAway: Number.POSITIVE_INFINITY }];
    expect(await service.patchMoves('a', definition, DESIGN_POSE, film, steps)).toMatchObject({
      ...bad,
      failure: { field: 'steps.1.ringAway' },
    });
    expect(await service.keepBacklash('a', definition, DESIGN_POSE, Number.NaN)).toMatchObject({
      ...bad,
      failure: { field: 'wanted' },
    });
    const plane = { ...PLANE, ringAway: { low: 0, high: 0, count: 5 } };
    expect(await service.shimMap('a', definition, plane)).toMatchObject({
      ...bad,
      failure: { field: 'plane.ringAway.high' },
    });
    const unmakeable = await service.load('c', { ...definition, offset: 0 });
    expect(unmakeable).toMatchObject({ ok: false, failure: { kind: 'unmakeable', field: 'offset' } });
    expect(await service.load('c', definition)).toMatchObject({ ok: true, value: { gearSetId: 'c' } });
  });

  it('after closing, every request is answered with a failure', async () => {
    const closing = createLongService();
    expect(await closing.load('a', definition)).toMatchObject({ ok: true });
    closing.dispose();
    expect(await closing.load('a', definition)).toMatchObject({ ok: false, failure: { kind: 'internal' } });
  });
});
