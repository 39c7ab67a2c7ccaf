import { describe, expect, it } from 'vitest';
import { AXLE_IDS } from '../../../../models/index.ts';
import { EDGE_BIT } from '../../../../sim/worker/longProtocol.ts';
import { linesAtRight } from '../../../../src/shimMap/limitLines.ts';
import { mapLabels, mapWords } from '../../../../src/shimMap/mapLabels.ts';
import {
  linePathOf,
  OFF_HOME_STEPS,
  type Outlines,
  pathOf,
  regionsOf,
} from '../../../../src/shimMap/regions.ts';
import { roomForText } from '../../../../src/shimMap/roomForText.ts';
import { scalesOf } from '../../../../src/shimMap/scales.ts';
import { decimalsOf, ticksBetween } from '../../../../src/shimMap/ticks.ts';
import { shimMap } from '../../../../src/text/en/shimMap.ts';
import { addTexts, createTranslate } from '../../../../src/text/translate.ts';
import { seededRandom } from '../../../support/random.ts';
import { drawnMap } from './solvedMap.ts';

addTexts(shimMap);
const t = createTranslate('en');
const BOX = { left: 60, top: 12, width: 600, height: 420 };

/** By the even-odd rule. */
function holds(outlines: Outlines, column: number, row: number): boolean {
  let inside = false;
  for (const ring of outlines) {
    ring.forEach(([ax, ay], k) => {
      const [bx, by] = ring[(k + 1) % ring.length];
      if (ay > row !== by > row && column < ax + ((row - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    });
  }
  return inside;
}

describe.each(AXLE_IDS)('regions on the map of %s', (axleId) => {
  const { axle, fields } = drawnMap(axleId);
  const { backlash: limits } = axle.limits;
  const regions = regionsOf(fields, limits);
  const { least, mean, offHome, drive, coast } = fields;

  it('hold the cells they are of, and no others (seed 31)', () => {
    const random = seededRandom(31);
    const bits = { drive: drive.edges, coast: coast.edges };
    let flagsMissed = 0;
    let flagsTried = 0;
    const wrong: string[] = [];
    for (let i = 0; i < 500; i++) {
      const [column, row] = [random.whole(1, 59), random.whole(1, 59)];
      const cell = row * 61 + column;
      const is = (outlines: Outlines) => holds(outlines, column + 1e-7, row + 1e-7);
      const hold = (name: string, outlines: Outlines, value: number) => {
        if (Math.abs(value) > 1e-6 && is(outlines) !== value > 0) wrong.push(`${name} ${cell}`);
      };
      hold('below', regions.below, limits.min - least[cell]);
      hold('above', regions.above, mean[cell] - limits.max);
      hold('binds', regions.binds, -least[cell]);
      OFF_HOME_STEPS.forEach((step, k) => {
        hold(`off home ${step}`, regions.offHome[k], offHome[cell] - step);
      });
      for (const { flank, edge, outlines } of regions.edges) {
        flagsTried++;
        if (is(outlines) !== ((bits[flank][cell] & EDGE_BIT[edge]) !== 0)) flagsMissed++;
      }
    }
    expect(wrong).toEqual([]);
    // the border of a flag is smoothed: a cell beside it may fall to the other side
    expect(flagsMissed).toBeLessThan(0.03 * flagsTried);
  });

  it('name every edge that occurs within them and no other', () => {
    const occurs = (flags: Uint8Array, bit: number) => flags.filter((edges) => (edges & bit) !== 0).length;
    for (const flank of ['drive', 'coast'] as const) {
      for (const edge of ['toe', 'heel', 'face', 'root'] as const) {
        const named = regions.edges.some((region) => region.flank === flank && region.edge === edge);
        const cells = occurs(fields[flank].edges, EDGE_BIT[edge]);
        if (named) expect(cells).toBeGreaterThan(0);
        else expect(cells).toBeLessThan(40);
      }
    }
  });

  it('have the limits where they leave at the right, from small to large upward', () => {
    const scales = scalesOf(fields.plane, axle.pinionShim, BOX);
    const lines = linesAtRight(fields, limits, scales, 16);
    const order = ['none', 'least', 'most'];
    expect(lines.map(({ line }) => line)).toEqual(
      order.filter((line) => lines.some((each) => each.line === line)),
    );
    expect(lines.map(({ line }) => line)).toContain('least');
    lines.forEach(({ y }, k) => {
      if (k > 0) expect(y).toBeLessThanOrEqual(lines[k - 1].y - 20);
    });
  });

  it('carry their names inside themselves, none over another', () => {
    const scales = scalesOf(fields.plane, axle.pinionShim, BOX);
    const labels = mapLabels(fields, limits, scales, 15, mapWords(t));
    const names = labels.map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(['inside', 'below', 'above']));
    expect(new Set(names).size).toBe(names.length);
    for (const { name, x, y, kind } of labels) {
      const { pinionIn, ringAway } = scales.toPlane({ x, y });
      const column = Math.round((pinionIn + 0.3) * 100);
      const cell = Math.round((ringAway + 0.3) * 100) * 61 + column;
      if (name === 'inside') expect(least[cell] >= limits.min && mean[cell] <= limits.max).toBe(true);
      if (name === 'binds') expect(least[cell]).toBeLessThanOrEqual(0);
      if (kind === 'edge') {
        const [flank, edge] = name.split('-') as ['drive' | 'coast', keyof typeof EDGE_BIT];
        expect(fields[flank].edges[cell] & EDGE_BIT[edge]).toBeGreaterThan(0);
      }
    }
    const boxes = labels.map(({ x, y, text, size }) => ({ x, y, w: text.length * 0.5 * size, h: size }));
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        expect(Math.abs(a.x - b.x) >= (a.w + b.w) / 2 || Math.abs(a.y - b.y) >= (a.h + b.h) / 2).toBe(true);
      }
    });
  });
});

describe('outlines', () => {
  const { axle, fields } = drawnMap('borrin');
  const scales = scalesOf(fields.plane, axle.pinionShim, BOX);
  const regions = regionsOf(fields, axle.limits.backlash);

  it('stay within the plot and are closed; lines leave out the border of the map', () => {
    const path = pathOf(regions.above, scales);
    expect(path).toMatch(/^M.*Z$/);
    for (const [x, y] of [...path.matchAll(/(\d+\.\d) (\d+\.\d)/g)].map(([, a, b]) => [
      Number(a),
      Number(b),
    ])) {
      expect(x).toBeGreaterThanOrEqual(BOX.left);
      expect(x).toBeLessThanOrEqual(BOX.left + BOX.width);
      expect(y).toBeGreaterThanOrEqual(BOX.top);
      expect(y).toBeLessThanOrEqual(BOX.top + BOX.height);
    }
    const corner = `${BOX.left.toFixed(1)} ${BOX.top.toFixed(1)}`;
    expect(path).toContain(corner);
    expect(linePathOf(regions.above, fields, scales)).not.toContain(corner);
  });

  it('mirror where a thicker shim moves the pinion out', () => {
    const cartridge = scalesOf(fields.plane, { ...axle.pinionShim, place: 'cartridge' }, BOX);
    const { left, width } = BOX;
    for (const column of [0, 12, 60]) {
      expect(cartridge.column(column) - left).toBeCloseTo(left + width - scales.column(column), 9);
    }
    expect(cartridge.shim(axle.pinionShim.design + 0.1)).toBeCloseTo(
      scales.shim(axle.pinionShim.design + 0.1),
      9,
    );
  });
});

describe('room for a name', () => {
  const square = (side: number) => (cell: number) => cell % 20 < side && Math.floor(cell / 20) < side;

  it('is in the middle of the region, or nowhere when it does not fit', () => {
    const room = roomForText({ columns: 20, rows: 20, has: square(9) }, 3, 1);
    expect(room).toEqual({ column: 4, row: 4 });
    expect(roomForText({ columns: 20, rows: 20, has: square(4) }, 5, 1)).toBeNull();
    expect(roomForText({ columns: 20, rows: 20, has: () => false }, 1, 1)).toBeNull();
  });
});

describe('ticks', () => {
  it.each(['mm', 'in'] as const)('are round in %s, with as many decimals as they need', (unit) => {
    const { ticks, step } = ticksBetween(1.05, 1.65, unit, 8);
    const perMm = unit === 'mm' ? 1 : 25.4;
    const major = ticks.filter((tick) => tick.major);
    expect(major.length).toBeGreaterThan(4);
    for (const { mm } of major) {
      const value = mm / perMm;
      expect(Math.abs(value / step - Math.round(value / step))).toBeLessThan(1e-6);
      expect(Number(value.toFixed(decimalsOf(step)))).toBeCloseTo(value, 9);
      expect(mm).toBeGreaterThanOrEqual(1.05 - 1e-9);
      expect(mm).toBeLessThanOrEqual(1.65 + 1e-9);
    }
  });
});
