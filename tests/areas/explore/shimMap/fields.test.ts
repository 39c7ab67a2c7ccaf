import { describe, expect, it } from 'vitest';
import { AXLE_IDS } from '../../../../models/index.ts';
import { DESIGN_POSE } from '../../../../sim/contact/pose.ts';
import { judgeBacklash } from '../../../../src/areas/explore/backlash.ts';
import { edgesIn, isClearOfEdges, stateAt } from '../../../../src/areas/explore/shimMap/placeState.ts';
import { fieldsOf, NO_MARK, offHome } from '../../../../src/shimMap/fields.ts';
import { filledIn, nearestCell, sampleAt, solvedLines } from '../../../../src/shimMap/plane.ts';
import { seededRandom } from '../../../support/random.ts';
import { directSolver, drawnMap } from './solvedMap.ts';

/** flank coordinates and mm between the map (search grid, between cells linear) and a direct solve on the display grid */
const CENTRE_MISS = 0.03;
const READING_MISS = 0.001;

describe('filling in between solved cells', () => {
  it('counts the last line in, whatever the stride', () => {
    expect(solvedLines(61, 8)).toEqual([0, 8, 16, 24, 32, 40, 48, 56, 60]);
    expect(solvedLines(9, 4)).toEqual([0, 4, 8]);
    expect(solvedLines(2, 8)).toEqual([0, 1]);
  });

  it.each([8, 4, 2, 1])('is exact for a plane and at solved cells, stride %i (seed 8)', (stride) => {
    const random = seededRandom(8);
    const [a, b, c] = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
    const plane = (cell: number) => a + b * (cell % 61) + c * Math.floor(cell / 61);
    const wrong = filledIn(61, 61, stride, plane).map((value, cell) => Math.abs(value - plane(cell)));
    expect(Math.max(...wrong)).toBeLessThan(1e-9);
    const rough = (cell: number) => Math.sin(cell * 12.9898);
    const filled = filledIn(61, 61, stride, rough);
    for (const row of solvedLines(61, stride)) {
      for (const column of solvedLines(61, stride)) {
        expect(filled[row * 61 + column]).toBe(rough(row * 61 + column));
      }
    }
  });

  it('keeps solved cells beside one that has no value', () => {
    const filled = filledIn(3, 3, 1, (cell) => (cell === 4 ? Number.NaN : cell));
    expect([...filled]).toEqual([0, 1, 2, 3, Number.NaN, 5, 6, 7, 8]);
  });
});

describe.each(AXLE_IDS)('what the map of %s says of a place', (axleId) => {
  const { axle, fields } = drawnMap(axleId);
  const { backlash: limits } = axle.limits;

  it('is what a direct solve says (seed 77)', () => {
    const random = seededRandom(77);
    const solve = directSolver(axleId);
    let verdictsDiffer = 0;
    let edgesDiffer = 0;
    const PLACES = 60;
    for (let i = 0; i < PLACES; i++) {
      const point = { pinionIn: random.between(-0.3, 0.3), ringAway: random.between(-0.3, 0.3) };
      const direct = solve({ ...DESIGN_POSE, ...point });
      const state = stateAt(fields, limits, point);
      const reading = judgeBacklash(direct.backlash, limits);
      expect(Math.abs((state.backlash.least ?? 9) - (reading.least ?? -9))).toBeLessThan(READING_MISS);
      expect(Math.abs((state.backlash.mean ?? 9) - (reading.mean ?? -9))).toBeLessThan(READING_MISS);
      if (state.backlash.verdict !== reading.verdict) verdictsDiffer++;
      for (const flank of ['drive', 'coast'] as const) {
        expect(Math.abs(state[flank].toeHeel - (direct[flank].toeHeel ?? 9))).toBeLessThan(CENTRE_MISS);
        expect(Math.abs(state[flank].rootFace - (direct[flank].rootFace ?? 9))).toBeLessThan(CENTRE_MISS);
        if (state[flank].edges.join() !== direct[flank].edges.join()) edgesDiffer++;
      }
    }
    expect(verdictsDiffer).toBeLessThanOrEqual(2);
    expect(edgesDiffer).toBeLessThanOrEqual(0.08 * 2 * PLACES);
  });

  it('is home in the design position, clear of the edges and within the limits', () => {
    const design = stateAt(fields, limits, { pinionIn: 0, ringAway: 0 });
    expect(design.offHome).toBeCloseTo(0, 9);
    expect(design.backlash.verdict).toBe('inside');
    expect(design.drive.edges).toEqual([]);
    expect(design.coast.edges).toEqual([]);
  });

  it('shows all of it after the first pass too, roughly', () => {
    const coarse = drawnMap(axleId, 8).fields;
    expect(coarse.stride).toBe(8);
    const missed = fields.least.map((least, cell) => Math.abs(coarse.least[cell] - least));
    expect(Math.max(...missed)).toBeLessThan(0.012);
    expect(coarse.offHome.every((off) => Number.isFinite(off))).toBe(true);
  });
});

describe('a place between cells', () => {
  const { fields } = drawnMap('borrin');

  it('belongs to the nearest cell where nothing lies in between, and to the map’s border outside it', () => {
    const { plane } = fields;
    expect(nearestCell(plane, { pinionIn: -0.3, ringAway: -0.3 })).toBe(0);
    expect(nearestCell(plane, { pinionIn: 0.0049, ringAway: 0.0051 })).toBe(31 * 61 + 30);
    expect(nearestCell(plane, { pinionIn: 9, ringAway: 9 })).toBe(61 * 61 - 1);
    expect(sampleAt(fields.least, plane, { pinionIn: 0.35, ringAway: 0.35 })).toBe(fields.least[61 * 61 - 1]);
  });

  it('is clear of edges only where all cells round it are', () => {
    const { plane, drive, coast } = fields;
    const clear = (cell: number) => drive.edges[cell] === 0 && coast.edges[cell] === 0;
    let borders = 0;
    const wrong: number[] = [];
    for (let row = 0; row < 60; row++) {
      for (let column = 0; column < 60; column++) {
        const cell = row * 61 + column;
        const between = {
          pinionIn: plane.pinionIn.low + 0.01 * (column + 0.4),
          ringAway: plane.ringAway.low + 0.01 * (row + 0.4),
        };
        const round = [cell, cell + 1, cell + 61, cell + 62].map(clear);
        if (isClearOfEdges(fields, between) !== round.every(Boolean)) wrong.push(cell);
        if (round.some(Boolean) && !round.every(Boolean)) borders++;
      }
    }
    expect(wrong).toEqual([]);
    expect(borders).toBeGreaterThan(20);
  });

  it('names edges by their bits', () => {
    expect(edgesIn(0)).toEqual([]);
    expect(edgesIn(9)).toEqual(['toe', 'root']);
    expect(edgesIn(6)).toEqual(['heel', 'face']);
  });
});

describe('off home', () => {
  const at = (toeHeel: number, rootFace: number) => ({ toeHeel, rootFace });
  const home = { drive: at(-0.1, 0.1), coast: at(0, 0.2) };

  it('is the distance of the middles, the drive flank counted twice', () => {
    expect(offHome(home, home)).toBe(0);
    expect(offHome({ drive: at(0.2, 0.5), coast: at(0, 0.2) }, home)).toBeCloseTo((2 / 3) * 0.5, 12);
    expect(offHome({ drive: at(-0.1, 0.1), coast: at(0.3, -0.2) }, home)).toBeCloseTo(
      Math.hypot(0.3, 0.4) / 3,
      12,
    );
  });

  it('is farther than any mark where a flank has none', () => {
    expect(offHome({ drive: at(Number.NaN, Number.NaN), coast: at(0, 0) }, home)).toBe(NO_MARK);
  });

  it('turns readings the way the limits are read', () => {
    const { shown } = drawnMap('cavel');
    const square = fieldsOf(shown, 'square', 1.3);
    const turning = fieldsOf(shown, 'tangential', 1.3);
    expect(turning.least[1234]).toBeCloseTo(1.3 * square.least[1234], 12);
    expect(turning.mean[1234]).toBeCloseTo(1.3 * square.mean[1234], 12);
  });
});
