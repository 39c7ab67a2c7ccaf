import { DIFFERENCE } from './climb.ts';
import type { Evidence } from './evidence.ts';
import { DIAL_FEATURE } from './forwardModel.ts';
import { FILM_AT, SHAPE_COUNT } from './unknowns.ts';

/**
 * Slopes of the residuals per prior standard deviation of every unknown of `following` (ascending), data × following,
 * into `out`. `here` holds the residuals at `x`. A flank's ease-off changes its own mark alone, so those of both flanks
 * are changed at once; of what moves the dial each gets half, which only says how to walk, not where to end.
 */
export const followSlopes = (
  evidence: Evidence,
  following: readonly number[],
  spread: Float64Array,
  x: Float64Array,
  here: Float64Array,
  out: Float64Array,
): void => {
  const { data, layout } = evidence;
  const n = following.length;
  const moved = x.slice();
  const there = new Float64Array(data.length);
  const slope = (k: number): number => (there[k] - here[k]) / DIFFERENCE;
  out.fill(0);
  for (let look = 0; look < layout.films - 1; look++) {
    const i = FILM_AT + look;
    const column = following.indexOf(i);
    evidence.predict(x);
    moved[i] += DIFFERENCE * spread[i];
    evidence.predict(moved, look);
    evidence.residuals(there);
    moved[i] = x[i];
    for (let k = 0; k < data.length; k++) if (data[k].sighting === look) out[k * n + column] = slope(k);
  }
  if (layout.thickness < 0) return;
  const thickness = following.indexOf(layout.thickness);
  const drive = following.indexOf(layout.drive);
  const coast = following.indexOf(layout.coast);
  data.forEach(({ feature, sd }, k) => {
    // the dial reads thickness one to one
    if (feature === DIAL_FEATURE) out[k * n + thickness] = spread[layout.thickness] / sd;
  });
  for (let shape = 0; shape < SHAPE_COUNT; shape++) {
    const both = [layout.drive + shape, layout.coast + shape];
    for (const i of both) moved[i] += DIFFERENCE * spread[i];
    evidence.predict(moved);
    evidence.residuals(there);
    for (const i of both) moved[i] = x[i];
    data.forEach(({ reading }, k) => {
      if (reading !== 'coast') out[k * n + drive + shape] = slope(k) * (reading === 'drive' ? 1 : 0.5);
      if (reading !== 'drive') out[k * n + coast + shape] = slope(k) * (reading === 'coast' ? 1 : 0.5);
    });
  }
};
