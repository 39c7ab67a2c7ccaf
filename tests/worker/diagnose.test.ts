import '@vitest/web-worker';
import { afterAll, describe, expect, it } from 'vitest';
import { AXLES } from '../../models/index.ts';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { createDiagnoseService } from '../../sim/worker/diagnoseClient.ts';
import { DiagnoseCore } from '../../sim/worker/diagnoseCore.ts';
import type { MatchRequest } from '../../sim/worker/diagnoseProtocol.ts';

const service = createDiagnoseService();
const core = new DiagnoseCore();
afterAll(() => service.dispose());

const axle = AXLES.borrin;

const request = (toeHeel: number): MatchRequest => ({
  gearSetId: 'borrin',
  definition: axle.gearset,
  film: axle.film_mm,
  regime: 'known',
  seen: {
    drive: { kind: 'descriptors', toeHeel, rootFace: 0, length: 0.6, height: null },
    coast: { kind: 'descriptors', toeHeel: 0, rootFace: 0.1, length: null, height: null },
    backlash: [0.15, 0.16],
    uncertainty: { patch: 0.05, backlash: 0.01 },
    film: null,
  },
  reads: 'square',
  hardware: axle,
  limits: axle.limits.backlash,
  present: fittedNow(axle),
  recorded: null,
});

describe('the diagnosis behind its worker', () => {
  it('answers exactly as without one, advice included', async () => {
    const there = await service.match(request(-0.2));
    expect(there?.ok).toBe(true);
    expect(there).toEqual(core.match(request(-0.2)));
  });

  it('counts earlier looks from the shims of then, and asks for another look at the same shims three times at most', () => {
    const looked = (earlier?: MatchRequest['earlier']) => {
      const outcome = core.match({ ...request(-0.2), regime: 'unknown', ...(earlier && { earlier }) });
      if (!outcome.ok || outcome.value.advice.kind === 'refused') throw new Error(JSON.stringify(outcome));
      return { ...outcome.value.diagnosis, advice: outcome.value.advice };
    };
    const { seen, present } = request(-0.2);
    const once = looked();
    expect(once.advice.lookFirst).toMatchObject({ how: 'again' });
    const again = looked([{ seen, fitted: present }]);
    const lookedBefore = (times: number) =>
      looked(Array.from({ length: times }, () => ({ seen, fitted: present })));
    const twice = lookedBefore(2);
    expect(again.advice.lookFirst).not.toBeNull();
    expect(twice.advice.lookFirst).not.toBeNull();
    expect(lookedBefore(3).advice.lookFirst).toBeNull();
    expect(twice.decision.pinionIn).toBeLessThan(again.decision.pinionIn);
    expect(again.decision.pinionIn).toBeLessThan(0.9 * once.decision.pinionIn);
    // the same look from another shim is another story: the pinion then stood 0.1 mm further out
    const thinner = { ...present, pinionShim: present.pinionShim - 0.1 };
    const moved = looked([{ seen, fitted: thinner }]);
    expect(Math.abs(moved.pose.pinionIn.mean - again.pose.pinionIn.mean)).toBeGreaterThan(0.01);
    expect(
      core.match({ ...request(-0.2), earlier: [{ seen: { ...seen, backlash: [9] }, fitted: present }] }),
    ).toMatchObject({
      ok: false,
      failure: { kind: 'bad-argument' },
    });
  });

  it('says what is wrong with a set and with an observation', async () => {
    const flat = { ...request(0), gearSetId: 'flat', definition: { ...axle.gearset, offset: 0 } };
    expect(await service.match(flat)).toMatchObject({
      ok: false,
      failure: { kind: 'unmakeable', field: 'offset' },
    });
    expect(await service.match(request(3))).toMatchObject({
      ok: false,
      failure: { kind: 'bad-argument', field: 'drive.toeHeel', value: '3' },
    });
  });

  it('drops requests that newer ones replaced, answers the first and the last', async () => {
    const answers = await Promise.all(Array.from({ length: 6 }, (_, i) => service.match(request(-i / 50))));
    expect(answers.map((answer) => answer !== null)).toEqual([true, false, false, false, false, true]);
    expect(answers[5]).toEqual(core.match(request(-0.1)));
  });
});
