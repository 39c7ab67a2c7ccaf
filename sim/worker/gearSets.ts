import { DISPLAY_GRID, type GridSize, SEARCH_GRID } from '../contact/grid.ts';
import { type MeshSolution, MeshSolver } from '../contact/meshSolver.ts';
import type { GearSetDefinition } from '../gearset/definition.ts';
import { buildGearMesh, type GearMesh } from '../gearset/gearMesh.ts';

/** A solver with buffers of its own. */
export interface ReadySolver {
  readonly solver: MeshSolver;
  readonly scratch: MeshSolution;
}

/** A gear set built once; its solvers come when first asked for. */
class ReadyGearSet {
  readonly mesh: GearMesh;
  private readonly solvers = new Map<GridSize, ReadySolver>();

  /** @throws UnmakeableError */
  constructor(definition: GearSetDefinition) {
    this.mesh = buildGearMesh(definition);
  }

  /** For numbers that are shown. */
  get display(): ReadySolver {
    return this.solverOn(DISPLAY_GRID);
  }

  /** For wide searches. */
  get search(): ReadySolver {
    return this.solverOn(SEARCH_GRID);
  }

  private solverOn(size: GridSize): ReadySolver {
    const ready = this.solvers.get(size);
    if (ready) return ready;
    const solver = new MeshSolver(this.mesh, size);
    const made = { solver, scratch: solver.createSolution() };
    this.solvers.set(size, made);
    return made;
  }
}

/** Gear sets by id, the longest unused forgotten first. An id whose definition has changed is built anew. */
export class GearSets {
  private readonly most: number;
  private readonly kept = new Map<string, { readonly key: string; readonly gearSet: ReadyGearSet }>();

  constructor(most: number) {
    this.most = most;
  }

  /** @throws UnmakeableError */
  get(gearSetId: string, definition: GearSetDefinition): ReadyGearSet {
    const key = JSON.stringify(definition);
    const found = this.kept.get(gearSetId);
    const entry = found?.key === key ? found : { key, gearSet: new ReadyGearSet(definition) };
    this.kept.delete(gearSetId);
    this.kept.set(gearSetId, entry);
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= this.most) break;
      this.kept.delete(oldest);
    }
    return entry.gearSet;
  }
}
