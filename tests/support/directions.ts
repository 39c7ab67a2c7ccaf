import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import type { GearMesh } from '../../sim/gearset/gearMesh.ts';
import { REFERENCE_FILM } from './referenceSets.ts';

/** Pose step of the direction tables, mm. */
export const STEP = 0.1;
/** Moves of the centroid below this per step count as neutral (docs/model.md §8). */
export const NEUTRAL = 0.05;

export const MOVES = {
  'pinion out': { pinionIn: -STEP },
  'ring in': { ringAway: -STEP },
} as const satisfies Record<string, Partial<Pose>>;
export type MoveName = keyof typeof MOVES;

/** Centroid move of one flank for one pose step, in flank coordinates. */
export interface CentroidMove {
  readonly toeHeel: number;
  readonly rootFace: number;
}

export interface Directions {
  readonly moves: Readonly<Record<MoveName, Readonly<Record<FlankName, CentroidMove>>>>;
  /** change of the square dial reading per mm of ring away and per mm of pinion out */
  readonly dialPerRingAway: number;
  readonly dialPerPinionOut: number;
}

/** How the patch and the dial answer to one step of each shim, from the design pose. */
export const findDirections = (mesh: GearMesh): Directions => {
  const solver = new MeshSolver(mesh);
  const solution = solver.createSolution();
  const at = (pose: Partial<Pose>) => {
    solver.solve({ ...DESIGN_POSE, ...pose }, REFERENCE_FILM, solution);
    return {
      drive: { ...solution.drive.patch },
      coast: { ...solution.coast.patch },
      dial: solution.backlash.normal,
    };
  };
  const home = at({});
  const move = (name: MoveName) => {
    const moved = at(MOVES[name]);
    return Object.fromEntries(
      FLANKS.map((flank) => [
        flank,
        {
          toeHeel: moved[flank].toeHeel - home[flank].toeHeel,
          rootFace: moved[flank].rootFace - home[flank].rootFace,
        },
      ]),
    ) as Record<FlankName, CentroidMove>;
  };
  return {
    moves: { 'pinion out': move('pinion out'), 'ring in': move('ring in') },
    dialPerRingAway: (at({ ringAway: STEP }).dial - home.dial) / STEP,
    dialPerPinionOut: (at({ pinionIn: -STEP }).dial - home.dial) / STEP,
  };
};

/** What the table of docs/model.md §8 says: sign, or the signs and 'neutral' that are allowed. */
export type Expected = { readonly toeHeel: readonly Sense[]; readonly rootFace: readonly Sense[] };
export type Sense = 'toe' | 'heel' | 'root' | 'face' | 'neutral';

export const DIRECTION_TABLE: Readonly<
  Record<'face-milled' | 'face-hobbed', Readonly<Record<MoveName, Readonly<Record<FlankName, Expected>>>>>
> = {
  'face-milled': {
    'pinion out': {
      drive: { rootFace: ['face'], toeHeel: ['heel'] },
      coast: { rootFace: ['face'], toeHeel: ['toe'] },
    },
    'ring in': {
      drive: { rootFace: ['root'], toeHeel: ['toe'] },
      coast: { rootFace: ['root'], toeHeel: ['neutral'] },
    },
  },
  'face-hobbed': {
    'pinion out': {
      drive: { rootFace: ['face'], toeHeel: ['toe', 'neutral'] },
      coast: { rootFace: ['face'], toeHeel: ['heel'] },
    },
    'ring in': {
      drive: { rootFace: ['root'], toeHeel: ['toe'] },
      coast: { rootFace: ['root'], toeHeel: ['heel', 'neutral'] },
    },
  },
};

/** Does a move agree with the table? A plain sense asks for the sign alone, however small the move. */
export const agrees = (move: CentroidMove, expected: Expected): boolean =>
  expected.toeHeel.some((sense) => hasSense(move.toeHeel, sense)) &&
  expected.rootFace.some((sense) => hasSense(move.rootFace, sense));

export const hasSense = (amount: number, sense: Sense): boolean => {
  if (sense === 'neutral') return Math.abs(amount) < NEUTRAL;
  return sense === 'heel' || sense === 'face' ? amount > 0 : amount < 0;
};
