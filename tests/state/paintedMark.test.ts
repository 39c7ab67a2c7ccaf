import { describe, expect, it } from 'vitest';
import {
  blankMark,
  fillOutline,
  isBlank,
  ovalMark,
  sameMark,
  shapeOf,
  stroke,
} from '../../src/state/paintedMark.ts';
import { seededRandom } from '../support/random.ts';

const share = (mark: { data: Uint8Array }) => mark.data.reduce((sum, one) => sum + one, 0) / mark.data.length;
const BRUSH = { along: 0.1, across: 0.3 };

describe('a painted mark', () => {
  it('takes a dab of the brush with the brush’s own area', () => {
    const dab = stroke(blankMark(400, 200), [0.1, -0.2], [0.1, -0.2], BRUSH, 1);
    // area of the ellipse over the area of the flank square
    expect(share(dab)).toBeCloseTo((Math.PI * 0.1 * 0.3) / 4, 3);
    const shape = shapeOf(dab);
    expect(shape?.toeHeel).toBeCloseTo(0.1, 2);
    expect(shape?.rootFace).toBeCloseTo(-0.2, 2);
  });

  it('takes a stroke as wide as the brush and as long as the way', () => {
    const line = stroke(blankMark(400, 200), [-0.5, 0], [0.5, 0], BRUSH, 1);
    expect(share(line)).toBeCloseTo((1 * 0.6 + Math.PI * 0.1 * 0.3) / 4, 3);
    expect(shapeOf(line)?.length).toBeCloseTo(0.6, 2);
    expect(shapeOf(line)?.height).toBeCloseTo(0.3, 2);
  });

  it('is wiped clean by the same strokes, and never changed in place (seed 4107)', () => {
    const random = seededRandom(4107);
    const points = Array.from(
      { length: 30 },
      () => [random.between(-1.2, 1.2), random.between(-1.2, 1.2)] as const,
    );
    const blank = blankMark();
    let mark = blank;
    for (let k = 1; k < points.length; k++) {
      const before = mark.data.slice();
      const after = stroke(mark, points[k - 1], points[k], BRUSH, 1);
      expect(mark.data).toEqual(before);
      mark = after;
    }
    expect(isBlank(mark)).toBe(false);
    for (let k = 1; k < points.length; k++) mark = stroke(mark, points[k - 1], points[k], BRUSH, 0);
    expect(isBlank(mark)).toBe(true);
    expect(sameMark(mark, blank)).toBe(true);
  });

  it('fills an outline, also one that leaves the flank and comes back', () => {
    const square = fillOutline(
      blankMark(400, 200),
      [
        [-0.5, -0.5],
        [0.5, -0.5],
        [0.5, 0.5],
        [-0.5, 0.5],
      ],
      1,
    );
    expect(share(square)).toBeCloseTo(0.25, 3);
    const beyond = fillOutline(
      blankMark(400, 200),
      [
        [0, -3],
        [3, -3],
        [3, 3],
        [0, 3],
      ],
      1,
    );
    expect(share(beyond)).toBeCloseTo(0.5, 3);
    expect(
      fillOutline(
        blankMark(),
        [
          [0, 0],
          [1, 1],
        ],
        1,
      ),
    ).toEqual(blankMark());
  });

  it('made from a shape has that shape, whichever way it leans (seed 4108)', () => {
    const random = seededRandom(4108);
    for (let k = 0; k < 60; k++) {
      const asked = {
        toeHeel: random.between(-0.2, 0.2),
        rootFace: random.between(-0.15, 0.15),
        length: random.between(0.2, 0.7),
        height: random.between(0.3, 0.7),
        tilt: random.between(-0.8, 0.8),
      };
      const found = shapeOf(ovalMark(asked, 480, 240));
      for (const [name, value] of Object.entries(asked)) {
        expect(Math.abs((found as typeof asked)[name as keyof typeof asked] - value), name).toBeLessThan(
          0.02,
        );
      }
    }
  });

  it('has no shape when nothing is painted', () => {
    expect(shapeOf(blankMark())).toBeNull();
  });
});
