import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import type { GearMesh } from '../../sim/gearset/gearMesh.ts';
import { type Directions, findDirections } from '../support/directions.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';

export type CutMethod = GearSetDefinition['cut']['method'];
export const METHODS: readonly CutMethod[] = ['face-milled', 'face-hobbed'];

export const RANDOM_SETS_PER_METHOD = 40;
export const RANDOM_SETS_SEED = 6400;

/** Random makeable sets of one cut method with what the drawing refused and how each answers to shims. */
export interface RandomSets {
  readonly meshes: readonly GearMesh[];
  readonly refusals: ReadonlyMap<string, number>;
  readonly directions: readonly Directions[];
}

const drawn = new Map<CutMethod, RandomSets>();

/** The same sets in every section; drawn once. */
export const randomSets = (method: CutMethod): RandomSets => {
  const known = drawn.get(method);
  if (known) return known;
  const random = seededRandom(RANDOM_SETS_SEED);
  const refusals = new Map<string, number>();
  const meshes = Array.from({ length: RANDOM_SETS_PER_METHOD }, () =>
    drawMakeableMesh(random, method, refusals),
  );
  const sets = { meshes, refusals, directions: meshes.map(findDirections) };
  drawn.set(method, sets);
  return sets;
};
