import type { RecordKind } from './record.ts';

/**
 * A list as it lies on the device, with what was deleted from it. Nothing is judged here, so an entry that cannot be
 * read stays where it is through every change of another.
 */
export interface StoredList {
  /** oldest first */
  readonly kept: readonly unknown[];
  /** newest first; can be restored */
  readonly deleted: readonly unknown[];
}

export const EMPTY_LIST: StoredList = { kept: [], deleted: [] };
export const MOST_DELETED = 20;

export const listRecord = (key: string): RecordKind<StoredList> => ({
  key,
  version: 1,
  read: (content) => {
    if (typeof content !== 'object' || content === null) return undefined;
    const { kept, deleted } = content as Record<keyof StoredList, unknown>;
    return Array.isArray(kept) && Array.isArray(deleted) ? { kept, deleted } : undefined;
  },
});

/** Deleted entries with one more; the oldest go for good. */
export const alsoDeleted = (entry: unknown, deleted: readonly unknown[]): readonly unknown[] =>
  [entry, ...deleted].slice(0, MOST_DELETED);

/** True for the entry whose `field` is `value`. */
export const named =
  (field: 'id' | 'key', value: string) =>
  (entry: unknown): boolean =>
    typeof entry === 'object' && entry !== null && (entry as Record<string, unknown>)[field] === value;

/** In the place of the first that `isSame`, or at the end. */
export const putInto = (
  entries: readonly unknown[],
  entry: unknown,
  isSame: (other: unknown) => boolean,
): readonly unknown[] => {
  const place = entries.findIndex(isSame);
  return place === -1 ? [...entries, entry] : entries.with(place, entry);
};
