import type { DeviceStorage } from './device.ts';
import { loadRecord, type RecordKind, saveRecord } from './record.ts';

/**
 * Own axles as they lie on the device: each the JSON of an axle file (models/axleFileForm.ts). Nothing is judged here, so an
 * entry that cannot be read stays where it is through every change of another.
 */
export interface StoredAxles {
  readonly kept: readonly unknown[];
  /** deleted, newest first; can be restored */
  readonly deleted: readonly unknown[];
}

export const OWN_AXLES_RECORD: RecordKind<StoredAxles> = {
  key: 'meshwitness.own-axles',
  version: 1,
  read: (content) => {
    if (typeof content !== 'object' || content === null) return undefined;
    const { kept, deleted } = content as Record<keyof StoredAxles, unknown>;
    return Array.isArray(kept) && Array.isArray(deleted) ? { kept, deleted } : undefined;
  },
};

const NOTHING: StoredAxles = { kept: [], deleted: [] };
const MOST_DELETED = 20;

export function loadStoredAxles(storage: DeviceStorage): StoredAxles {
  const loaded = loadRecord(storage, OWN_AXLES_RECORD);
  return loaded.found === 'value' ? loaded.value : NOTHING;
}

/** Changes what lies there now, which another window may have written. False: it is kept until the page is closed only. */
export function changeStoredAxles(
  storage: DeviceStorage,
  change: (stored: StoredAxles) => StoredAxles,
): boolean {
  return saveRecord(storage, OWN_AXLES_RECORD, change(loadStoredAxles(storage)));
}

const keyOf = (entry: unknown): unknown =>
  typeof entry === 'object' && entry !== null ? (entry as { key?: unknown }).key : undefined;

const without = (entries: readonly unknown[], key: string): readonly unknown[] =>
  entries.filter((entry) => keyOf(entry) !== key);

/** In the place of the one with its key, or at the end. */
export const putStored =
  (entry: { readonly key: string }) =>
  ({ kept, deleted }: StoredAxles): StoredAxles => {
    const place = kept.findIndex((other) => keyOf(other) === entry.key);
    return {
      kept: place === -1 ? [...kept, entry] : kept.with(place, entry),
      deleted: without(deleted, entry.key),
    };
  };

export const deleteStored =
  (key: string) =>
  ({ kept, deleted }: StoredAxles): StoredAxles => {
    const entry = kept.find((other) => keyOf(other) === key);
    if (entry === undefined) return { kept, deleted };
    return { kept: without(kept, key), deleted: [entry, ...without(deleted, key)].slice(0, MOST_DELETED) };
  };

export const restoreStored =
  (key: string) =>
  ({ kept, deleted }: StoredAxles): StoredAxles => {
    const entry = deleted.find((other) => keyOf(other) === key);
    if (entry === undefined) return { kept, deleted };
    return { kept: [...without(kept, key), entry], deleted: without(deleted, key) };
  };

export const forgetDeletedStored = ({ kept }: StoredAxles): StoredAxles => ({ kept, deleted: [] });
