import { type Problem, valueWords } from '../../models/problem.ts';
import type { DeviceStorage } from './device.ts';
import { loadRecord, type RecordKind, saveRecord } from './record.ts';
import { listUnread } from './unread.ts';

/**
 * Trials as they lie on the device (src/state/trialRecord.ts). Nothing is judged here, so an entry that cannot be read
 * stays where it is through every change of another.
 */
export interface StoredTrials {
  /** oldest first */
  readonly kept: readonly unknown[];
  /** deleted, newest first; can be restored */
  readonly deleted: readonly unknown[];
}

export const TRIALS_RECORD: RecordKind<StoredTrials> = {
  key: 'meshwitness.trials',
  version: 1,
  read: (content) => {
    if (typeof content !== 'object' || content === null) return undefined;
    const { kept, deleted } = content as Record<keyof StoredTrials, unknown>;
    return Array.isArray(kept) && Array.isArray(deleted) ? { kept, deleted } : undefined;
  },
};

const NOTHING: StoredTrials = { kept: [], deleted: [] };
export const MOST_DELETED = 20;

export interface LoadedTrials {
  readonly stored: StoredTrials;
  /** why what lies there could not be read as a whole */
  readonly problem: Problem | null;
  /** false: writing would destroy what lies there */
  readonly writable: boolean;
}

export function loadStoredTrials(storage: DeviceStorage): LoadedTrials {
  const loaded = loadRecord(storage, TRIALS_RECORD);
  if (loaded.found === 'value') return { stored: loaded.value, problem: null, writable: true };
  if (loaded.found === 'nothing') return { stored: NOTHING, problem: null, writable: true };
  const text = storage.get(TRIALS_RECORD.key) ?? '';
  const problem = problemOf(text);
  // damage that is kept aside whole may be written over; what a newer app wrote is not damage
  const writable = problem.field !== 'version' && listUnread(storage).some((item) => item.text === text);
  return { stored: NOTHING, problem, writable };
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
  change: (stored: StoredTrials) => StoredTrials,
): Changed {
  const { stored, problem, writable } = loadStoredTrials(storage);
  if (problem !== null && !writable) return { ok: false, problem };
  return { ok: true, durable: saveRecord(storage, TRIALS_RECORD, change(stored)) };
}

const idOf = (entry: unknown): unknown =>
  typeof entry === 'object' && entry !== null ? (entry as { id?: unknown }).id : undefined;

const placeOf = (entries: readonly unknown[], id: string): number =>
  entries.findIndex((entry) => idOf(entry) === id);

/** In the place of the one with its id, or at the end. */
export const putTrial =
  (entry: { readonly id: string }) =>
  ({ kept, deleted }: StoredTrials): StoredTrials => {
    const place = placeOf(kept, entry.id);
    return { kept: place === -1 ? [...kept, entry] : kept.with(place, entry), deleted };
  };

export const dropTrial =
  (id: string) =>
  ({ kept, deleted }: StoredTrials): StoredTrials => {
    const place = placeOf(kept, id);
    if (place === -1) return { kept, deleted };
    return { kept: kept.toSpliced(place, 1), deleted: [kept[place], ...deleted].slice(0, MOST_DELETED) };
  };

export const bringBackTrial =
  (id: string) =>
  ({ kept, deleted }: StoredTrials): StoredTrials => {
    const place = placeOf(deleted, id);
    if (place === -1) return { kept, deleted };
    return { kept: [...kept, deleted[place]], deleted: deleted.toSpliced(place, 1) };
  };
