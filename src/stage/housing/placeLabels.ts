/** A box with a leader to it, CSS pixels; the box by its middle and half its size. */
export interface Spot {
  /** the end of the leader at the thing it points to */
  px: number;
  py: number;
  x: number;
  y: number;
  halfWidth: number;
  halfHeight: number;
}

export const createSpot = (): Spot => ({ px: 0, py: 0, x: 0, y: 0, halfWidth: 0, halfHeight: 0 });

/** Lengths a leader may have, and by how much it may turn from its first direction (rad): the nearest that fits is taken. */
const LENGTHS = [16, 30, 48, 70, 96, 126] as const;
const TURNS = [0, 0.45, -0.45, 0.95, -0.95, 1.5, -1.5] as const;
/** CSS pixels between two labels */
const APART = 4;

/**
 * Looks for a place for a label whose thing is at (px, py), leading away in direction (dx, dy), among those `taken`
 * already (the first `count`): inside the picture, no box over another, no leader through a box or across another
 * leader. Writes it to `spot`, whose size is set; false when there is none.
 */
export function placeLabel(
  spot: Spot,
  dx: number,
  dy: number,
  taken: readonly Spot[],
  count: number,
  width: number,
  height: number,
): boolean {
  for (const length of LENGTHS) {
    for (const turn of TURNS) {
      const c = Math.cos(turn);
      const s = Math.sin(turn);
      const ex = dx * c - dy * s;
      const ey = dx * s + dy * c;
      // the box just clears the end of the leader whichever way it points
      const clear = Math.min(
        spot.halfWidth / Math.max(Math.abs(ex), 1e-3),
        spot.halfHeight / Math.max(Math.abs(ey), 1e-3),
      );
      spot.x = spot.px + ex * (length + clear);
      spot.y = spot.py + ey * (length + clear);
      if (fits(spot, taken, count, width, height)) return true;
    }
  }
  return false;
}

function fits(spot: Spot, taken: readonly Spot[], count: number, width: number, height: number): boolean {
  const { x, y, halfWidth, halfHeight } = spot;
  if (x - halfWidth < 1 || x + halfWidth > width - 1) return false;
  if (y - halfHeight < 1 || y + halfHeight > height - 1) return false;
  for (let i = 0; i < count; i++) {
    const other = taken[i];
    if (
      Math.abs(x - other.x) < halfWidth + other.halfWidth + APART &&
      Math.abs(y - other.y) < halfHeight + other.halfHeight + APART
    ) {
      return false;
    }
    if (throughBox(spot, other) || throughBox(other, spot) || leadersCross(spot, other)) return false;
    // a thing that has a label stays in sight
    if (Math.abs(other.px - x) < halfWidth + 2 && Math.abs(other.py - y) < halfHeight + 2) return false;
  }
  return true;
}

/** Does the leader of one pass through the box of the other? */
export function throughBox(leader: Spot, box: Spot): boolean {
  // clip the segment to the box, axis by axis
  let from = 0;
  let to = 1;
  for (let axis = 0; axis < 2; axis++) {
    const p = axis === 0 ? leader.px : leader.py;
    const d = (axis === 0 ? leader.x : leader.y) - p;
    const middle = axis === 0 ? box.x : box.y;
    const half = (axis === 0 ? box.halfWidth : box.halfHeight) + 1;
    if (Math.abs(d) < 1e-9) {
      if (Math.abs(p - middle) > half) return false;
      continue;
    }
    const a = (middle - half - p) / d;
    const b = (middle + half - p) / d;
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  return from <= to;
}

const side = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

export function leadersCross(a: Spot, b: Spot): boolean {
  return (
    side(a.px, a.py, a.x, a.y, b.px, b.py) * side(a.px, a.py, a.x, a.y, b.x, b.y) < 0 &&
    side(b.px, b.py, b.x, b.y, a.px, a.py) * side(b.px, b.py, b.x, b.y, a.x, a.y) < 0
  );
}
