import type { MarkCentre } from '../state/traces.ts';

/** A trail as paths in px of the drawing. */
export interface TrailPaths {
  readonly line: string;
  /** dots by age, oldest third first */
  readonly dots: readonly [string, string, string];
}

/** px: dots nearer than this would run together */
const APART = 5;

const px = (value: number): string => value.toFixed(1);

/** The way of a mark's middle, its end where the mark is now; holes where there was no mark. */
export function trailPaths(
  centres: readonly MarkCentre[],
  place: (u: number, v: number) => readonly [x: number, y: number],
): TrailPaths {
  const points: { readonly x: number; readonly y: number; readonly joined: boolean }[] = [];
  let joined = false;
  centres.forEach((centre, index) => {
    if (centre === null) {
      joined = false;
      return;
    }
    const [x, y] = place(centre.toeHeel, centre.rootFace);
    const last = points.at(-1);
    const near = joined && last !== undefined && Math.hypot(x - last.x, y - last.y) < APART;
    // the newest one counts, however near
    if (near && index < centres.length - 1) return;
    points.push({ x, y, joined });
    joined = true;
  });
  const line = points.map((point) => `${point.joined ? 'L' : 'M'}${px(point.x)} ${px(point.y)}`).join('');
  const dots: [string, string, string] = ['', '', ''];
  points.slice(0, -1).forEach((point, index) => {
    // a stretch without length is drawn as a dot by its round caps
    dots[Math.floor((3 * index) / (points.length - 1))] += `M${px(point.x)} ${px(point.y)}h0`;
  });
  return { line, dots };
}
