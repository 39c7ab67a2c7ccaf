import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh, type GearMesh } from '../../sim/gearset/gearMesh.ts';
import type { GearSolids, SolidDetail } from '../../sim/gearset/solids.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import type { Outcome, SolveResult } from '../../sim/worker/protocol.ts';

/** What the stage is given of one gear set, from the real core. */
export interface StageSet {
  readonly definition: GearSetDefinition;
  readonly mesh: GearMesh;
  readonly solids: GearSolids;
  solve(pose?: Partial<Pose>, film?: number): SolveResult;
}

export function value<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.failure));
  return outcome.value;
}

export function loadSet(definition: GearSetDefinition, detail: SolidDetail = 'reduced'): StageSet {
  const core = new MeshCore();
  value(core.load('set', definition));
  return {
    definition,
    mesh: buildGearMesh(definition),
    solids: value(core.solids('set', detail)),
    solve: (pose = {}, film = 0.00635) => value(core.solve('set', { ...DESIGN_POSE, ...pose }, film)),
  };
}
