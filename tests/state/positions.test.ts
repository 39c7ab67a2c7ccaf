import { describe, expect, it } from 'vitest';
import { AXLE_IDS } from '../../models/index.ts';
import { poseOfFitment } from '../../sim/assembly/fitment.ts';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { preloadChange, sidePush } from '../../sim/assembly/sides.ts';
import { stackFor } from '../../sim/assembly/stock.ts';
import { axleOf } from '../../src/state/axles.ts';
import {
  nextPosition,
  pinionShimPositions,
  preloadToHold,
  ringPositions,
} from '../../src/state/positions.ts';
import { REACH } from '../../src/state/ranges.ts';

describe.each(AXLE_IDS)('%s', (id) => {
  const { axle } = axleOf(id);
  const found = fittedNow(axle);

  it('offers pinion shims the stock can make, ascending, on both sides of the design', () => {
    const positions = pinionShimPositions(axle, null);
    expect(positions.length).toBeGreaterThan(8);
    for (const [index, position] of positions.entries()) {
      expect(stackFor(axle.pinionShim.stock, position)).not.toBeNull();
      expect(Math.abs(position - axle.pinionShim.design)).toBeLessThanOrEqual(REACH + 1e-9);
      if (index > 0) expect(position).toBeGreaterThan(positions[index - 1]);
    }
    expect(positions[0]).toBeLessThan(axle.pinionShim.design - 0.15);
    expect(positions.at(-1)).toBeGreaterThan(axle.pinionShim.design + 0.15);
  });

  it('offers ring positions that real parts give, ascending toward the pinion, the total kept', () => {
    const preload = preloadToHold(axle, found, found);
    const positions = ringPositions(axle.sides, preload, null);
    expect(positions.length).toBeGreaterThan(6);
    const isAdjuster = (side: 'ringSide' | 'oppositeSide') => axle.sides[side].kind === 'adjuster';
    for (const [index, position] of positions.entries()) {
      const pose = poseOfFitment(axle, { ...found, ...position });
      expect(pose.ringAway).toBeCloseTo(-position.ringIn, 6);
      // unlike sides can only meet the total to half a step of the finer one
      const slack = isAdjuster('ringSide') === isAdjuster('oppositeSide') ? 1e-6 : 0.0261;
      expect(Math.abs(preloadChange(axle.sides, position) - preload)).toBeLessThan(slack);
      for (const side of ['ringSide', 'oppositeSide'] as const) {
        const device = axle.sides[side];
        if (device.kind === 'adjuster') expect(Number.isInteger(position[side])).toBe(true);
        else expect(stackFor(device.stock, position[side])).not.toBeNull();
        expect(Math.abs(sidePush(device, position[side]))).toBeLessThanOrEqual(REACH + 0.06);
      }
      if (index > 0) expect(position.ringIn).toBeGreaterThan(positions[index - 1].ringIn);
    }
    expect(positions.some((position) => position.ringSide === found.ringSide)).toBe(true);
  });
});

describe('the neighbour in a list', () => {
  it('is found from between two positions, and is null past the ends', () => {
    const positions = [1, 1.5, 2];
    expect(nextPosition(positions, 1.2, 1)).toBe(1.5);
    expect(nextPosition(positions, 1.2, -1)).toBe(1);
    expect(nextPosition(positions, 1.5, 1)).toBe(2);
    expect(nextPosition(positions, 2, 1)).toBeNull();
    expect(nextPosition(positions, 1, -1)).toBeNull();
  });
});
