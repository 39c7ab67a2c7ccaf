import { UnmakeableError } from '../../sim/gearset/errors.ts';
import { Refusal } from './refusal.ts';

/** Runs work on a gear set; what cannot be made becomes a refusal that names the field as it stands in the file. */
export function naming<T>(prefix: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof UnmakeableError)) throw error;
    const field = prefix === '' ? error.field : `${prefix}.${error.field}`;
    throw new Refusal({ field, value: error.value, allowed: error.allowed });
  }
}
