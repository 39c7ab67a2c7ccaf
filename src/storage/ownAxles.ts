import type { DeviceStorage } from './device.ts';
import { loadRecord, saveRecord } from './record.ts';
import { alsoDeleted, EMPTY_LIST, listRecord, named, putInto, type StoredList } from './storedList.ts';

/** Own axles, each the JSON of an axle file (models/axleFileForm.ts). */
export const OWN_AXLES_RECORD = listRecord('meshwitness.own-axles');

export function loadStoredAxles(storage: DeviceStorage): StoredList {
  const loaded = loadRecord(storage, OWN_AXLES_RECORD);
  return loaded.found === 'value' ? loaded.value : EMPTY_LIST;
}

/** Changes what lies there now, which another window may have written. False: it is kept until the page is closed only. */
export function changeStoredAxles(
  storage: DeviceStorage,
  change: (stored: StoredList) => StoredList,
): boolean {
  return saveRecord(storage, OWN_AXLES_RECORD, change(loadStoredAxles(storage)));
}

const without = (entries: readonly unknown[], key: string): readonly unknown[] => {
  const isIt = named('key', key);
  return entries.filter((entry) => !isIt(entry));
};

/** In the place of the one with its key, or at the end. */
export const putStored =
  (entry: { readonly key: string }) =>
  ({ kept, deleted }: StoredList): StoredList => ({
    kept: putInto(kept, entry, named('key', entry.key)),
    deleted: without(deleted, entry.key),
  });

export const deleteStored =
  (key: string) =>
  ({ kept, deleted }: StoredList): StoredList => {
    const entry = kept.find(named('key', key));
    if (entry === undefined) return { kept, deleted };
    return { kept: without(kept, key), deleted: alsoDeleted(entry, without(deleted, key)) };
  };

export const restoreStored =
  (key: string) =>
  ({ kept, deleted }: StoredList): StoredList => {
    const entry = deleted.find(named('key', key));
    if (entry === undefined) return { kept, deleted };
    return { kept: [...without(kept, key), entry], deleted: without(deleted, key) };
  };

export const forgetDeletedStored = ({ kept }: StoredList): StoredList => ({ kept, deleted: [] });
