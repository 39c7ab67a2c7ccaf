import { describe, expect, it } from 'vitest';
import { AXLES } from '../../../models/index.ts';
import { solveSpread, summariseSpread } from '../../../sim/contact/spread.ts';
import { MeshCore } from '../../../sim/worker/core.ts';
import { drawnSpread } from '../../../src/areas/explore/unknowns/drawnSpread.ts';
import { bandWords, ROBUST, wayWords } from '../../../src/areas/explore/unknowns/spreadWords.ts';
import type { ShownSpread } from '../../../src/state/spread.ts';
import { spread as texts } from '../../../src/text/en/spread.ts';
import { addTexts, createTranslate } from '../../../src/text/translate.ts';

addTexts(texts);
const t = createTranslate('en');

const DESIGN = { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 };
const { gearset, film_mm: film } = AXLES.borrin;
const steps = [{ pinionIn: 0.025 }, { ringAway: -0.04 }];
const samples = [...solveSpread(gearset, { pose: DESIGN, film, steps }, 12)];
const spread = summariseSpread(samples, steps.length);

describe('what we do not know', () => {
  it('calls robust what nine of ten sets say, with the share counted out', () => {
    for (const flank of ['drive', 'coast'] as const) {
      for (let step = 0; step < steps.length; step++) {
        const moves = samples.flatMap((sample) => (sample.made ? (sample.moves[step][flank] ?? []) : []));
        const toRoot = moves.filter(({ rootFace }) => rootFace < 0).length / moves.length;
        const share = Math.max(toRoot, 1 - toRoot);
        const { robust, words } = wayWords(spread, step, flank, t);
        expect(robust, `${flank} ${step}`).toBe(share >= ROBUST);
        expect(words).toContain(`toward ${toRoot >= 0.5 ? 'root' : 'face'} in ${Math.round(100 * share)} %`);
      }
    }
  });

  it('says where the middle lies, by both ends of the band', () => {
    const { toeHeel } = spread.drive;
    const words = bandWords(spread.drive, t);
    const end = (share: number) => `${Math.round(100 * Math.abs(share))} % ${share < 0 ? 'toe' : 'heel'}`;
    expect(words).toContain(`${end(toeHeel.low)} to ${end(toeHeel.high)}`);
  });

  it('draws one factor for all arrows, from the median middle', () => {
    const core = new MeshCore();
    const loaded = core.load('x', gearset);
    const result = core.solve('x', DESIGN, film);
    if (!loaded.ok || !result.ok) throw new Error('unmakeable');
    const shown: ShownSpread = {
      of: { axleId: 'borrin', loaded: loaded.value, result: result.value },
      adjustments: [
        { name: 'pinion', amount: 0.025, step: steps[0] },
        { name: 'ring', amount: 0.04, step: steps[1] },
      ],
      spread,
      samples,
      tried: 12,
      total: 12,
    };
    const { flanks, times } = drawnSpread(shown);
    expect(times).toBeGreaterThanOrEqual(1);
    expect(flanks.drive.centre?.toeHeel).toBe(spread.drive.toeHeel.median);
    expect(flanks.drive.steps.map(({ name }) => name)).toEqual(['pinion', 'ring']);
    for (const { move, along, up } of flanks.coast.steps) {
      expect(along.low).toBeLessThanOrEqual(move.toeHeel);
      expect(up.high).toBeGreaterThanOrEqual(move.rootFace);
    }
  });
});
