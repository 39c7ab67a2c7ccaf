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
  const total = count + (PIECES - 1) * ring.kind.filter((kind) => kind === 'level').length;
  const u = new Float64Array(total);
  const v = new Float64Array(total);
  const tip = new Float64Array(total);
  const kind: BorderKind[] = [];
  const steps = knotSteps(ring);
  for (let i = 0, at = 0; i < count; i++) {
    const j = (i + 1) % count;
    const pieces = ring.kind[i] === 'level' ? PIECES : 1;
    // a neighbour round a corner of the region says nothing about this curve: continue straight instead
    const before = (i + count - 1) % count;
    const hasBefore = ring.kind[before] === 'level';
    const hasAfter = ring.kind[j] === 'level';
    const after = (j + 1) % count;
    for (let piece = 0; piece < pieces; piece++, at++) {
      const s = piece / PIECES;
      u[at] = onCubic(ring.u, steps, before, i, j, after, hasBefore, hasAfter, s);
      v[at] = onCubic(ring.v, steps, before, i, j, after, hasBefore, hasAfter, s);
      tip[at] = ring.tip[i] + s * (ring.tip[j] - ring.tip[i]);
      kind.push(ring.kind[i]);
    }
  }
  return { u, v, tip, kind };
}

/** Centripetal parameter steps: square root of the length of each stretch, in flank coordinates. */
function knotSteps({ u, v }: BorderRing): Float64Array {
  const count = u.length;
  const steps = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const du = u[j] - u[i];
    const dv = v[j] - v[i];
    steps[i] = Math.sqrt(Math.sqrt(du * du + dv * dv));
  }
  return steps;
}

/** One coordinate at s (0…1) of the cubic from point i to point j, with the parabolas' tangents at its ends. */
function onCubic(
  axis: Float64Array,
  steps: Float64Array,
  before: number,
  i: number,
  j: number,
  after: number,
  hasBefore: boolean,
  hasAfter: boolean,
  s: number,
): number {
  if (s === 0) return axis[i];
  const chord = axis[j] - axis[i];
  const step = steps[i];
  let start = chord;
  let end = chord;
  if (hasBefore && steps[before] > 0 && step > 0) {
    const back = (axis[i] - axis[before]) / steps[before];
    start = chord + step * (back - (axis[j] - axis[before]) / (steps[before] + step));
  }
  if (hasAfter && steps[j] > 0 && step > 0) {
    const on = (axis[after] - axis[j]) / steps[j];
    end = chord + step * (on - (axis[after] - axis[i]) / (step + steps[j]));
  }
  const r = 1 - s;
  return r * r * (1 + 2 * s) * axis[i] + s * s * (3 - 2 * s) * axis[j] + s * r * (r * start - s * end);
}
