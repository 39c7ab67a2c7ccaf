import { type MeshSolution, MeshSolver } from '../contact/meshSolver.ts';
import type { Pose } from '../contact/pose.ts';
import { buildGearSolids } from '../gearset/buildSolids.ts';
import type { GearSetDefinition } from '../gearset/definition.ts';
import { buildGearMesh } from '../gearset/gearMesh.ts';
import { reportGeometry, reportOutline } from '../gearset/geometryReport.ts';
import type { GearSolids, SolidDetail } from '../gearset/solids.ts';
import { attempt, checkFilm, checkPose } from './attempt.ts';
import type { LoadedGearSet, Outcome, SolveResult } from './protocol.ts';
import { solveResult } from './solveResult.ts';

interface Loaded {
  readonly solver: MeshSolver;
  readonly solution: MeshSolution;
}

/** Gear sets kept ready at once; the app shows at most two, switching back should not rebuild. */
const KEPT = 6;

/**
 * The core behind the worker, synchronous and free of any messaging: the worker entry exposes it, tests compare
 * with it.
 */
export class MeshCore {
  private readonly loaded = new Map<string, Loaded>();

  load(gearSetId: string, definition: GearSetDefinition): Outcome<LoadedGearSet> {
    return attempt(() => {
      const mesh = buildGearMesh(definition);
      const solver = new MeshSolver(mesh);
      this.loaded.delete(gearSetId);
      this.loaded.set(gearSetId, { solver, solution: solver.createSolution() });
      for (const oldest of this.loaded.keys()) {
        if (this.loaded.size <= KEPT) break;
        this.loaded.delete(oldest);
      }
      return {
        geometry: reportGeometry(mesh),
        outline: reportOutline(mesh),
        gearRatio: mesh.pitch.ratio,
        mirrored: mesh.mirrored,
        warnings: mesh.warnings,
      };
    });
  }

  solve(gearSetId: string, pose: Pose, film: number): Outcome<SolveResult> {
    const found = this.loaded.get(gearSetId);
    if (!found) return { ok: false, failure: { kind: 'not-loaded', gearSetId } };
    return attempt(() => {
      checkPose(pose);
      checkFilm(film);
      const { solver, solution } = found;
      solver.solve(pose, film, solution);
      return solveResult(solver, solution, pose, film);
    });
  }

  solids(gearSetId: string, detail: SolidDetail): Outcome<GearSolids> {
    const found = this.loaded.get(gearSetId);
    if (!found) return { ok: false, failure: { kind: 'not-loaded', gearSetId } };
    return attempt(() => buildGearSolids(found.solver.mesh, found.solver.pinionThinning, detail));
  }
}
