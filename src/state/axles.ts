import type { AxleDefinition } from '../../models/axle.ts';
import { AXLE_IDS, AXLES, isAxleId } from '../../models/index.ts';

export const DEFAULT_AXLE_ID = 'borrin';

export interface KnownAxle {
  readonly id: string;
  readonly axle: AxleDefinition;
}

/** The axles that can be chosen, in the order they are offered. */
export const KNOWN_AXLES: readonly KnownAxle[] = AXLE_IDS.map((id) => ({ id, axle: AXLES[id] }));

/** @throws RangeError for an id that is not among AXLE_IDS: whoever reads ids from outside checks them first. */
export function axleOf(id: string): KnownAxle {
  if (!isAxleId(id)) throw new RangeError(`axleId: ${id} is not one of ${AXLE_IDS.join(', ')}`);
  return { id, axle: AXLES[id] };
}
