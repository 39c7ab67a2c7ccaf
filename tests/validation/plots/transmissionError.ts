import { PHASES_PER_PITCH } from '../../../sim/contact/grid.ts';
import { DESIGN_POSE, type Pose } from '../../../sim/contact/pose.ts';
import { FLANKS, type FlankName } from '../../../sim/gearset/definition.ts';
import { namedSet, solverOf } from '../solve.ts';
import type { Chart, Panel, Series } from './chart.ts';

const SETS = ['Borrin', 'Cavel'] as const;

const POSES: ReadonlyArray<{ label: string; pose: Partial<Pose> }> = [
  { label: 'design position', pose: {} },
  { label: 'pinion in 0.2 mm', pose: { pinionIn: 0.2 } },
  { label: 'pinion out 0.2 mm', pose: { pinionIn: -0.2 } },
];

/** TE_all/m over one pitch, µrad of ring, counted from its least; the last phase closes the pitch. */
const curve = (setName: string, flank: FlankName, pose: Partial<Pose>): Series['points'] => {
  const set = namedSet(setName);
  const solver = solverOf(set);
  const solution = solver.createSolution();
  solver.solve({ ...DESIGN_POSE, ...pose }, set.film, solution);
  const values = Array.from(solution[flank].transmission.values, (value) =>
    Number.isFinite(value) ? (value / solver.mesh.pitch.ratio) * 1e6 : Number.NaN,
  );
  const least = Math.min(...values.filter(Number.isFinite));
  return Array.from({ length: PHASES_PER_PITCH + 1 }, (_, k) => [
    k / PHASES_PER_PITCH,
    values[k % PHASES_PER_PITCH] - least,
  ]);
};

const panel = (setName: string, flank: FlankName): Panel => ({
  title: `${setName} (${namedSet(setName).definition.cut.method}), ${flank} flank`,
  x: { title: 'ring angle, pitches', domain: [0, 1], ticks: 5, digits: 1 },
  y: { title: 'transmission error, µrad of the ring', domain: [0, 100], ticks: 5, digits: 0 },
  series: POSES.map(({ label, pose }, style) => ({ label, style, points: curve(setName, flank, pose) })),
});

/** Transmission error over a pitch. */
export const transmissionErrorChart = (): Chart => ({
  title: 'Transmission error over one pitch',
  description: `Transmission error of the least-gap tooth pair over one pitch, counted from its least value, for ${SETS.join(' and ')}, drive and coast, in three pinion positions.`,
  panels: SETS.flatMap((set) => FLANKS.map((flank) => panel(set, flank))),
});
