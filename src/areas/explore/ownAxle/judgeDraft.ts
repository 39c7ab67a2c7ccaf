import type { AxleDefinition } from '../../../../models/axle.ts';
import { parseAxle } from '../../../../models/schema.ts';
import {
  counts,
  DRAFT_FIELDS,
  type Entries,
  isTyped,
  jsonOf,
  nameOfPath,
  type Typed,
} from '../../../state/axleDraft.ts';

/** Why a field of the draft cannot be used. */
export type FieldProblem =
  | { readonly kind: 'typed'; readonly entry: Typed }
  | { readonly kind: 'range' }
  /** it does not agree with another field */
  | { readonly kind: 'other'; readonly allowed: string };

export interface Judged {
  /** null as long as any field has a problem */
  readonly axle: AxleDefinition | null;
  /** by field name */
  readonly problems: ReadonlyMap<string, FieldProblem>;
}

/** Reads the draft as a file would be read: by the one schema. */
export function judgeDraft(entries: Entries): Judged {
  const problems = new Map<string, FieldProblem>();
  for (const field of DRAFT_FIELDS) {
    const entry = entries[field.name];
    if (counts(field, entries) && isTyped(entry)) problems.set(field.name, { kind: 'typed', entry });
  }
  const parsed = parseAxle(jsonOf(entries));
  if (parsed.ok) return { axle: problems.size === 0 ? parsed.value : null, problems };
  for (const { field, allowed } of parsed.problems) {
    const name = nameOfPath(field, entries);
    if (name === null || problems.has(name)) continue;
    const kind = /^(not more than|0 with) /.test(allowed) ? 'other' : 'range';
    problems.set(name, kind === 'other' ? { kind, allowed } : { kind });
  }
  return { axle: null, problems };
}
