import type { BorderRing } from '../../src/flank/patchOutline.ts';

export interface Measures {
  /** share of the (u, v) square */
  readonly area: number;
  readonly toeHeel: number;
  readonly rootFace: number;
  /** extent / 2 */
  readonly length: number;
  readonly height: number;
}

/** Area, centroid and extents of closed borders by the polygon formulas; holes (clockwise) count off. */
export function measureRings(rings: readonly Pick<BorderRing, 'u' | 'v'>[]): Measures {
  let twiceArea = 0;
  let momentU = 0;
  let momentV = 0;
  let [uLow, uHigh, vLow, vHigh] = [2, -2, 2, -2];
  for (const { u, v } of rings) {
    for (let i = 0; i < u.length; i++) {
      const j = (i + 1) % u.length;
      const cross = u[i] * v[j] - u[j] * v[i];
      twiceArea += cross;
      momentU += cross * (u[i] + u[j]);
      momentV += cross * (v[i] + v[j]);
      uLow = Math.min(uLow, u[i]);
      uHigh = Math.max(uHigh, u[i]);
      vLow = Math.min(vLow, v[i]);
      vHigh = Math.max(vHigh, v[i]);
    }
  }
  return {
    area: twiceArea / 8,
    toeHeel: momentU / (3 * twiceArea),
    rootFace: momentV / (3 * twiceArea),
    length: (uHigh - uLow) / 2,
    height: (vHigh - vLow) / 2,
  };
}

/** The points of an SVG path of M, L and Z with absolute coordinates, one list per closed or open part. */
export function pathPoints(
  path: string,
): { readonly x: number[]; readonly y: number[]; readonly closed: boolean }[] {
  return [...path.matchAll(/M([^MZ]*)(Z?)/g)].map(([, body, end]) => {
    const numbers = body.split(/[L\s]/).map(Number);
    return {
      x: numbers.filter((_, i) => i % 2 === 0),
      y: numbers.filter((_, i) => i % 2 === 1),
      closed: end === 'Z',
    };
  });
}
