import type { AxleDefinition } from '../../models/axle.ts';
import type { AxleFile } from '../../models/axleFileForm.ts';
import { AXLE_IDS, AXLES } from '../../models/index.ts';

export const DEFAULT_AXLE_ID = 'borrin';

export interface KnownAxle {
  /** stands for exactly this definition: an own axle that is changed gets another id */
  readonly id: string;
  readonly axle: AxleDefinition;
  /** names an own axle through all its changes; null for a practice axle */
  readonly key: string | null;
}

/** The practice axles, in the order they are offered. */
export const SHIPPED_AXLES: readonly KnownAxle[] = AXLE_IDS.map((id) => ({ id, axle: AXLES[id], key: null }));

/**
 * Every axle met since the app was started, by id. Forms of an own axle that were changed or deleted since stay: undo
 * may go back to one of them.
 */
const known = new Map<string, KnownAxle>(SHIPPED_AXLES.map((axle) => [axle.id, axle]));

/** Makes an own axle known; the same definition gives the same id, on every device. */
export function knowOwnAxle({ key, axle }: AxleFile): KnownAxle {
  const id = `own-${key}-${fingerprint(JSON.stringify(axle))}`;
  const found = known.get(id) ?? { id, axle, key };
  known.set(id, found);
  return found;
}

const OWN_ID = /^own-([a-z0-9]{8})-[a-z0-9]{1,7}$/;

/** The key in the id of an own axle, whether or not it is known here; null for anything else. */
export const keyOfOwnId = (id: string): string | null => OWN_ID.exec(id)?.[1] ?? null;

export const isKnownAxle = (id: string): boolean => known.has(id);

/** @throws RangeError for an id that is not known: whoever reads ids from outside checks them first. */
export function axleOf(id: string): KnownAxle {
  const found = known.get(id);
  if (found === undefined) {
    throw new RangeError(`axleId: ${id} is neither one of ${AXLE_IDS.join(', ')} nor an own axle known here`);
  }
  return found;
}

/** Tells the forms of one axle apart (FNV-1a, 32 bits); nothing secret rests on it. */
function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(36);
}
