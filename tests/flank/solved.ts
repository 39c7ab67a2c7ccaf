import { readFileSync } from 'node:fs';
import type { Pose } from '../../sim/contact/pose.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import type { LoadedGearSet, Outcome, SolveResult } from '../../sim/worker/protocol.ts';

export const REFERENCE_FILM = 0.00635;

export function definitionOf(set: 'a' | 'b'): GearSetDefinition {
  const file = new URL(`../fixtures/reference/set-${set}.json`, import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8')) as GearSetDefinition;
}

function unwrap<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.failure));
  return outcome.value;
}

export interface SolvedSet {
  readonly loaded: LoadedGearSet;
  solve(pose: Partial<Pose>, film?: number): SolveResult;
}

/** The real core on a worked gear set: a is face-milled, b is face-hobbed. */
export function solvedSet(set: 'a' | 'b'): SolvedSet {
  const core = new MeshCore();
  const loaded = unwrap(core.load(set, definitionOf(set)));
  return {
    loaded,
    solve: (pose, film = REFERENCE_FILM) =>
      unwrap(
        core.solve(set, { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0, ...pose }, film),
      ),
  };
}
