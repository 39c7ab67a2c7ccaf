import { FLANKS, type FlankName, type GearSetDefinition } from '../gearset/definition.ts';
import { type UnmakeableCode, UnmakeableError } from '../gearset/errors.ts';
import { buildGearMesh } from '../gearset/gearMesh.ts';
import { DEFAULT_UNKNOWNS, UNKNOWN_COUNT, type Unknowns, varyUnknowns } from '../gearset/unknowns.ts';
import { evenPoint } from '../math/evenSequence.ts';
import { quantile } from '../math/quantile.ts';
import { SEARCH_GRID } from './grid.ts';
import { type MeshSolution, MeshSolver } from './meshSolver.ts';
import { findPatchMoves, type PatchMoves, type PoseStep } from './patchMoves.ts';
import type { Pose } from './pose.ts';

/** What is asked of a spread: one pose, one film, and the steps whose arrows matter. */
export interface SpreadQuestion {
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  readonly steps: readonly PoseStep[];
}

/** The mark of one flank, flank coordinates. */
export interface SpreadMark {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly length: number;
  readonly height: number;
}

/** One gear set that it might be as well. */
export type SpreadSample =
  | {
      readonly made: true;
      /** null without a mark */
      readonly drive: SpreadMark | null;
      readonly coast: SpreadMark | null;
      /** mm square to the flank, least over a pitch; null without a common phase of contact */
      readonly dial: number | null;
      /** per step of the question */
      readonly moves: readonly PatchMoves[];
    }
  | { readonly made: false; readonly code: UnmakeableCode };

const markOf = (solution: MeshSolution, flank: FlankName): SpreadMark | null => {
  const { toeHeel, rootFace, length, height } = solution[flank].patch;
  return Number.isFinite(toeHeel) ? { toeHeel, rootFace, length, height } : null;
};

/** One gear set answered, on the search grid. */
export const answerFor = (
  definition: GearSetDefinition,
  { pose, film, steps }: SpreadQuestion,
): SpreadSample => {
  try {
    const solver = new MeshSolver(buildGearMesh(definition), SEARCH_GRID);
    const solution = solver.createSolution();
    solver.solve(pose, film, solution);
    const dial = solution.backlash.normal;
    return {
      made: true,
      drive: markOf(solution, 'drive'),
      coast: markOf(solution, 'coast'),
      dial: Number.isFinite(dial) ? dial : null,
      moves: steps.map((step) => findPatchMoves(solver, pose, film, step, solver.createSolution())),
    };
  } catch (error) {
    if (error instanceof UnmakeableError) return { made: false, code: error.code };
    throw error;
  }
};

/**
 * Gear sets evenly spread over the unknowns, one per step (docs/model.md §9): built anew and solved, none interpolated.
 * Stopping the iteration cancels. The first `n` samples are the same however many follow.
 * @throws RangeError when `count` is not a whole number of 1 or more
 */
export function* solveSpread(
  definition: GearSetDefinition,
  question: SpreadQuestion,
  count: number,
  unknowns: Unknowns = DEFAULT_UNKNOWNS,
): Generator<SpreadSample, void, void> {
  if (!Number.isInteger(count) || count < 1) {
    throw new RangeError(`count: ${count}; a whole number of 1 or more is allowed`);
  }
  for (let k = 0; k < count; k++) {
    yield answerFor(varyUnknowns(definition, unknowns, evenPoint(UNKNOWN_COUNT, k)), question);
  }
}

/** Quantiles of a number over the samples that have it. */
export interface Distribution {
  readonly count: number;
  readonly low: number;
  readonly quarter: number;
  readonly median: number;
  readonly threeQuarters: number;
  readonly high: number;
}

/** `low` and `high` leave out this share at either end. */
const OUTER_SHARE = 0.05;

/** A number whose sign is the answer: shares of the samples that go either way. */
export interface Tendency extends Distribution {
  readonly positive: number;
  readonly negative: number;
}

export interface MarkSpread {
  /** made samples without a mark on this flank */
  readonly unmarked: number;
  readonly toeHeel: Distribution;
  readonly rootFace: Distribution;
  readonly length: Distribution;
  readonly height: Distribution;
}

export interface MoveSpread {
  readonly drive: { readonly toeHeel: Tendency; readonly rootFace: Tendency };
  readonly coast: { readonly toeHeel: Tendency; readonly rootFace: Tendency };
  /** mm */
  readonly dial: Tendency;
}

/** What is robust and what is not. */
export interface Spread {
  readonly made: number;
  /** draws that cannot be made, by reason */
  readonly refused: Readonly<Partial<Record<UnmakeableCode, number>>>;
  readonly drive: MarkSpread;
  readonly coast: MarkSpread;
  /** mm */
  readonly dial: Distribution;
  /** per step of the question */
  readonly moves: readonly MoveSpread[];
}

type Made = Extract<SpreadSample, { made: true }>;

const present = (values: ReadonlyArray<number | null | undefined>): number[] =>
  values.filter((value): value is number => typeof value === 'number');

const distribution = (values: readonly number[]): Distribution => ({
  count: values.length,
  low: quantile(values, OUTER_SHARE),
  quarter: quantile(values, 0.25),
  median: quantile(values, 0.5),
  threeQuarters: quantile(values, 0.75),
  high: quantile(values, 1 - OUTER_SHARE),
});

const tendency = (values: readonly number[]): Tendency => ({
  ...distribution(values),
  positive: values.filter((value) => value > 0).length / values.length,
  negative: values.filter((value) => value < 0).length / values.length,
});

const markSpread = (made: readonly Made[], flank: FlankName): MarkSpread => {
  const of = (name: keyof SpreadMark) => distribution(present(made.map((sample) => sample[flank]?.[name])));
  return {
    unmarked: made.filter((sample) => sample[flank] === null).length,
    toeHeel: of('toeHeel'),
    rootFace: of('rootFace'),
    length: of('length'),
    height: of('height'),
  };
};

const moveSpread = (made: readonly Made[], step: number): MoveSpread => {
  const [drive, coast] = FLANKS.map((flank) => {
    const of = (name: 'toeHeel' | 'rootFace') =>
      tendency(present(made.map(({ moves }) => moves[step][flank]?.[name])));
    return { toeHeel: of('toeHeel'), rootFace: of('rootFace') };
  });
  return { drive, coast, dial: tendency(present(made.map(({ moves }) => moves[step].dial))) };
};

/** Sums up the samples so far; `steps` as many as the question has. */
export const summariseSpread = (samples: readonly SpreadSample[], steps: number): Spread => {
  const made = samples.filter((sample): sample is Made => sample.made);
  const refused: Partial<Record<UnmakeableCode, number>> = {};
  for (const sample of samples) {
    if (!sample.made) refused[sample.code] = (refused[sample.code] ?? 0) + 1;
  }
  return {
    made: made.length,
    refused,
    drive: markSpread(made, 'drive'),
    coast: markSpread(made, 'coast'),
    dial: distribution(present(made.map(({ dial }) => dial))),
    moves: Array.from({ length: steps }, (_, step) => moveSpread(made, step)),
  };
};
