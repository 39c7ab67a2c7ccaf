import { describe, expect, it } from 'vitest';
import { answerFor, solveSpread, summariseSpread } from '../../sim/contact/spread.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { DEFAULT_UNKNOWNS, UNKNOWN_COUNT, varyUnknowns } from '../../sim/gearset/unknowns.ts';
import { evenPoint } from '../../sim/math/evenSequence.ts';
import { quantile } from '../../sim/math/quantile.ts';
import {
  chance,
  distance,
  type Made,
  QUANTITIES,
  QUESTION,
  solveByChance,
} from '../support/monteCarloSpread.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

describe('the even sequence', () => {
  it.each([1, 2, 10])('fills every axis of %i dimensions evenly, and its diagonal planes', (dimensions) => {
    const count = 400;
    const points = Array.from({ length: count }, (_, k) => evenPoint(dimensions, k));
    for (let axis = 0; axis < dimensions; axis++) {
      const sorted = points.map((point) => point[axis]).sort((a, b) => a - b);
      const worst = Math.max(...sorted.map((x, k) => Math.abs(x - (k + 0.5) / count)));
      expect(worst).toBeLessThan(0.03);
      const other = (axis + 1) % dimensions;
      if (other === axis) continue;
      const corner = points.filter((point) => point[axis] < 0.5 && point[other] < 0.5).length;
      expect(Math.abs(corner / count - 0.25)).toBeLessThan(0.04);
    }
    expect(evenPoint(dimensions, 7)).toEqual(points[7]);
  });

  it('quantiles: between the sorted numbers, none of none', () => {
    expect(quantile([3, 1, 2], 0.5)).toBe(2);
    expect(quantile([0, 10], 0.05)).toBeCloseTo(0.5, 12);
    expect(quantile([], 0.5)).toBeNaN();
  });
});

describe('the unknowns of a gear set', () => {
  const { definition } = SHIPPED_SETS[0];
  it('in the middle it is the set itself, at the ends as far off as stated', () => {
    const middle = varyUnknowns(definition, DEFAULT_UNKNOWNS, Array(UNKNOWN_COUNT).fill(0.5));
    expect(middle).toEqual(definition);
    const end = varyUnknowns(definition, DEFAULT_UNKNOWNS, Array(UNKNOWN_COUNT).fill(1));
    expect(end.cut.cutterRadius).toBeCloseTo(1.1 * definition.cut.cutterRadius, 9);
    expect(end.pinionSpiralAngle).toBeCloseTo(definition.pinionSpiralAngle + 3, 9);
    for (const flank of FLANKS) {
      const [was, is] = [definition.easeOff[flank], end.easeOff[flank]];
      expect(is.centerToeHeel).toBeCloseTo(was.centerToeHeel + 0.2, 9);
      expect(is.centerRootFace).toBeCloseTo(was.centerRootFace + 0.2, 9);
      expect(is.lengthwise).toBeCloseTo(1.3 * was.lengthwise, 9);
      expect(is.profile).toBeCloseTo(1.3 * was.profile, 9);
      expect(is.bias / Math.sqrt(is.lengthwise * is.profile)).toBeCloseTo(
        was.bias / Math.sqrt(was.lengthwise * was.profile),
        9,
      );
    }
  });
});

describe.each([
  { ...SHIPPED_SETS[1], count: 60 },
  { ...SHIPPED_SETS[2], count: 40 },
])('the spread of $label', ({ definition, film, count }) => {
  const question = { ...QUESTION, film };
  const samples = [...solveSpread(definition, question, count)];
  const made = samples.filter((sample): sample is Made => sample.made);

  it('equals a Monte Carlo of direct solves within sampling error (seed 808)', () => {
    const random = seededRandom(808);
    const byChance = Array.from({ length: count }, () => solveByChance(random, definition, film));
    const madeByChance = byChance.filter((sample): sample is Made => sample.made);
    const share = made.length / count;
    const error = Math.sqrt(Math.max(share * (1 - share), 1 / count) / count);
    expect(Math.abs(share - madeByChance.length / count)).toBeLessThan(4 * Math.SQRT2 * error);
    for (const [name, read] of Object.entries(QUANTITIES)) {
      const numbers = (of: readonly Made[]) => of.map(read).filter((x): x is number => x !== undefined);
      const [a, b] = [numbers(made), numbers(madeByChance)];
      expect(a.length, name).toBeGreaterThan(0.6 * count);
      expect(distance(a, b), name).toBeLessThan(chance(a.length, b.length));
    }
  });

  it('says what is robust: deeper takes the dial down whatever the set is; lengthwise it is less sure', () => {
    const spread = summariseSpread(samples, 2);
    expect(spread.made).toBe(made.length);
    expect(spread.made + Object.values(spread.refused).reduce((sum, n) => sum + n, 0)).toBe(count);
    expect(spread.moves[0].dial.negative).toBe(1);
    expect(spread.moves[1].dial.negative).toBe(1);
    expect(spread.moves[0].drive.rootFace.negative).toBeGreaterThan(0.9);
    for (const flank of FLANKS) {
      const { toeHeel, unmarked } = spread[flank];
      expect(toeHeel.count + unmarked).toBe(spread.made);
      expect(toeHeel.low).toBeLessThan(toeHeel.quarter);
      expect(toeHeel.quarter).toBeLessThan(toeHeel.median);
      expect(toeHeel.median).toBeLessThan(toeHeel.threeQuarters);
      expect(toeHeel.threeQuarters).toBeLessThan(toeHeel.high);
      // the centre alone is unknown by 0.2 either way
      expect(toeHeel.high - toeHeel.low).toBeGreaterThan(0.2);
    }
  });

  it('goes on where it was: the first samples are the same, and each is a direct answer', () => {
    const [first, second] = [...solveSpread(definition, question, 2)];
    expect(first).toEqual(samples[0]);
    expect(second).toEqual(samples[1]);
    const drawn = varyUnknowns(definition, DEFAULT_UNKNOWNS, evenPoint(UNKNOWN_COUNT, 1));
    expect(answerFor(drawn, question)).toEqual(second);
  });
});

it('counts what cannot be made by its reason, and none left is no crash', () => {
  const { definition, film } = SHIPPED_SETS[0];
  const hopeless = { ...definition, tooth: { ...definition.tooth, slotFactor: 0.35 } };
  const samples = [...solveSpread(hopeless, { ...QUESTION, film }, 5)];
  const spread = summariseSpread(samples, 2);
  expect(spread.made).toBe(0);
  expect(spread.refused).toEqual({ 'point-width': 5 });
  expect(spread.drive.toeHeel).toMatchObject({ count: 0, median: Number.NaN });
  expect(() => [...solveSpread(definition, { ...QUESTION, film }, 0)]).toThrow(/count: 0/);
});
