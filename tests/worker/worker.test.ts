import '@vitest/web-worker';
import { afterAll, describe, expect, it } from 'vitest';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { createMeshService } from '../../sim/worker/client.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import { seededRandom } from '../support/random.ts';
import { REFERENCE_FILM, referenceSet } from '../support/referenceSets.ts';

const service = createMeshService();
const core = new MeshCore();
afterAll(() => service.dispose());

describe('the core behind its worker', () => {
  it('loads, solves and draws exactly as without one (seed 12)', async () => {
    expect(await service.load('a', referenceSet('a'))).toEqual(core.load('a', referenceSet('a')));
    const random = seededRandom(12);
    for (let i = 0; i < 5; i++) {
      const pose = {
        pinionIn: random.between(-0.3, 0.3),
        ringAway: random.between(-0.3, 0.3),
        offsetError: random.between(-0.1, 0.1),
        shaftAngleError: random.between(-0.05, 0.05),
      };
      expect(await service.solve('a', pose, REFERENCE_FILM)).toEqual(core.solve('a', pose, REFERENCE_FILM));
    }
    expect(await service.solids('a', 'reduced')).toEqual(core.solids('a', 'reduced'));
  });

  it('says what is wrong with a set, a pose, a film and an unknown name', async () => {
    const flat = referenceSet('a');
    const unmakeable = await service.load('bad', { ...flat, offset: 0 });
    expect(unmakeable).toMatchObject({ ok: false, failure: { kind: 'unmakeable', field: 'offset' } });
    const pose = await service.solve('a', { ...DESIGN_POSE, ringAway: Number.NaN }, REFERENCE_FILM);
    expect(pose).toMatchObject({ ok: false, failure: { kind: 'bad-argument', field: 'pose.ringAway' } });
    const film = await service.solve('a', DESIGN_POSE, 0);
    expect(film).toMatchObject({ ok: false, failure: { kind: 'bad-argument', field: 'film' } });
    const unknown = await service.solve('never loaded', DESIGN_POSE, REFERENCE_FILM);
    expect(unknown).toEqual({ ok: false, failure: { kind: 'not-loaded', gearSetId: 'never loaded' } });
  });

  it('drops requests that newer ones replaced, answers the first and the last', async () => {
    const asked = Array.from({ length: 12 }, (_, i) =>
      service.solveLatest('a', { ...DESIGN_POSE, pinionIn: i / 100 }, REFERENCE_FILM),
    );
    const answers = await Promise.all(asked);
    expect(answers[0]).not.toBeNull();
    expect(answers.slice(1, -1).every((answer) => answer === null)).toBe(true);
    const last = answers.at(-1);
    expect(last?.ok && last.value.pose.pinionIn).toBe(0.11);
  });

  it('keeps a handful of sets and forgets the oldest', async () => {
    for (const name of ['1', '2', '3', '4', '5', '6']) await service.load(name, referenceSet('b'));
    expect(await service.solve('a', DESIGN_POSE, REFERENCE_FILM)).toMatchObject({
      failure: { kind: 'not-loaded' },
    });
    expect(await service.solve('6', DESIGN_POSE, REFERENCE_FILM)).toMatchObject({ ok: true });
  });
});
