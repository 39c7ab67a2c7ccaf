import { AXLE_IDS, AXLES } from '../../models/index.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { REFERENCE_FILM, referenceSet } from './referenceSets.ts';

/** A gear set that tests and tables call by its name. */
export interface NamedSet {
  readonly label: string;
  readonly definition: GearSetDefinition;
  /** mm, of its own workshop */
  readonly film: number;
}

export const REFERENCE_SETS: readonly NamedSet[] = (['a', 'b'] as const).map((name) => ({
  label: `Set ${name}`,
  definition: referenceSet(name),
  film: REFERENCE_FILM,
}));

export const SHIPPED_SETS: readonly NamedSet[] = AXLE_IDS.map((id) => ({
  label: AXLES[id].name,
  definition: AXLES[id].gearset,
  film: AXLES[id].film_mm,
}));

export const NAMED_SETS: readonly NamedSet[] = [...REFERENCE_SETS, ...SHIPPED_SETS];
