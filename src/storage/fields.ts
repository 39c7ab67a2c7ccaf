import { type Parsed, type Problem, valueWords } from '../../models/problem.ts';

/** Reads one value found at `field`; what it cannot read it refuses with `Refused`. */
export type Read<T> = (value: unknown, field: string) => T;

class Refused extends Error {
  readonly problem: Problem;
  constructor(field: string, value: unknown, allowed: string) {
    super(field);
    this.problem = { field, value: valueWords(value), allowed };
  }
}

/** The value, or the first field that is wrong: what was found there and what is allowed. Never throws. */
export function readFields<T>(read: Read<T>, value: unknown): Parsed<T> {
  try {
    return { ok: true, value: read(value, '') };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, problems: [error.problem] };
    throw error;
  }
}

/** What `judge` makes of a value; undefined refuses it. */
export const judged =
  <T>(allowed: string, judge: (value: unknown) => T | undefined): Read<T> =>
  (value, field) => {
    const read = judge(value);
    if (read === undefined) throw new Refused(field, value, allowed);
    return read;
  };

export const numberIn = (least: number, most: number): Read<number> =>
  judged(`a number from ${least} to ${most}`, (value) =>
    typeof value === 'number' && value >= least && value <= most ? value : undefined,
  );

export const wholeIn = (least: number, most: number): Read<number> =>
  judged(`a whole number from ${least} to ${most}`, (value) =>
    Number.isInteger(value) && (value as number) >= least && (value as number) <= most
      ? (value as number)
      : undefined,
  );

export const oneOf = <T extends string | boolean | null>(choices: readonly T[]): Read<T> =>
  judged(`one of ${choices.map(String).join(', ')}`, (value) => choices.find((choice) => choice === value));

export const orNull =
  <T>(read: Read<T>): Read<T | null> =>
  (value, field) =>
    value === null ? null : read(value, field);

const inside = (field: string, part: string | number): string =>
  field === '' ? `${part}` : `${field}.${part}`;

/** `[]` of at most `most` of a kind. */
export const listOf =
  <T>(read: Read<T>, most: number): Read<readonly T[]> =>
  (value, field) => {
    if (!Array.isArray(value) || value.length > most)
      throw new Refused(field, value, `a list of at most ${most}`);
    return value.map((one, k) => read(one, inside(field, k)));
  };

/** Exactly these fields: one that is not known would be lost when the object is written again. */
export const objectOf =
  <T extends object>(fields: { readonly [K in keyof T]: Read<T[K]> }): Read<T> =>
  (value, field) => {
    const names = Object.keys(fields) as (keyof T & string)[];
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      throw new Refused(field, value, `an object with ${names.join(', ')}`);
    const found = value as Record<string, unknown>;
    const stranger = Object.keys(found).find((name) => !Object.hasOwn(fields, name));
    if (stranger !== undefined)
      throw new Refused(inside(field, stranger), found[stranger], `no field but ${names.join(', ')}`);
    return Object.fromEntries(
      names.map((name) => [
        name,
        fields[name](Object.hasOwn(found, name) ? found[name] : undefined, inside(field, name)),
      ]),
    ) as T;
  };
