import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import {
  type BacklashReport,
  type PatchReport,
  reportBacklash,
  reportPatch,
} from '../../sim/contact/report.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import { buildGearMesh, type GearMesh } from '../../sim/gearset/gearMesh.ts';
import { type Directions, findDirections } from '../support/directions.ts';
import { NAMED_SETS, type NamedSet } from '../support/namedSets.ts';

/** What a solve reports, copied out of the solver's buffers. */
export type Solved = Readonly<Record<FlankName, PatchReport>> & { readonly backlash: BacklashReport };

export const solveWith = (solver: MeshSolver, pose: Partial<Pose>, film: number): Solved => {
  const solution = solver.createSolution();
  solver.solve({ ...DESIGN_POSE, ...pose }, film, solution);
  return {
    drive: reportPatch(solution, 'drive'),
    coast: reportPatch(solution, 'coast'),
    backlash: reportBacklash(solution),
  };
};

const meshes = new Map<NamedSet, GearMesh>();
const solvers = new Map<NamedSet, MeshSolver>();

/** The mesh of a named set; built once. */
export const meshOf = (set: NamedSet): GearMesh => {
  const mesh = meshes.get(set) ?? buildGearMesh(set.definition);
  meshes.set(set, mesh);
  return mesh;
};

/** Its solver on the display grid; built once. */
export const solverOf = (set: NamedSet): MeshSolver => {
  const solver = solvers.get(set) ?? new MeshSolver(meshOf(set));
  solvers.set(set, solver);
  return solver;
};

const directions = new Map<NamedSet, Directions>();

/** How it answers to shims; found once. */
export const directionsOf = (set: NamedSet): Directions => {
  const found = directions.get(set) ?? findDirections(meshOf(set));
  directions.set(set, found);
  return found;
};

export const namedSet = (label: string): NamedSet => {
  const found = NAMED_SETS.find((set) => set.label === label);
  if (!found) throw new Error(`no set named ${label}`);
  return found;
};
