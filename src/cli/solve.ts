import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { reportBacklash, reportPatch } from '../../sim/contact/report.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { reportGeometry } from '../../sim/gearset/geometryReport.ts';
import type { CommandLine } from './options.ts';
import { poseWarnings, readFilm, readPose } from './pose.ts';
import { roundNumbers } from './round.ts';
import { readSource } from './source.ts';
import { naming } from './unmakeable.ts';

/** Finer than the display's: a command has time for it. */
const GRID = { columns: 121, rows: 61 };

/** One JSON object: geometry, both flanks and backlash of a pose; mm, degrees, µrad. @throws Refusal */
export function solve(line: CommandLine): string {
  const pose = readPose(line);
  const source = readSource(line);
  const film = readFilm(line, source.film);
  const { mesh, solver } = naming(source.prefix, () => {
    const built = buildGearMesh(source.gearset);
    return { mesh: built, solver: new MeshSolver(built, GRID) };
  });
  const solution = solver.createSolution();
  solver.solve(pose, film, solution);
  const answer = {
    ...(source.name === null ? {} : { name: source.name }),
    pose,
    film,
    geometry: reportGeometry(mesh),
    drive: reportPatch(solution, 'drive'),
    coast: reportPatch(solution, 'coast'),
    backlash: reportBacklash(solution),
    warnings: [...mesh.warnings, ...poseWarnings(pose)],
  };
  return `${JSON.stringify(roundNumbers(answer), null, 2)}\n`;
}
