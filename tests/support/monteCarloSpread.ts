import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { findPatchMoves } from '../../sim/contact/patchMoves.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import type { SpreadQuestion, SpreadSample } from '../../sim/contact/spread.ts';
import type { FlankName, GearSetDefinition } from '../../sim/gearset/definition.ts';
import { UnmakeableError } from '../../sim/gearset/errors.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import type { Random } from './random.ts';

/** A pose beside the design position, and the two moves a workshop has. */
export const QUESTION: Omit<SpreadQuestion, 'film'> = {
  pose: { ...DESIGN_POSE, pinionIn: 0.04, ringAway: 0.03 },
  steps: [{ pinionIn: 0.025 }, { ringAway: -0.03 }],
};

/** An independent draw and solve: shares nothing with the spread but the solver it is about. */
export const solveByChance = (random: Random, definition: GearSetDefinition, film: number): SpreadSample => {
  const share = () => random.between(-1, 1);
  const flank = (name: FlankName) => {
    const was = definition.easeOff[name];
    const [along, across] = [1 + 0.3 * share(), 1 + 0.3 * share()];
    return {
      lengthwise: was.lengthwise * along,
      profile: was.profile * across,
      bias: was.bias * Math.sqrt(along * across),
      centerToeHeel: was.centerToeHeel + 0.2 * share(),
      centerRootFace: was.centerRootFace + 0.2 * share(),
    };
  };
  const drawn: GearSetDefinition = {
    ...definition,
    pinionSpiralAngle: definition.pinionSpiralAngle + 3 * share(),
    cut: { ...definition.cut, cutterRadius: definition.cut.cutterRadius * (1 + 0.1 * share()) },
    easeOff: { drive: flank('drive'), coast: flank('coast') },
  };
  try {
    const solver = new MeshSolver(buildGearMesh(drawn), SEARCH_GRID);
    const solution = solver.createSolution();
    const moves = QUESTION.steps.map((step) => findPatchMoves(solver, QUESTION.pose, film, step, solution));
    solver.solve(QUESTION.pose, film, solution);
    const mark = (name: FlankName) =>
      Number.isNaN(solution[name].patch.toeHeel) ? null : { ...solution[name].patch };
    return { made: true, drive: mark('drive'), coast: mark('coast'), dial: solution.backlash.normal, moves };
  } catch (error) {
    if (error instanceof UnmakeableError) return { made: false, code: error.code };
    throw error;
  }
};

/** Greatest distance between two distributions, and how large chance makes it once in ten thousand (Kolmogorov, Smirnov). */
export const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.max(
    ...[...a, ...b].map((x) => {
      const share = (of: readonly number[]) => of.filter((y) => y <= x).length / of.length;
      return Math.abs(share(a) - share(b));
    }),
  );
export const chance = (n: number, m: number): number => 2.23 * Math.sqrt((n + m) / (n * m));

export type Made = Extract<SpreadSample, { made: true }>;
export const QUANTITIES: Readonly<Record<string, (sample: Made) => number | undefined>> = {
  'drive toe-heel': ({ drive }) => drive?.toeHeel,
  'drive root-face': ({ drive }) => drive?.rootFace,
  'drive length': ({ drive }) => drive?.length,
  'coast toe-heel': ({ coast }) => coast?.toeHeel,
  'coast root-face': ({ coast }) => coast?.rootFace,
  'coast height': ({ coast }) => coast?.height,
  dial: ({ dial }) => dial ?? undefined,
  'pinion arrow, drive, toe-heel': ({ moves }) => moves[0].drive?.toeHeel,
  'pinion arrow, coast, toe-heel': ({ moves }) => moves[0].coast?.toeHeel,
  'ring arrow, drive, root-face': ({ moves }) => moves[1].drive?.rootFace,
  'ring arrow, dial': ({ moves }) => moves[1].dial ?? undefined,
};
