import { type Problem, valueWords } from '../../models/problem.ts';
import type { DeviceStorage } from './device.ts';
import { loadRecord, saveRecord } from './record.ts';
import { alsoDeleted, EMPTY_LIST, listRecord, named, putInto, type StoredList } from './storedList.ts';
import { listUnread } from './unread.ts';

/** Trials, each as src/state/trialRecord.ts writes it. */
export const TRIALS_RECORD = listRecord('meshwitness.trials');

export interface LoadedTrials {
  readonly stored: StoredList;
  /** why what lies there could not be read as a whole */
  readonly problem: Problem | null;
  /** false: writing would destroy what lies there */
  readonly writable: boolean;
}

export function loadStoredTrials(storage: DeviceStorage): LoadedTrials {
  const loaded = loadRecord(storage, TRIALS_RECORD);
  if (loaded.found === 'value') return { stored: loaded.value, problem: null, writable: true };
  if (loaded.found === 'nothing') return { stored: EMPTY_LIST, problem: null, writable: true };
  const text = storage.get(TRIALS_RECORD.key) ?? '';
  const problem = problemOf(text);
  // damage that is kept aside whole may be written over; what a newer app wrote is not damage
  const writable = problem.field !== 'version' && listUnread(storage).some((item) => item.text === text);
  return { stored: EMPTY_LIST, problem, writable };
}

function problemOf(text: string): Problem {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return { field: 'trials', value: valueWords(text), allowed: 'JSON' };
  }
  const { version, content } = (parsed ?? {}) as { version?: unknown; content?: unknown };
  if (typeof version === 'number' && version > TRIALS_RECORD.version)
    return { field: 'version', value: valueWords(version), allowed: `at most ${TRIALS_RECORD.version}` };
  return { field: 'content', value: valueWords(content), allowed: 'the lists kept and deleted' };
}

export type Changed =
  /** not durable: it is kept until the page is closed only */
  { readonly ok: true; readonly durable: boolean } | { readonly ok: false; readonly problem: Problem };

/** Changes what lies there now, which another window may have written. */
export function changeStoredTrials(
  storage: DeviceStorage,
  change: (stored: StoredList) => StoredList,
): Changed {
  const { stored, problem, writable } = loadStoredTrials(storage);
  if (problem !== null && !writable) return { ok: false, problem };
  return { ok: true, durable: saveRecord(storage, TRIALS_RECORD, change(stored)) };
}

/** In the place of the one with its id, or at the end. */
export const putTrial =
  (entry: { readonly id: string }) =>
  ({ kept, deleted }: StoredList): StoredList => ({
    kept: putInto(kept, entry, named('id', entry.id)),
    deleted,
  });

export const dropTrial =
  (id: string) =>
  ({ kept, deleted }: StoredList): StoredList => {
    const place = kept.findIndex(named('id', id));
    if (place === -1) return { kept, deleted };
    return { kept: kept.toSpliced(place, 1), deleted: alsoDeleted(kept[place], deleted) };
  };

export const bringBackTrial =
  (id: string) =>
  ({ kept, deleted }: StoredList): StoredList => {
    const place = deleted.findIndex(named('id', id));
    if (place === -1) return { kept, deleted };
    return { kept: [...kept, deleted[place]], deleted: deleted.toSpliced(place, 1) };
  };
