import { describe, expect, it } from 'vitest';
import { CORNERS, midPoints, straighten, type ToothPoints } from '../../src/areas/match/photo/straighten.ts';
import { seededRandom } from '../support/random.ts';

type Point = { x: number; y: number };

/** A camera that looks at a flat face askew: the truth the straightening has to find from four corners. */
const lookAskew = (seed: number) => {
  const random = seededRandom(seed);
  const [g, h] = [random.between(-0.25, 0.25), random.between(-0.2, 0.2)];
  const m = Array.from({ length: 4 }, () => random.between(-60, 60));
  return (u: number, v: number): Point => {
    const w = 1 + g * u + h * v;
    return { x: (500 + 300 * u + m[0] * v) / w, y: (400 + m[1] * u - (120 + m[2] / 4) * v) / w };
  };
};

const cornersOf = (look: (u: number, v: number) => Point) => ({
  toeRoot: look(-1, -1),
  toeFace: look(-1, 1),
  heelFace: look(1, 1),
  heelRoot: look(1, -1),
});

describe('a tooth straightened out of a photo', () => {
  it('of a flat face seen askew lands on every point of it (seeds 1…20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const look = lookAskew(seed);
      const corners = cornersOf(look);
      const middles = midPoints(corners);
      expect(middles).not.toBeNull();
      const map = straighten({ ...corners, ...middles } as ToothPoints);
      expect(map).not.toBeNull();
      const random = seededRandom(100 + seed);
      for (let k = 0; k < 20; k += 1) {
        const [u, v] = [random.between(-1, 1), random.between(-1, 1)];
        const found = (map as NonNullable<typeof map>)(u, v);
        const truth = look(u, v);
        expect(Math.hypot(found.x - truth.x, found.y - truth.y)).toBeLessThan(1e-6);
      }
    }
  });

  it('follows a bend: both edge points lie on their edges, the ends stay', () => {
    const look = lookAskew(7);
    const corners = cornersOf(look);
    const middles = midPoints(corners) as Readonly<Record<'midFace' | 'midRoot', Point>>;
    const bent = {
      ...corners,
      midFace: { x: middles.midFace.x + 4, y: middles.midFace.y + 30 },
      midRoot: { x: middles.midRoot.x - 3, y: middles.midRoot.y + 22 },
    };
    const map = straighten(bent) as NonNullable<ReturnType<typeof straighten>>;
    expect(map(0, 1)).toEqual(expect.objectContaining({ x: expect.closeTo(bent.midFace.x, 9) }));
    expect(map(0, 1).y).toBeCloseTo(bent.midFace.y, 9);
    expect(map(0, -1).y).toBeCloseTo(bent.midRoot.y, 9);
    for (const name of CORNERS) {
      const [u, v] = [name.startsWith('toe') ? -1 : 1, name.endsWith('Root') ? -1 : 1];
      expect(map(u, v).x).toBeCloseTo(corners[name].x, 6);
      expect(map(u, v).y).toBeCloseTo(corners[name].y, 6);
    }
  });

  it('is refused when the corners cross or lie in a line', () => {
    const square = {
      toeRoot: { x: 0, y: 10 },
      toeFace: { x: 0, y: 0 },
      heelFace: { x: 10, y: 0 },
      heelRoot: { x: 10, y: 10 },
    };
    expect(midPoints(square)).not.toBeNull();
    expect(midPoints({ ...square, toeFace: square.heelFace, heelFace: square.toeFace })).toBeNull();
    expect(
      midPoints({ ...square, toeFace: { x: 5, y: 5 }, heelFace: { x: 10, y: 0 }, toeRoot: { x: 0, y: 10 } }),
    ).toBeNull();
  });
});
