/**
 * Indices of the points of a polyline that are kept when every point left out lies within `tolerance` of the chord that
 * replaces it (Ramer–Douglas–Peucker). `x`, `y` of equal length and `tolerance` in one unit. The ends are always kept.
 */
export function keptPoints(x: ArrayLike<number>, y: ArrayLike<number>, tolerance: number): number[] {
  const last = x.length - 1;
  if (last < 2) return Array.from(x, (_, i) => i);
  const keep = new Uint8Array(x.length);
  keep[0] = 1;
  keep[last] = 1;
  const spans = [0, last];
  while (spans.length > 0) {
    const to = spans.pop() as number;
    const from = spans.pop() as number;
    const dx = x[to] - x[from];
    const dy = y[to] - y[from];
    const length2 = dx * dx + dy * dy;
    let farthest = -1;
    let most = tolerance * tolerance;
    for (let i = from + 1; i < to; i++) {
      const px = x[i] - x[from];
      const py = y[i] - y[from];
      const s = length2 > 0 ? Math.min(Math.max((px * dx + py * dy) / length2, 0), 1) : 0;
      const ex = px - s * dx;
      const ey = py - s * dy;
      const distance2 = ex * ex + ey * ey;
      if (distance2 > most) {
        most = distance2;
        farthest = i;
      }
    }
    if (farthest < 0) continue;
    keep[farthest] = 1;
    spans.push(from, farthest, farthest, to);
  }
  return Array.from(keep, (_, i) => i).filter((i) => keep[i] === 1);
}
