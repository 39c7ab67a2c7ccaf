import type { BorderKind, BorderRing } from './patchOutline.ts';

/** Pieces that one stretch between two grid crossings is drawn in. */
const PIECES = 3;

/**
 * The same borders with points added along stretches of equal separation, on the centripetal cubic through their
 * neighbours: on a large screen the chords between grid crossings would show as corners. Points on the grid
 * lines stay where they are; borders along flank edges and the tip's reach stay as they are.
 */
export function smoothBorders(rings: readonly BorderRing[]): BorderRing[] {
  return rings.map(smoothRing);
}

function smoothRing(ring: BorderRing): BorderRing {
  const count = ring.kind.length;
  const u: number[] = [];
  const v: number[] = [];
  const tip: number[] = [];
  const kind: BorderKind[] = [];
  for (let i = 0; i < count; i++) {
    u.push(ring.u[i]);
    v.push(ring.v[i]);
    tip.push(ring.tip[i]);
    kind.push(ring.kind[i]);
    if (ring.kind[i] !== 'level') continue;
    const j = (i + 1) % count;
    const before = (i + count - 1) % count;
    const after = (j + 1) % count;
    // a neighbour round a corner of the region says nothing about this curve: continue straight instead
    const previous = ring.kind[before] === 'level' ? before : -1;
    const following = ring.kind[j] === 'level' ? after : -1;
    const curve = hermite(ring, previous, i, j, following);
    for (let piece = 1; piece < PIECES; piece++) {
      const s = piece / PIECES;
      const [x, y] = curve(s);
      u.push(x);
      v.push(y);
      tip.push(ring.tip[i] + s * (ring.tip[j] - ring.tip[i]));
      kind.push('level');
    }
  }
  return { u: Float64Array.from(u), v: Float64Array.from(v), tip: Float64Array.from(tip), kind };
}

/** Centripetal cubic from point i to point j; `previous` or `following` −1 when there is none. */
function hermite(
  ring: BorderRing,
  previous: number,
  i: number,
  j: number,
  following: number,
): (s: number) => readonly [number, number] {
  const knot = (a: number, b: number): number =>
    Math.sqrt(Math.hypot(ring.u[b] - ring.u[a], ring.v[b] - ring.v[a]));
  const step = knot(i, j);
  const tangent = (axis: Float64Array, a: number, b: number, stepA: number, atStart: boolean): number => {
    // derivative of the parabola through the three points at the shared one, per unit of this stretch's parameter
    const here = (axis[j] - axis[i]) / step;
    const there = (axis[b] - axis[a]) / stepA;
    const whole = atStart ? (axis[j] - axis[a]) / (stepA + step) : (axis[b] - axis[i]) / (stepA + step);
    return step * (here + there - whole);
  };
  const ends = (axis: Float64Array): readonly [number, number] => {
    const chord = axis[j] - axis[i];
    const before = previous === -1 ? 0 : knot(previous, i);
    const after = following === -1 ? 0 : knot(j, following);
    return [
      before === 0 || step === 0 ? chord : tangent(axis, previous, i, before, true),
      after === 0 || step === 0 ? chord : tangent(axis, j, following, after, false),
    ];
  };
  const [u0, u1] = ends(ring.u);
  const [v0, v1] = ends(ring.v);
  const along = (a: number, b: number, ta: number, tb: number, s: number): number => {
    const r = 1 - s;
    return r * r * (1 + 2 * s) * a + s * s * (3 - 2 * s) * b + s * r * (r * ta - s * tb);
  };
  return (s) => [along(ring.u[i], ring.u[j], u0, u1, s), along(ring.v[i], ring.v[j], v0, v1, s)];
}
