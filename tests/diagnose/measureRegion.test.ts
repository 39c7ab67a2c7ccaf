import { describe, expect, it } from 'vitest';
import { markCorrelation } from '../../sim/diagnose/markCorrelation.ts';
import { measureMask, measureOutline } from '../../sim/diagnose/measureRegion.ts';

const ellipse = (u: number, v: number, a: number, b: number, slant: number): [number, number][] =>
  Array.from({ length: 240 }, (_, k) => {
    const t = (2 * Math.PI * k) / 240;
    return [u + a * Math.cos(t), v + b * (slant * Math.cos(t) + Math.sqrt(1 - slant * slant) * Math.sin(t))];
  });

describe('measures of a painted region', () => {
  it('are those of the closed form: an oval with a slant, either way round', () => {
    const outline = ellipse(-0.1, 0.2, 0.5, 0.4, 0.3);
    for (const way of [outline, [...outline].reverse()]) {
      const found = measureOutline(way);
      expect(found?.toeHeel).toBeCloseTo(-0.1, 3);
      expect(found?.rootFace).toBeCloseTo(0.2, 3);
      expect(found?.length).toBeCloseTo(0.5, 3);
      expect(found?.height).toBeCloseTo(0.4, 3);
      expect(found?.tilt).toBeCloseTo(0.3, 3);
      expect(found?.area).toBeCloseTo(Math.PI * 0.5 * 0.4 * Math.sqrt(1 - 0.09), 2);
    }
  });

  it('stop at the borders of the flank', () => {
    const found = measureOutline([
      [0, -0.5],
      [1.4, -0.5],
      [1.4, 0.5],
      [0, 0.5],
    ]);
    expect(found).toMatchObject({ length: 0.5, right: 1 });
    expect(found?.toeHeel).toBeCloseTo(0.5, 9);
    expect(found?.area).toBeCloseTo(1, 9);
    expect(
      measureOutline([
        [1.1, 0],
        [1.4, 0],
        [1.4, 1],
      ]),
    ).toBeNull();
  });

  it('are the same from a raster, and the forward model measures slant alike', () => {
    const [columns, rows] = [81, 61];
    const inside = (u: number, v: number): number => {
      const x = (u + 0.1) / 0.5;
      const y = (v - 0.2) / 0.4;
      return (x * x - 2 * 0.3 * x * y + y * y) / (1 - 0.09);
    };
    const cells: number[] = [];
    const separation = new Float64Array(columns * rows);
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < columns; i++) {
        cells.push(inside(-1 + (2 * i + 1) / columns, -1 + (2 * j + 1) / rows) <= 1 ? 1 : 0);
        const node = inside(-1 + (2 * i) / (columns - 1), -1 + (2 * j) / (rows - 1));
        separation[j * columns + i] = 0.01 * node;
      }
    }
    const found = measureMask({ kind: 'mask', columns, rows, data: cells });
    expect(found?.toeHeel).toBeCloseTo(-0.1, 2);
    expect(found?.rootFace).toBeCloseTo(0.2, 2);
    expect(found?.length).toBeCloseTo(0.5, 1);
    expect(found?.tilt).toBeCloseTo(0.3, 2);
    const clear = new Float64Array(columns * rows).fill(1);
    expect(markCorrelation(separation, clear, columns, rows, 0.01)).toBeCloseTo(0.3, 2);
    expect(measureMask({ kind: 'mask', columns: 4, rows: 4, data: new Array(16).fill(0) })).toBeNull();
  });
});
