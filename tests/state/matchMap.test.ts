import { describe, expect, it } from 'vitest';
import { createShimMap } from '../../sim/contact/shimMap.ts';
import { poseOfFitment } from '../../sim/worker/assembly.ts';
import { DiagnoseCore } from '../../sim/worker/diagnoseCore.ts';
import type { MatchRequest } from '../../sim/worker/diagnoseProtocol.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import { unpackPiece } from '../../sim/worker/shimMapPiece.ts';
import { sampleAt } from '../../src/shimMap/plane.ts';
import { spreadOval } from '../../src/shimMap/spreadOval.ts';
import { requestOf } from '../../src/state/answer.ts';
import { axleOf } from '../../src/state/axles.ts';
import { blankLook, type Cut } from '../../src/state/look.ts';
import { type Answered, matchPlane, useMatchMap, workOutMatchMap } from '../../src/state/matchMap.ts';
import type { ShimMapSource } from '../../src/state/shimMap.ts';

const diagnosing = new DiagnoseCore();
const long = new LongCore();

/** The second worker's core, without the worker. */
const source: ShimMapSource = {
  shimMap: async (gearSetId, definition, plane) => {
    const request = { kind: 'shimMap', gearSetId, definition, plane } as const;
    const begun = long.beginShimMap(request);
    if (!begun.ok) return { ...begun, request };
    const map = createShimMap(plane);
    for (;;) {
      const next = long.nextOfShimMap(begun.value.job);
      if (!next.ok) return { ...next, request };
      if (next.value === null) return { ok: true, value: map, request };
      unpackPiece(map, next.value);
    }
  },
};

const SEEN: MatchRequest['seen'] = {
  drive: { kind: 'descriptors', toeHeel: -0.22, rootFace: -0.02, length: 0.6, height: 0.72 },
  coast: { kind: 'descriptors', toeHeel: 0.08, rootFace: 0.12, length: 0.6, height: null },
  backlash: [0.21, 0.22],
  uncertainty: { patch: 0.05, backlash: 0.01 },
  film: null,
};

function answerTo(axleId: string, cut: Cut): Answered {
  const look = { ...blankLook(axleId), cut };
  const outcome = diagnosing.match({ ...requestOf(look), seen: SEEN });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.failure));
  return { look, answer: outcome.value };
}

describe.each([
  ['borrin', 'unknown'],
  ['dornet', 'known'],
] as const)('the map of an answer, %s, set %s', (axleId, cut) => {
  it('shows at the shims fitted now the nearest mesh as a usual coat has it, and at those advised what is foretold', async () => {
    const answered = answerTo(axleId, cut);
    const { answer, look } = answered;
    await workOutMatchMap(source, answered, new AbortController().signal);
    const { shown, failure, of } = useMatchMap.getState();
    expect(failure).toBeNull();
    expect(of).toBe(answered);
    if (shown === null || answer.advice.kind === 'refused') throw new Error('no map');
    const { axle } = axleOf(axleId);
    const thickness = answer.diagnosis.nearest.set?.thickness ?? 0;
    const holds = (fitment: typeof look.fitment, solved: SolveResult) => {
      const at = poseOfFitment(axle, fitment);
      const read = (field: Float64Array) => sampleAt(field, shown.map.plane, at);
      for (const flank of ['drive', 'coast'] as const) {
        expect(read(shown.map[flank].toeHeel)).toBeCloseTo(solved[flank].toeHeel ?? 9, 1.5);
        expect(read(shown.map[flank].rootFace)).toBeCloseTo(solved[flank].rootFace ?? 9, 1.5);
      }
      expect(Math.abs(read(shown.map.dial) - thickness - (solved.backlash.normal ?? 9))).toBeLessThan(0.002);
    };
    const { film_mm: film } = axle;
    const { definition, nearest } = answer;
    const usual = diagnosing.patterns({ gearSetId: 'as seen', definition, film, poses: [nearest.pose] });
    if (!usual.ok) throw new Error(JSON.stringify(usual.failure));
    holds(look.fitment, usual.value[0]);
    const { change } = answer.advice;
    expect(change).not.toBeNull();
    if (change !== null && answer.next !== null) holds(change.fitment, answer.next);
    expect(shown.home).toEqual({ drive: answer.advice.target.drive, coast: answer.advice.target.coast });
  });
});

describe('the plane of such a map', () => {
  it('holds what is fitted now and what is advised, however far apart', () => {
    const { axle } = axleOf('borrin');
    const { fitment } = blankLook('borrin');
    const far = { ...fitment, pinionShim: fitment.pinionShim + 0.7 };
    const { pinionIn, ringAway } = matchPlane('borrin', fitment, far);
    for (const one of [fitment, far]) {
      const at = poseOfFitment(axle, one).pinionIn;
      expect(at - pinionIn.low).toBeGreaterThanOrEqual(0.1 - 1e-9);
      expect(pinionIn.high - at).toBeGreaterThanOrEqual(0.1 - 1e-9);
    }
    expect(ringAway.high - ringAway.low).toBeCloseTo(0.6, 9);
  });
});

describe('the oval of a spread', () => {
  it('is the line of equal likeliness that holds nine in ten', () => {
    const spread = { pinionIn: 0.08, ringAway: 0.05, correlation: 0.7 };
    const middle = { pinionIn: 0.1, ringAway: -0.2 };
    for (const { pinionIn, ringAway } of spreadOval(middle, spread)) {
      const a = (pinionIn - middle.pinionIn) / spread.pinionIn;
      const b = (ringAway - middle.ringAway) / spread.ringAway;
      const squared = (a * a - 2 * 0.7 * a * b + b * b) / (1 - 0.7 ** 2);
      // chi-squared with two degrees of freedom: 1 - exp(-x / 2) = 0.9
      expect(1 - Math.exp(-squared / 2)).toBeCloseTo(0.9, 9);
    }
  });
});
