import '@vitest/web-worker';
import { afterAll, describe, expect, it } from 'vitest';
import { PatternDesigner } from '../../sim/contact/designPattern.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { solveSpread, summariseSpread } from '../../sim/contact/spread.ts';
import { startFromCaliper } from '../../sim/gearset/caliper.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { findNearestMakeable, withNumberAt } from '../../sim/gearset/nearestMakeable.ts';
import { DEFAULT_UNKNOWNS } from '../../sim/gearset/unknowns.ts';
import { createLongService } from '../../sim/worker/longClient.ts';
import type { SpreadProgress } from '../../sim/worker/longProtocol.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';

const service = createLongService();
afterAll(() => service.dispose());

const [{ definition, film }] = SHIPPED_SETS;
const QUESTION = { pose: { ...DESIGN_POSE, pinionIn: 0.05 }, film, steps: [{ pinionIn: 0.025 }] };

describe('an own axle behind the second worker', () => {
  it('the spread is that of direct draws, growing; cancelled, it ends', async () => {
    const seen: SpreadProgress[] = [];
    const answer = await service.spread('a', definition, QUESTION, 6, DEFAULT_UNKNOWNS, {
      onProgress: (now) => seen.push(now),
    });
    const direct = [...solveSpread(definition, QUESTION, 6)];
    if (!answer?.ok) throw new Error('no spread');
    expect(answer.value.samples).toEqual(direct);
    expect(answer.value.spread).toEqual(summariseSpread(direct, 1));
    expect(answer.request).toMatchObject({ kind: 'spread', gearSetId: 'a', count: 6 });
    expect(seen.map(({ drawn }) => drawn)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(seen[2].spread).toEqual(summariseSpread(direct.slice(0, 3), 1));

    const control = new AbortController();
    let reports = 0;
    const cancelled = await service.spread('a', definition, QUESTION, 400, DEFAULT_UNKNOWNS, {
      signal: control.signal,
      onProgress: () => {
        reports++;
        control.abort();
      },
    });
    expect(cancelled).toBeNull();
    expect(await service.homePatches('a', definition, film)).toMatchObject({ ok: true });
    expect(reports).toBe(1);
  });

  it('a dragged handle is answered as without a worker, also from the ease-off it had before', async () => {
    const designer = new PatternDesigner(buildGearMesh(definition));
    const home = await service.homePatches('a', definition, film);
    expect(home).toMatchObject({ ok: true, value: designer.patchesFor(definition.easeOff, film) });
    let present = definition;
    for (const toeHeel of [-0.05, 0.02]) {
      const wanted = { drive: { toeHeel, rootFace: 0.1 } };
      const answer = await service.designPattern('a', present, wanted, film);
      if (!answer?.ok) throw new Error('no pattern');
      expect(answer.value.patterns).toEqual(designer.design(present.easeOff, wanted, film));
      expect(answer.value.patterns.drive?.converged).toBe(true);
      expect(answer.value.easeOff.coast).toEqual(definition.easeOff.coast);
      expect(answer.request).toMatchObject({ kind: 'designPattern', wanted });
      present = { ...present, easeOff: answer.value.easeOff };
    }
    const bad = await service.designPattern('a', definition, { coast: { tilt: Number.NaN } }, film);
    expect(bad).toMatchObject({ ok: false, failure: { kind: 'bad-argument', field: 'wanted.coast.tilt' } });
  });

  it('the nearest makeable values and the caliper’s start are those without a worker', async () => {
    const bad = withNumberAt(definition, 'tooth.slotFactor', 0.5);
    const fields = [
      { path: 'tooth.slotFactor', min: 0.3, max: 0.85, step: 0.01 },
      { path: 'tooth.clearanceFactor', min: 0.4, max: 0.5, step: 0.05 },
    ];
    const mends = await service.nearestMakeable(bad, fields);
    expect(mends).toMatchObject({
      ok: true,
      value: fields.map((field) => findNearestMakeable(bad, field)),
      request: { kind: 'nearestMakeable' },
    });
    const reading = {
      pinionTeeth: 12,
      ringTeeth: 43,
      ringOuterDiameter: 200,
      faceWidth: 29,
      offset: 27,
      depth: 'tapered',
    } as const;
    const { definition: expected } = startFromCaliper(reading);
    expect(await service.caliper(reading)).toMatchObject({
      ok: true,
      value: { definition: expected, altered: [], refusal: null },
    });
    expect(await service.caliper({ ...reading, offset: 0 })).toMatchObject({
      ok: true,
      value: { refusal: { code: 'no-pitch-point', field: 'offset' } },
    });
  });

  it('names what is wrong with a question', async () => {
    const none = await service.spread('a', definition, QUESTION, 0, DEFAULT_UNKNOWNS);
    expect(none).toMatchObject({ ok: false, failure: { kind: 'bad-argument', field: 'count' } });
    const wide = await service.spread('a', definition, QUESTION, 3, { ...DEFAULT_UNKNOWNS, spiral: -1 });
    expect(wide).toMatchObject({ ok: false, failure: { kind: 'bad-argument', field: 'unknowns.spiral' } });
  });
});
