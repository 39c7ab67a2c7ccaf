import type { MeshSolution, MeshSolver } from '../contact/meshSolver.ts';
import type { Pose } from '../contact/pose.ts';
import { reportBacklash, reportPatch } from '../contact/report.ts';
import type { FlankName } from '../gearset/definition.ts';
import type { FlankResult, SolveResult } from './protocol.ts';

/** Copies a solution, which the next solve overwrites, into what the app is given. */
export const solveResult = (
  solver: MeshSolver,
  solution: MeshSolution,
  pose: Pose,
  film: number,
): SolveResult => ({
  pose,
  film,
  grid: solver.size,
  drive: flankResult(solver, solution, 'drive'),
  coast: flankResult(solver, solution, 'coast'),
  backlash: reportBacklash(solution),
  freePlayCurve: Float32Array.from(solution.freePlay),
});

const flankResult = (solver: MeshSolver, solution: MeshSolution, flank: FlankName): FlankResult => {
  const { separation, tipClearance, phase, transmission } = solution[flank];
  const { ratio } = solver.mesh.pitch;
  return {
    ...reportPatch(solution, flank),
    separation: Float32Array.from(separation),
    tipClearance: Float32Array.from(tipClearance),
    phase: Float32Array.from(phase),
    transmissionErrorCurve: Float32Array.from(transmission.values, (value) =>
      Number.isFinite(value) ? value / ratio : Number.NaN,
    ),
  };
};
