import { DISPLAY_GRID, NOT_MEETING } from '../../sim/contact/grid.ts';
import type { FlankSolution, MeshSolution } from '../../sim/contact/meshSolver.ts';
import { EDGE_BIT } from '../../sim/contact/patch.ts';
import { EDGES } from '../../sim/contact/report.ts';
import type { Observation, SeenMark } from '../../sim/diagnose/observation.ts';
import type { Random } from './random.ts';

/** How a mark is put into the program. */
export const FORMS = ['descriptors', 'outline', 'mask'] as const;
export type Form = (typeof FORMS)[number];

export const PATCH_SD = 0.05;
export const DIAL_SD = 0.01;
/** Uneven ends of a painted region, flank coordinates. */
const RAGGED_SD = 0.02;
const MASK = { columns: 48, rows: 32 } as const;
/** Columns at which an outline is followed. */
const OUTLINE_COLUMNS = 120;

export const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random.between(0, 1))) * Math.cos(2 * Math.PI * random.between(0, 1));

const clamp = (x: number, low: number, high: number): number => Math.min(high, Math.max(low, x));

/** Is the place marked? Bilinear on the display grid. */
const isMarked = (flank: FlankSolution, film: number, u: number, v: number): boolean => {
  if (!(Math.abs(u) <= 1 && Math.abs(v) <= 1)) return false;
  const { columns, rows } = DISPLAY_GRID;
  const x = ((u + 1) / 2) * (columns - 1);
  const y = ((v + 1) / 2) * (rows - 1);
  const i = Math.min(columns - 2, Math.floor(x));
  const j = Math.min(rows - 2, Math.floor(y));
  const blend = (values: Float64Array): number => {
    const at = j * columns + i;
    const low = values[at] + (x - i) * (values[at + 1] - values[at]);
    const high = values[at + columns] + (x - i) * (values[at + columns + 1] - values[at + columns]);
    return low + (y - j) * (high - low);
  };
  const separation = blend(flank.separation);
  return separation < NOT_MEETING / 4 && separation <= film && blend(flank.tipClearance) >= 0;
};

/** How a painter's region differs from the true one: shifted and grown, about the true middle. */
const painter = (flank: FlankSolution, film: number, random: Random) => {
  const { patch } = flank;
  const shift = { u: PATCH_SD * normal(random), v: PATCH_SD * normal(random) };
  const grow = {
    u: Math.max(0.3, 1 + (PATCH_SD * normal(random)) / patch.length),
    v: Math.max(0.3, 1 + (PATCH_SD * normal(random)) / patch.height),
  };
  return (u: number, v: number): boolean =>
    isMarked(
      flank,
      film,
      clamp(patch.toeHeel + (u - patch.toeHeel - shift.u) / grow.u, -1, 1),
      clamp(patch.rootFace + (v - patch.rootFace - shift.v) / grow.v, -1, 1),
    );
};

const describeMark = ({ patch }: FlankSolution, sd: number, random: Random): SeenMark => ({
  kind: 'descriptors',
  toeHeel: clamp(patch.toeHeel + sd * normal(random), -1.05, 1.05),
  rootFace: clamp(patch.rootFace + sd * normal(random), -1.05, 1.05),
  length: clamp(patch.length + sd * normal(random), 0.02, 1.05),
  height: clamp(patch.height + sd * normal(random), 0.02, 1.05),
});

const outlineMark = (flank: FlankSolution, film: number, random: Random): SeenMark | null => {
  const painted = painter(flank, film, random);
  const low: [number, number][] = [];
  const high: [number, number][] = [];
  for (let i = 0; i <= OUTLINE_COLUMNS; i++) {
    const u = -1 + (2 * i) / OUTLINE_COLUMNS;
    let bottom = Number.NaN;
    let top = Number.NaN;
    for (let k = 0; k <= 200; k++) {
      const v = -1 + k / 100;
      if (!painted(u, v)) continue;
      if (Number.isNaN(bottom)) bottom = v;
      top = v;
    }
    if (Number.isNaN(bottom)) continue;
    if (i % 4 !== 0 && low.length > 0) continue;
    low.push([u, bottom + RAGGED_SD * normal(random)]);
    high.unshift([u, top + RAGGED_SD * normal(random)]);
  }
  return low.length >= 3 ? { kind: 'outline', outline: [...low, ...high] } : null;
};

const maskMark = (flank: FlankSolution, film: number, random: Random): SeenMark | null => {
  const painted = painter(flank, film, random);
  const { columns, rows } = MASK;
  const data = Array.from({ length: columns * rows }, (_, at) => {
    const u = -1 + (2 * (at % columns) + 1) / columns + RAGGED_SD * normal(random);
    const v = -1 + (2 * Math.floor(at / columns) + 1) / rows + RAGGED_SD * normal(random);
    return painted(clamp(u, -1, 1), clamp(v, -1, 1)) ? 1 : 0;
  });
  return data.some((cell) => cell === 1) ? { kind: 'mask', columns, rows, data } : null;
};

const seeMark = (flank: FlankSolution, film: number, form: Form, random: Random): SeenMark | null => {
  if (form === 'outline') return outlineMark(flank, film, random);
  if (form === 'mask') return maskMark(flank, film, random);
  return describeMark(flank, PATCH_SD, random);
};

/** A person's look at a solved mesh (display grid), with the noise that the stated uncertainty means. True `readings`, mm. */
export const lookAt = (
  solution: MeshSolution,
  film: number,
  readings: readonly number[],
  form: Form,
  random: Random,
): Observation => {
  const see = (flank: FlankSolution): SeenMark | null => seeMark(flank, film, form, random);
  return {
    drive: see(solution.drive),
    coast: see(solution.coast),
    backlash: readings.map((reading) => reading + DIAL_SD * normal(random)),
    uncertainty: { patch: PATCH_SD, backlash: DIAL_SD },
    film: null,
  };
};

/**
 * As a careful person looks: each flank painted `paintings` times and the means of the four numbers put in, as sure as
 * a mean is; the borders reached are told too.
 */
export const lookRepeatedly = (
  solution: MeshSolution,
  readings: readonly number[],
  paintings: number,
  random: Random,
): Observation => {
  const patch = PATCH_SD / Math.sqrt(paintings);
  const see = (flank: FlankSolution): SeenMark => ({
    ...describeMark(flank, patch, random),
    edges: EDGES.filter((edge) => (flank.patch.edges & EDGE_BIT[edge]) !== 0),
  });
  return {
    drive: see(solution.drive),
    coast: see(solution.coast),
    backlash: readings.map((reading) => reading + DIAL_SD * normal(random)),
    uncertainty: { patch, backlash: DIAL_SD },
    film: null,
  };
};
