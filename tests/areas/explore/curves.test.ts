import { describe, expect, it } from 'vitest';
import { MeshCore } from '../../../sim/worker/core.ts';
import type { FlankOutline, FlankResult } from '../../../sim/worker/protocol.ts';
import { lengthsIn } from '../../../src/app/ui/useLengths.ts';
import { numberRows, rowsAsCsv, rowsAsText } from '../../../src/areas/explore/curves/numberRows.ts';
import { pairsOf } from '../../../src/areas/explore/curves/pairRows.ts';
import { flankNumbers } from '../../../src/areas/explore/curves/patchNumbers.ts';
import {
  aboutMean,
  curvePath,
  decimalsOf,
  dialScales,
  scaled,
  spanOf,
} from '../../../src/areas/explore/curves/phaseCurves.ts';
import { curves } from '../../../src/text/en/curves.ts';
import { addTexts, createTranslate } from '../../../src/text/translate.ts';
import { SHIPPED_SETS } from '../../support/namedSets.ts';
import { seededRandom } from '../../support/random.ts';

addTexts(curves);
const t = createTranslate('en');
const SEED = 20261125;

describe.each(SHIPPED_SETS)(`curves of $label (seed ${SEED})`, ({ definition, film }) => {
  const core = new MeshCore();
  const loaded = core.load('set', definition);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const random = seededRandom(SEED);
  const results = Array.from({ length: 5 }, () => {
    const pose = {
      pinionIn: random.between(-0.2, 0.2),
      // some of these bind: the curve then goes through zero
      ringAway: random.between(-0.25, 0.2),
      offsetError: random.between(-0.1, 0.1),
      shaftAngleError: random.between(-0.05, 0.05),
    };
    const solved = core.solve('set', pose, film);
    if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
    return solved.value;
  });

  it('show the dial readings of the panel, least and mean, both ways of holding it', () => {
    for (const result of results) {
      const { square, tangential } = dialScales(result);
      const normal = spanOf(scaled(result.freePlayCurve, square));
      const turning = spanOf(scaled(result.freePlayCurve, tangential));
      const { backlash } = result;
      expect(normal.least).toBeCloseTo(backlash.normal ?? Number.NaN, 6);
      expect(normal.mean).toBeCloseTo(backlash.normalMean ?? Number.NaN, 6);
      expect(normal.most - normal.least).toBeCloseTo(backlash.normalRange ?? Number.NaN, 6);
      expect(turning.least).toBeCloseTo(backlash.tangential ?? Number.NaN, 6);
      expect(turning.mean).toBeCloseTo(backlash.tangentialMean ?? Number.NaN, 6);
      expect(tangential).toBeGreaterThan(square);
    }
  });

  it('show the transmission error of the report, at the ring and at the pinion', () => {
    for (const result of results) {
      for (const flank of ['drive', 'coast'] as const) {
        const ring = spanOf(aboutMean(result[flank].transmissionErrorCurve, 1e6));
        expect(ring.most - ring.least).toBeCloseTo(result[flank].transmissionError ?? Number.NaN, 2);
        expect(ring.mean).toBeCloseTo(0, 6);
        const pinion = spanOf(aboutMean(result[flank].transmissionErrorCurve, 1e6 * loaded.value.gearRatio));
        expect((pinion.most - pinion.least) / (ring.most - ring.least)).toBeCloseTo(
          definition.ringTeeth / definition.pinionTeeth,
          6,
        );
      }
    }
  });

  it('show one pair carrying at a time, within the film, and as much contact as the contact ratio', () => {
    for (const result of results) {
      for (const flank of ['drive', 'coast'] as const) {
        const { rows } = pairsOf(result, flank, definition.ringTeeth);
        const length = (part: 'meets' | 'marks' | 'carries') =>
          rows.flatMap((row) => row[part]).reduce((sum, { from, to }) => sum + to - from, 0);
        expect(length('meets')).toBeCloseTo(result[flank].contactRatio, 4);
        expect(length('carries')).toBeCloseTo(1 - result[flank].gapShare, 9);
        expect(length('marks')).toBeGreaterThan(length('carries'));
        for (const { carries, marks } of rows) {
          for (const { from, to } of carries) {
            expect(marks.some((mark) => mark.from <= from && mark.to >= to)).toBe(true);
          }
        }
      }
    }
  });

  it('come with their numbers as a table that spreadsheets read', () => {
    for (const unit of ['mm', 'in'] as const) {
      const rows = numberRows(results[0], loaded.value, lengthsIn(unit, t), t);
      const csv = rowsAsCsv(rows, ['Quantity', 'Unit', 'Drive flank', 'Coast flank']).split('\r\n');
      expect(csv).toHaveLength(rows.length + 1);
      for (const line of csv.slice(1)) {
        const cells = [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^",]*))/g)].map(
          ([, quoted, plain]) => quoted ?? plain,
        );
        expect(cells.length === 4 || cells.length === 3, line).toBe(true);
        // numbers a program reads: a point, a plain minus; names of edges where they are meant
        for (const cell of cells.slice(2)) expect(cell).toMatch(/^(-?\d+(\.\d+)?|[a-z ]*)$/);
      }
      const text = rowsAsText(rows, ['Quantity', 'Drive flank', 'Coast flank']);
      expect(text).not.toMatch(/undefined|NaN|null/);
      const square = rows.find(({ name }) => name === 'Backlash square to the flank, least');
      const mm = results[0].backlash.normal ?? Number.NaN;
      expect(Number(square?.csv[0])).toBeCloseTo(unit === 'mm' ? mm : mm / 25.4, 5);
    }
  });
});

describe('numbers of a mark', () => {
  const outlineOf = (taper: number): FlankOutline => ({
    faceWidth: 40,
    face: { d0: 2, slope: taper },
    workingRoot: { d0: -7, slope: -taper },
    root: { d0: -8, slope: -taper },
    heelOnRight: { drive: true, coast: false },
  });
  const grid = { columns: 121, rows: 61 };
  const film = 0.01;

  /** An ellipse of half axes 9 and 2 mm, its long one turned, in the middle of the developed flank. */
  function ellipse(turnDegrees: number, taper: number): FlankResult {
    const separation = new Float32Array(grid.columns * grid.rows);
    const tipClearance = new Float32Array(separation.length).fill(1);
    const turn = (turnDegrees * Math.PI) / 180;
    let marked = 0;
    for (let j = 0; j < grid.rows; j += 1) {
      for (let i = 0; i < grid.columns; i += 1) {
        const l = (-1 + (2 * i) / (grid.columns - 1)) * 20;
        const bottom = -7 - taper * l;
        const d = bottom + ((2 + taper * l - bottom) * j) / (grid.rows - 1) + 2.5;
        const a = (l * Math.cos(turn) + d * Math.sin(turn)) / 9;
        const b = (d * Math.cos(turn) - l * Math.sin(turn)) / 2;
        separation[j * grid.columns + i] = film * (a * a + b * b);
        if (a * a + b * b <= 1) marked += 1;
      }
    }
    const area = marked / ((grid.columns - 1) * (grid.rows - 1));
    return {
      ...({ length: 0.45, height: 0.4, edges: [], transmissionError: 1 } as unknown as FlankResult),
      toeHeel: 0,
      rootFace: 0,
      area,
      separation,
      tipClearance,
    };
  }

  it.each([-20, -8, 0, 12])(
    'tells the slant of an ellipse turned %i°, its area and its nearest point',
    (turned) => {
      const numbers = flankNumbers(ellipse(turned, 0), grid, film, outlineOf(0));
      // the straight line that follows an evenly filled ellipse best lies a little flatter than its long axis
      const [s, c] = [Math.sin((turned * Math.PI) / 180), Math.cos((turned * Math.PI) / 180)];
      const slope = ((81 - 4) * s * c) / (81 * c * c + 4 * s * s);
      expect(numbers.tilt).toBeCloseTo((Math.atan(slope) * 180) / Math.PI, 0);
      expect(numbers.areaMm2).toBeGreaterThan(0.97 * Math.PI * 18);
      expect(numbers.areaMm2).toBeLessThan(1.03 * Math.PI * 18);
      expect(Math.abs(numbers.nearest?.u ?? 1)).toBeLessThan(0.03);
      expect(numbers.nearest?.separation).toBeLessThan(film / 50);
      expect(numbers.lengthMm).toBeCloseTo(18, 9);
    },
  );

  it('measures area and height on a tapered tooth where the mark lies', () => {
    const numbers = flankNumbers(ellipse(5, 0.06), grid, film, outlineOf(0.06));
    expect(numbers.areaMm2).toBeGreaterThan(0.97 * Math.PI * 18);
    expect(numbers.areaMm2).toBeLessThan(1.03 * Math.PI * 18);
    expect(numbers.heightMm).toBeCloseTo(0.4 * 9, 9);
  });

  it('has none without a mark', () => {
    const none = { ...ellipse(0, 0), toeHeel: null, rootFace: null };
    expect(flankNumbers(none, grid, 1e-9, outlineOf(0))).toMatchObject({ tilt: null, areaMm2: null });
  });
});

it('a curve is broken where there is no contact, and closed over the pitch', () => {
  const path = curvePath(
    [1, 2, Number.NaN, 4],
    (pitches) => pitches * 4,
    (value) => value,
  );
  expect(path).toBe('M0.0 1.0L1.0 2.0M3.0 4.0L4.0 1.0');
  expect(spanOf([Number.NaN])).toEqual({ least: Number.NaN, most: Number.NaN, mean: Number.NaN });
});

it('ticks have as many decimals as their step needs', () => {
  expect([20, 1, 0.5, 0.05, 0.0025, 0.002].map((step) => decimalsOf(step))).toEqual([0, 0, 1, 2, 4, 3]);
});
