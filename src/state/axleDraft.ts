import type { AxleDefinition } from '../../models/axle.ts';
import { AXLE_FIELDS } from '../../models/axleFields.ts';
import { type Field, listFields, own } from '../../models/field.ts';
import type { LengthUnit } from '../units/length.ts';

/** What was typed where it is no value yet, and the unit of length that was shown then. */
export interface Typed {
  readonly typed: string;
  readonly unit: LengthUnit;
}

/** What stands in a field: a value in the file's unit, null for one that is left out, or the typing so far. */
export type Entry = number | string | boolean | null | Typed;

export type Entries = Readonly<Record<string, Entry>>;

/** An axle in the making. Everything that was typed is in it, also what is wrong or belongs to another choice. */
export interface AxleDraft {
  /** the key of the axle it changes, or of the one it will be */
  readonly key: string;
  /** does it change an axle that is kept already? */
  readonly changes: boolean;
  /** name of the axle it was copied from; null for one from a caliper */
  readonly source: string | null;
  readonly entries: Entries;
  /** names of fields that the user has set; the others hold a default or follow from these */
  readonly given: readonly string[];
}

/** One field of the form. Its name is its path in the file, with the choice it belongs to: `sides.ringSide.pitch@adjuster`. */
export interface DraftField {
  readonly name: string;
  readonly path: string;
  readonly field: Field;
  /** shown and written only while the field `path` has this value */
  readonly when: { readonly path: string; readonly value: string } | null;
}

export const DRAFT_FIELDS: readonly DraftField[] = listFields(AXLE_FIELDS).map(({ path, field, variant }) => {
  if (variant === null) return { name: path, path, field, when: null };
  const [chooser, value] = variant.split('=');
  return { name: `${path}@${value}`, path, field, when: { path: chooser, value } };
});

const BY_NAME = new Map(DRAFT_FIELDS.map((field) => [field.name, field]));

/** @throws RangeError for a name that no field has */
export function draftField(name: string): DraftField {
  const found = BY_NAME.get(name);
  if (found === undefined) throw new RangeError(`draft field: ${name} is not in the form`);
  return found;
}

/** Does the field count with what is chosen? */
export const counts = ({ when }: DraftField, entries: Entries): boolean =>
  when === null || entries[when.path] === when.value;

/** The name of the field that stands for a path with what is chosen; null when none does. */
export const nameOfPath = (path: string, entries: Entries): string | null =>
  DRAFT_FIELDS.find((field) => field.path === path && counts(field, entries))?.name ?? null;

const startOf = ({ field }: DraftField): Entry =>
  field.kind === 'number' && field.optional ? null : field.default;

/** Every field at its stated default. */
export const defaultEntries = (): Entries =>
  Object.fromEntries(DRAFT_FIELDS.map((field) => [field.name, startOf(field)]));

export const newDraft = (key: string): AxleDraft =>
  following({ key, changes: false, source: null, entries: defaultEntries(), given: [] });

/** A draft that starts as an axle is. */
export function draftOf(
  axle: AxleDefinition,
  from: Pick<AxleDraft, 'key' | 'changes' | 'source'>,
): AxleDraft {
  const valueAt = (path: string): unknown => path.split('.').reduce<unknown>(own, axle);
  const entries: Record<string, Entry> = { ...defaultEntries() };
  const given: string[] = [];
  for (const field of DRAFT_FIELDS) {
    if (field.when !== null && valueAt(field.when.path) !== field.when.value) continue;
    const value = valueAt(field.path);
    entries[field.name] = (value ?? null) as Entry;
    given.push(field.name);
  }
  return { ...from, entries, given };
}

export const isTyped = (entry: Entry): entry is Typed => typeof entry === 'object' && entry !== null;

/** The JSON of the axle as far as it goes: what is not a value yet is missing. */
export function jsonOf(entries: Entries): Record<string, unknown> {
  const json: Record<string, unknown> = {};
  for (const field of DRAFT_FIELDS) {
    const entry = entries[field.name];
    if (!counts(field, entries) || entry === null || entry === undefined || isTyped(entry)) continue;
    const keys = field.path.split('.');
    let node = json;
    for (const key of keys.slice(0, -1)) {
      node[key] ??= {};
      node = node[key] as Record<string, unknown>;
    }
    node[keys[keys.length - 1]] = entry;
  }
  return json;
}

/** The draft with a field set by the user. */
export function withEntry(draft: AxleDraft, name: string, entry: Entry): AxleDraft {
  const carried = carriedOver(draft, name, entry);
  const given = draft.given.includes(name) ? draft.given : [...draft.given, name];
  return following({ ...draft, entries: { ...draft.entries, ...carried, [name]: entry }, given });
}

/** The draft with fields filled in that the user has not set: what follows from the others, or a solver found. */
export const withAssumed = (draft: AxleDraft, entries: Entries): AxleDraft => ({
  ...draft,
  entries: {
    ...draft.entries,
    ...Object.fromEntries(Object.entries(entries).filter(([name]) => !draft.given.includes(name))),
  },
});

/** What follows from other fields as long as the user does not say otherwise. */
function following(draft: AxleDraft): AxleDraft {
  const { entries } = draft;
  const assumed: Record<string, Entry> = {};
  // a shim that runs well is at its design thickness
  for (const { name } of DRAFT_FIELDS) {
    if (!FITTED.test(name)) continue;
    const design = name.replace(FITTED, '.design');
    if (Object.hasOwn(entries, design)) assumed[design] = entries[name];
  }
  const [least, most] = [entries['limits.backlash.min'], entries['limits.backlash.max']];
  if (typeof least === 'number' && typeof most === 'number') {
    assumed['gearset.backlash'] = Math.round((least + most) * 500) / 1000;
  }
  // a continuously indexing cutter makes uniform depth
  if (entries['gearset.cut.method'] === 'face-hobbed') assumed['gearset.tooth.depthTaper'] = 0;
  return withAssumed(draft, assumed);
}

const FITTED = /\.fitted(?=@|$)/;

/**
 * Another kind of the same device keeps what was set of the former one: fields of the same name and unit that the user
 * has not set for the new kind.
 */
function carriedOver({ entries, given }: AxleDraft, chooser: string, value: Entry): Entries {
  const carried: Record<string, Entry> = {};
  for (const target of DRAFT_FIELDS) {
    if (target.when?.path !== chooser || target.when.value !== value || given.includes(target.name)) continue;
    const source = DRAFT_FIELDS.find(
      ({ path, when, field }) =>
        path === target.path &&
        when?.path === chooser &&
        when.value === entries[chooser] &&
        field.label === target.field.label,
    );
    if (source !== undefined && given.includes(source.name)) carried[target.name] = entries[source.name];
  }
  return carried;
}
