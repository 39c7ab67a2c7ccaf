import type * as z from 'zod/mini';
import { own } from '../../models/field.ts';
import { type Parsed, type Problem, valueWords } from '../../models/problem.ts';

/**
 * The value, or the first field that is wrong: what was found there and what is allowed. Every part of `schema` says as
 * its message what it allows; of an unknown field the message says which there are.
 */
export function readChecked<T extends z.ZodMiniType>(schema: T, value: unknown): Parsed<z.output<T>> {
  const checked = schema.safeParse(value);
  if (checked.success) return { ok: true, value: checked.data };
  return { ok: false, problems: [problemOf(checked.error.issues[0], value)] };
}

function problemOf(issue: z.core.$ZodIssue, value: unknown): Problem {
  const stranger = issue.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const path = [...issue.path.map(String), ...stranger];
  return { field: path.join('.'), value: valueWords(path.reduce(own, value)), allowed: issue.message };
}
