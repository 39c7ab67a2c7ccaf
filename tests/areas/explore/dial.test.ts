import { describe, expect, it } from 'vitest';
import type { AxleLimits } from '../../../models/axle.ts';
import { MeshCore } from '../../../sim/worker/core.ts';
import type { BacklashReport, SolveResult } from '../../../sim/worker/protocol.ts';
import { extremesOf, judgeRound } from '../../../src/areas/explore/dial/judgeRound.ts';
import { leastPhase, playOf } from '../../../src/areas/explore/dial/play.ts';
import { axleOf } from '../../../src/state/axles.ts';
import type { DialPlace } from '../../../src/state/dial.ts';
import { poseOfSetup } from '../../../src/state/mesh.ts';
import { setupAsFound } from '../../../src/state/setup.ts';

function solved(axleId: string, ringAway = 0): SolveResult {
  const core = new MeshCore();
  core.load(axleId, axleOf(axleId).axle.gearset);
  const setup = setupAsFound(axleId);
  const pose = poseOfSetup(setup);
  const outcome = core.solve(axleId, { ...pose, ringAway: pose.ringAway + ringAway }, setup.film);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.failure));
  return outcome.value;
}

describe('what the needle reads', () => {
  it('is the solver’s least reading either way, over the solver’s angle', () => {
    const result = solved('borrin');
    const { normal, tangential, angle } = result.backlash;
    const turn = ((angle ?? 0) * Math.PI) / 180;
    expect(playOf(result, 'square')).toEqual({ angle: turn, reading: normal });
    expect(playOf(result, 'tangential')).toEqual({ angle: turn, reading: tangential });
    expect(Math.min(...result.freePlayCurve)).toBeCloseTo(turn, 6);
  });

  it('is nothing where the teeth bind or never meet', () => {
    const bound = solved('borrin', -0.3);
    expect(bound.backlash.binding).toBe(true);
    expect(playOf(bound, 'square')).toBe('binds');
    const backlash = { ...bound.backlash, normal: null, tangential: null, angle: null, binding: false };
    expect(playOf({ ...bound, backlash }, 'square')).toBe('none');
  });

  it('stands where in the pitch the play is least', () => {
    const result = solved('cavel');
    const { ringTeeth } = axleOf('cavel').axle.gearset;
    const pitch = (2 * Math.PI) / ringTeeth;
    const phase = leastPhase(result, ringTeeth);
    expect(phase).toBeGreaterThanOrEqual(0);
    expect(phase).toBeLessThan(pitch);
    const { freePlayCurve } = result;
    expect(freePlayCurve[Math.round((phase / pitch) * freePlayCurve.length)]).toBe(
      Math.min(...freePlayCurve),
    );
    expect(leastPhase({ ...result, freePlayCurve: new Float32Array(8).fill(Number.NaN) }, ringTeeth)).toBe(0);
  });
});

const LIMITS: AxleLimits['backlash'] = { min: 0.1, max: 0.2, reads: 'square', variation: 0.05 };
const shape = solved('aldra');

/** A place that reads `normal` mm square to the flank, 1.25 times as much in the turning direction. */
function place(normal: number | null, tooth: number): DialPlace {
  const backlash: BacklashReport = {
    normal,
    normalMean: normal === null ? null : normal + 0.004,
    normalRange: 0.008,
    tangential: normal === null ? null : normal * 1.25,
    tangentialMean: normal === null ? null : (normal + 0.004) * 1.25,
    angle: normal === null ? null : normal,
    binding: normal !== null && normal <= 0,
  };
  return { tooth, angle: tooth, away: 0, result: { ...shape, backlash } };
}
const round = (...normals: (number | null)[]) => normals.map(place);

describe('readings round the ring', () => {
  it('come to least, greatest and variation with their places, as the dial is held', () => {
    const places = round(0.14, 0.12, 0.17, 0.15);
    expect(extremesOf(places, 'square')).toEqual({
      least: { place: 1, reading: 0.12 },
      greatest: { place: 2, reading: 0.17 },
      variation: expect.closeTo(0.05, 12),
    });
    expect(extremesOf(places, 'tangential')?.variation).toBeCloseTo(0.0625, 12);
    expect(extremesOf(round(0.14, null, 0.17), 'square')).toBeNull();
  });

  it('are inside only when every place is and they vary no more than allowed', () => {
    expect(judgeRound(round(0.12, 0.13, 0.16), LIMITS)).toMatchObject({
      variationBeyond: 0,
      worst: { reading: { verdict: 'inside' } },
    });
    expect(judgeRound(round(0.11, 0.13, 0.18), LIMITS).variationBeyond).toBeCloseTo(0.02, 12);
  });

  it('name the place that is worst: binding before no contact, below before above, far before near', () => {
    const worst = (...normals: (number | null)[]) => {
      const { place: at, reading } = judgeRound(round(...normals), LIMITS).worst;
      return [at, reading.verdict];
    };
    expect(worst(0.15, 0.09, 0.08)).toEqual([2, 'below']);
    expect(worst(0.22, 0.15, 0.25)).toEqual([2, 'above']);
    expect(worst(0.3, 0.09, 0.15)).toEqual([1, 'below']);
    expect(worst(0.3, null, 0.15)).toEqual([1, 'unknown']);
    expect(worst(null, 0.15, -0.01)).toEqual([2, 'binds']);
  });

  it('are judged the way the limits are read, however the dial is held', () => {
    const limits = { ...LIMITS, reads: 'tangential' } as const;
    // 0.18 square is inside 0.1 to 0.2, but 0.225 in the turning direction is not
    expect(judgeRound(round(0.15, 0.18), limits).worst).toMatchObject({
      place: 1,
      reading: { verdict: 'above' },
    });
  });
});
