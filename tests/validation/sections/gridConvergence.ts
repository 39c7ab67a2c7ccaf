import type { GridSize } from '../../../sim/contact/grid.ts';
import { MeshSolver } from '../../../sim/contact/meshSolver.ts';
import type { Pose } from '../../../sim/contact/pose.ts';
import { FLANKS } from '../../../sim/gearset/definition.ts';
import { NAMED_SETS, type NamedSet } from '../../support/namedSets.ts';
import { REFERENCE_FILM } from '../../support/referenceSets.ts';
import { poseInWords } from '../poseText.ts';
import { meshOf, type Solved, solveWith } from '../solve.ts';
import { blocks, fixed, head, largest, row } from '../text.ts';

const COARSE: readonly GridSize[] = [
  { columns: 31, rows: 15 },
  { columns: 61, rows: 31 },
  { columns: 121, rows: 61 },
];
const FINEST: GridSize = { columns: 401, rows: 161 };
const POSES: ReadonlyArray<Partial<Pose>> = [
  {},
  { pinionIn: 0.1 },
  { pinionIn: -0.1 },
  { ringAway: 0.1 },
  { ringAway: -0.1 },
  { pinionIn: 0.15, ringAway: 0.1, offsetError: 0.05, shaftAngleError: 0.02 },
];

const name = ({ columns, rows }: GridSize): string => `${columns} × ${rows}`;

const apart = (a: number | null, b: number | null): number => Math.abs((a ?? Number.NaN) - (b ?? Number.NaN));

/** Largest differences over all poses and both flanks, as table cells. */
const differences = (some: readonly Solved[], best: readonly Solved[]): string[] => {
  const worst = (of: (a: Solved, b: Solved) => readonly number[]): number =>
    largest(some.flatMap((solved, i) => of(solved, best[i])));
  const flank = (field: 'toeHeel' | 'rootFace' | 'length' | 'height' | 'transmissionError'): number =>
    worst((a, b) => FLANKS.map((side) => apart(a[side][field], b[side][field])));
  return [
    fixed(flank('toeHeel'), 4),
    fixed(flank('rootFace'), 4),
    fixed(flank('length'), 4),
    fixed(flank('height'), 4),
    fixed(flank('transmissionError'), 2),
    fixed(
      worst((a, b) => [apart(a.backlash.normal, b.backlash.normal) * 1000]),
      2,
    ),
  ];
};

/** Rows of one set: every coarser grid against the finest. */
export const convergenceRows = (set: NamedSet): string => {
  const solveAll = (size: GridSize): Solved[] => {
    const solver = new MeshSolver(meshOf(set), size);
    return POSES.map((pose) => solveWith(solver, pose, REFERENCE_FILM));
  };
  const best = solveAll(FINEST);
  return COARSE.map((size) => row([set.label, name(size), ...differences(solveAll(size), best)])).join('\n');
};

/** How results change with the grid. */
export const gridConvergenceSection = (progress: (what: string) => void): string => {
  const rows = NAMED_SETS.map((set) => {
    progress(`grid convergence: ${set.label}`);
    return convergenceRows(set);
  });
  const titles = [
    'Set',
    'grid',
    'toe–heel',
    'root–face',
    'length',
    'height',
    'transmission error, µrad',
    'backlash, µm',
  ];
  return blocks([
    '## Grid convergence',
    `Largest difference from the ${name(FINEST)} grid over both flanks and these poses: ${POSES.map(poseInWords).join('; ')}. Tabulation at 64 phases per pitch is the same on every grid. The app shows the 61 × 31 grid; 31 × 15 is for wide searches only.`,
    [head(titles), ...rows].join('\n'),
  ]);
};
