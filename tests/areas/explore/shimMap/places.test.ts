import { describe, expect, it } from 'vitest';
import { AXLE_IDS } from '../../../../models/index.ts';
import { poseOfFitment } from '../../../../sim/assembly/fitment.ts';
import { fittedNow } from '../../../../sim/assembly/hardware.ts';
import { preloadChange, realSetting } from '../../../../sim/assembly/sides.ts';
import { nearestTotal } from '../../../../sim/assembly/stock.ts';
import { bestPlace } from '../../../../src/areas/explore/shimMap/bestPlace.ts';
import { isClearOfEdges, readingAt } from '../../../../src/areas/explore/shimMap/placeState.ts';
import {
  combinationsOf,
  fitmentOf,
  nearestCombination,
  pointOf,
  stepFrom,
} from '../../../../src/shimMap/combinations.ts';
import { sampleAt } from '../../../../src/shimMap/plane.ts';
import { scalesOf } from '../../../../src/shimMap/scales.ts';
import { axleOf } from '../../../../src/state/axles.ts';
import { directSolver, drawnMap } from './solvedMap.ts';

const AXIS = { low: -0.3, high: 0.3, count: 61 };
const AXES = { pinionIn: AXIS, ringAway: AXIS };

const stockOf = (axleId: string) => {
  const { axle } = axleOf(axleId);
  return combinationsOf(axle, preloadChange(axle.sides, fittedNow(axle)), AXES, null);
};

describe.each(AXLE_IDS)('combinations of %s', (axleId) => {
  const { axle } = axleOf(axleId);
  const stock = stockOf(axleId);

  it('are real parts, each on the map, with the place they say', () => {
    expect(stock.shims.length).toBeGreaterThan(5);
    expect(stock.rings.length).toBeGreaterThan(5);
    const off: number[] = [];
    stock.shims.forEach((_, shim) => {
      stock.rings.forEach((__, ring) => {
        const fitment = fitmentOf(stock, { shim, ring });
        const point = pointOf(stock, { shim, ring });
        const pose = poseOfFitment(axle, fitment);
        off.push(
          nearestTotal(axle.pinionShim.stock, fitment.pinionShim) - fitment.pinionShim,
          realSetting(axle.sides.ringSide, fitment.ringSide) - fitment.ringSide,
          realSetting(axle.sides.oppositeSide, fitment.oppositeSide) - fitment.oppositeSide,
          point.pinionIn - pose.pinionIn,
          point.ringAway - pose.ringAway,
          Math.max(0, Math.abs(point.pinionIn) - 0.3),
          Math.max(0, Math.abs(point.ringAway) - 0.3),
        );
      });
    });
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(2e-6);
  });

  it('are stepped through one by one, also from between two, and stop at the ends', () => {
    const last = { shim: stock.shims.length - 1, ring: stock.rings.length - 1 };
    const { pinionShim } = stock.shims[2];
    const { ringIn } = stock.rings[3];
    const from = { pinionShim, ringIn };
    expect(stepFrom(stock, from, { shim: 1, ring: 0 })).toEqual({ shim: 3, ring: 3 });
    expect(stepFrom(stock, from, { shim: 0, ring: -1 })).toEqual({ shim: 2, ring: 2 });
    expect(stepFrom(stock, from, { shim: 0, ring: 0 })).toEqual({ shim: 2, ring: 3 });
    expect(stepFrom(stock, from, { shim: -99, ring: 99 })).toEqual({ shim: 0, ring: last.ring });
    const between = { pinionShim: pinionShim + 0.001, ringIn: ringIn + 0.001 };
    expect(stepFrom(stock, between, { shim: 1, ring: 1 })).toEqual({ shim: 3, ring: 4 });
    expect(stepFrom(stock, between, { shim: -1, ring: -1 })).toEqual({ shim: 2, ring: 3 });
    expect(stepFrom(stock, between, { shim: 2, ring: 0 })).toEqual({ shim: 4, ring: 3 });
  });

  it('the nearest to a combination’s own place is itself, in the drawing too', () => {
    const scales = scalesOf(AXES, axle.pinionShim, { left: 50, top: 10, width: 600, height: 400 });
    const strayed: unknown[] = [];
    stock.shims.forEach((_, shim) => {
      stock.rings.forEach((__, ring) => {
        const at = scales.toScreen(pointOf(stock, { shim, ring }));
        const found = nearestCombination(stock, scales.toPlane(at));
        if (found?.shim !== shim || found.ring !== ring) strayed.push({ shim, ring, found });
      });
    });
    expect(strayed).toEqual([]);
    // to the right the shim grows thicker, upward the ring goes out
    const [a, b] = [
      scales.toScreen(pointOf(stock, { shim: 0, ring: 0 })),
      scales.toScreen(pointOf(stock, { shim: 1, ring: 1 })),
    ];
    expect(b.x).toBeGreaterThan(a.x);
    expect(b.y).toBeGreaterThan(a.y);
  });
});

describe.each(AXLE_IDS)('the best place in stock for %s', (axleId) => {
  const { axle, fields } = drawnMap(axleId);
  const stock = stockOf(axleId);
  const { backlash: limits } = axle.limits;

  it('is within the limits, clear of the edges, and none such is nearer to home', () => {
    const best = bestPlace(fields, limits, stock);
    if (best === null) throw new Error('no best place');
    expect(best.clearOfEdges).toBe(true);
    const rivals: number[] = [];
    stock.shims.forEach((_, shim) => {
      stock.rings.forEach((__, ring) => {
        const point = pointOf(stock, { shim, ring });
        if (readingAt(fields, limits, point).verdict !== 'inside' || !isClearOfEdges(fields, point)) return;
        rivals.push(sampleAt(fields.offHome, fields.plane, point));
      });
    });
    expect(rivals.length).toBeGreaterThan(1);
    expect(Math.min(...rivals)).toBeCloseTo(best.offHome, 9);
  });

  it('a direct solve agrees: clear of every edge', () => {
    const best = bestPlace(fields, limits, stock);
    if (best === null) throw new Error('no best place');
    const pose = poseOfFitment(axle, fitmentOf(stock, best.combination));
    const direct = directSolver(axleId)(pose);
    expect(direct.drive.edges).toEqual([]);
    expect(direct.coast.edges).toEqual([]);
  });
});

describe('a best place where there is no good one', () => {
  const { axle, fields } = drawnMap('borrin');
  const stock = stockOf('borrin');
  const { backlash: limits } = axle.limits;

  it('with edge contact everywhere is the nearest to home within the limits, and says so', () => {
    const touching = { ...fields, drive: { ...fields.drive, edges: fields.drive.edges.map(() => 1) } };
    const best = bestPlace(touching, limits, stock);
    expect(best?.clearOfEdges).toBe(false);
    expect(best?.combination).toEqual(bestPlace(fields, limits, stock)?.combination);
  });

  it('does not exist without a combination within the limits', () => {
    expect(bestPlace(fields, { ...limits, min: 2, max: 3 }, stock)).toBeNull();
    expect(bestPlace(fields, limits, { ...stock, shims: [] })).toBeNull();
  });
});
