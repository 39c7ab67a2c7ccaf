import { describe, expect, it } from 'vitest';
import type { AdviceTarget, Foresight, MarkOutcome } from '../../sim/assembly/adviceOutcome.ts';
import { scoreOutcome, statedScore } from '../../sim/assembly/adviceScore.ts';
import { advise } from '../../sim/assembly/advise.ts';
import { type AxleHardware, fittedNow } from '../../sim/assembly/hardware.ts';
import { adjuster, hardware, sideShims } from './hardware.ts';

const markAt = (toeHeel: number, rootFace: number): MarkOutcome => ({
  toeHeel,
  rootFace,
  length: 0.6,
  height: 0.6,
  edges: (rootFace > 0.4 ? 4 : 0) | (rootFace < -0.1 ? 8 : 0),
});

/** An axle that answers in straight lines, several states apart by their depth: mm off, and mm of dial. */
const straight = (pinionIn: number, ringAway: number, spread = 0.01): Foresight => ({
  states: 16,
  places: 2,
  predict: (state, dp, dr) => {
    const p = pinionIn + dp + spread * ((state % 4) - 1.5);
    const r = ringAway + dr + spread * (Math.floor(state / 4) - 1.5);
    return {
      drive: markAt(-0.1 - 1.4 * p + r, 0.14 - 1.6 * p + 0.7 * r),
      coast: markAt(-0.1 + 0.7 * p - 0.1 * r, 0.14 - 1.1 * p + 0.5 * r),
      backlash: 0.17 - 0.28 * p + 0.72 * r,
      places: [-0.005, 0.005],
    };
  },
});

const target: AdviceTarget = {
  drive: { toeHeel: -0.1, rootFace: 0.14 },
  coast: { toeHeel: -0.1, rootFace: 0.14 },
  tolerance: { drive: 0.2, coast: 0.3 },
  backlash: { min: 0.13, max: 0.21, best: 0.17 },
};

const ask = (axle: AxleHardware, pinionIn: number, ringAway: number, spread?: number) =>
  advise(axle, fittedNow(axle), straight(pinionIn, ringAway, spread), target);

describe('advice', () => {
  it('leaves alone what is right', () => {
    const { kind, change, now } = ask(hardware('head-bearing'), 0, 0);
    expect({ kind, change }).toEqual({ kind: 'leave', change: null });
    expect(now.met).toMatchObject({ backlash: 1, noEdge: 1, drive: 1 });
  });

  it('brings a deep pinion out by the shim of its place, the ring along with it, in one teardown', () => {
    for (const [place, sense] of [
      ['head-bearing', -1],
      ['behind-cup', -1],
      ['cartridge', 1],
    ] as const) {
      const axle = hardware(place);
      const { change } = ask(axle, 0.25, 0.1);
      expect(change?.move.pinionIn).toBeLessThan(-0.1);
      expect(Math.sign((change?.fitment.pinionShim ?? 0) - axle.pinionShim.fitted)).toBe(sense);
      expect(change?.pinionShim.pinionMoves).toBe('out');
      expect(change?.expected.met).toMatchObject({ backlash: 1, noEdge: 1, drive: 1 });
      expect(change?.chanceWorse).toBe(0);
      expect(change?.costs).toContain('pinion-pull');
      // shims of the stock, with thickness moved from side to side: preload stays within a step
      expect(Math.abs(change?.carrierPreload ?? 1)).toBeLessThanOrEqual(0.04 + 1e-9);
      expect(change?.stacks.pinionShim?.reduce((a, b) => a + b, 0)).toBeCloseTo(
        change?.fitment.pinionShim ?? 0,
        6,
      );
    }
  });

  it('moves the ring alone when only the backlash is wrong, without touching the pinion', () => {
    const { change } = ask(hardware('head-bearing'), 0, 0.1);
    expect(change?.move.pinionIn).toBe(0);
    expect(change?.sides.ringMoves).toBe('in');
    expect(change?.costs).toEqual(['carrier-out']);
  });

  it('says what the work costs: sleeve, bearing pulls, adjusters', () => {
    const sleeve = { ...hardware('head-bearing'), spacer: { kind: 'crush-sleeve' } as const };
    expect(ask(sleeve, 0.25, 0.1).change?.costs).toContain('crush-sleeve');
    const cup = ask(hardware('behind-cup'), 0.25, 0.1).change;
    expect(cup?.costs).toContain('spacer-shim');
    expect(cup?.pinionPreload.spacerChange).toBeCloseTo(cup ? cup.fitment.pinionShim - 1.1 : 0, 6);
    const inboard = { ...sideShims(1.7), kind: 'inboard-shims' } as const;
    expect(ask(hardware('head-bearing', inboard, inboard), 0, 0.1).change?.costs).toEqual([
      'carrier-out',
      'bearing-pull-ring-side',
      'bearing-pull-opposite-side',
    ]);
    const notches = ask(hardware('head-bearing', adjuster(1.5, 30), adjuster(1.5, 30)), 0, 0.1).change;
    expect(notches?.costs).toEqual(['adjusters']);
    expect(notches?.fitment.ringSide).toBe(Math.round(notches?.fitment.ringSide ?? 0.5));
    expect(notches?.stacks.ringSide).toBeNull();
  });

  it('leaves what is likely all right for nothing that is no likelier to be', () => {
    const axle = hardware('head-bearing');
    const right = markAt(-0.1, 0.14);
    // as the shims are, one state of sixteen reaches every border; moved, `misses` of the others put the drive mark off
    const foresight = (misses: number): Foresight => ({
      states: 16,
      places: 1,
      predict: (state, pinionIn, ringAway) => {
        const moved = pinionIn !== 0 || ringAway !== 0;
        return {
          drive: moved && state > 0 && state <= misses ? markAt(0.4, 0.14) : right,
          coast: !moved && state === 0 ? { ...right, edges: 15 } : right,
          backlash: 0.17,
          places: [0],
        };
      },
    });
    expect(advise(axle, fittedNow(axle), foresight(0), target).kind).toBe('change');
    // a border outranks a place, so the score alone would have it changed
    expect(advise(axle, fittedNow(axle), foresight(1), target).kind).toBe('leave');
  });

  it('tells what cannot be had', () => {
    const axle = hardware('head-bearing');
    const impossible = { ...target, drive: { toeHeel: 0.9, rootFace: 0.14 } };
    const advice = advise(axle, fittedNow(axle), straight(0, 0), impossible);
    expect([...advice.outOfReach, ...advice.notTogether]).toContain('drive');
  });

  it('works out no state twice after the same move', () => {
    const axle = hardware('head-bearing');
    const axleModel = straight(0.25, 0.1);
    const asked: string[] = [];
    const counting: Foresight = {
      ...axleModel,
      predict: (...of) => {
        asked.push(of.join(' '));
        return axleModel.predict(...of);
      },
    };
    const advice = advise(axle, fittedNow(axle), counting, target);
    expect(advice).toEqual(ask(axle, 0.25, 0.1));
    expect(asked.length).toBeGreaterThan(16 * 3);
    expect(new Set(asked).size).toBe(asked.length);
  });

  it('is less sure where the states are wider apart', () => {
    const near = ask(hardware('head-bearing'), 0.25, 0.1, 0.005).change;
    const wide = ask(hardware('head-bearing'), 0.25, 0.1, 0.03).change;
    expect(wide?.expected.drive.rootFace.sd).toBeGreaterThan(3 * (near?.expected.drive.rootFace.sd ?? 1));
  });
});

describe('the score', () => {
  const outcome = (pinionIn: number, ringAway: number) => straight(0, 0, 0).predict(0, pinionIn, ringAway);

  it('ranks binding over backlash over edges over place', () => {
    const scores = [outcome(0, 0), outcome(0.1, 0.02), outcome(0.2, 0.1), outcome(0, 0.15), outcome(0, -0.3)];
    for (const of of [scoreOutcome, statedScore]) {
      const values = scores.map((one) => of(one, target));
      expect(values[0]).toBe(0);
      expect([...values].sort((a, b) => a - b)).toEqual(values);
    }
  });
});
