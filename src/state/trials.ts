import { create } from 'zustand';
import type { Problem } from '../../models/problem.ts';
import { MOST_EARLIER } from '../../sim/worker/diagnoseProtocol.ts';
import { type DeviceStorage, deviceStorage } from '../storage/device.ts';
import {
  bringBackTrial,
  type Changed,
  changeStoredTrials,
  dropTrial,
  loadStoredTrials,
  putTrial,
  TRIALS_RECORD,
} from '../storage/trials.ts';
import { keepUnread } from '../storage/unread.ts';
import type { AnswerStore } from './answer.ts';
import { isKnownAxle } from './axles.ts';
import { type Look, useLook } from './look.ts';
import { advisedBy, foundIn, sameTrialLook, type Trial, type TrialLook } from './trial.ts';
import { readTrial, writeTrial } from './trialRecord.ts';

export interface TrialsStore {
  /** of every axle, also of those not known here; oldest first */
  readonly trials: readonly Trial[];
  /** newest first; can be brought back */
  readonly deleted: readonly Trial[];
  /** the first fault of each entry that is no trial; they stay on the device, and word for word in the settings */
  readonly unread: readonly Problem[];
  readonly reset: () => void;
}

const NONE_YET = { trials: [], deleted: [], unread: [] } as const;

/** Looks kept for the record of a job. */
export const useTrials = create<TrialsStore>()((set) => ({ ...NONE_YET, reset: () => set(NONE_YET) }));

/**
 * Of all axles known here together. With seven looks before each they take a third of what a browser keeps for one
 * site: looks and own axles need room too.
 */
export const MOST_TRIALS = 100;

/** Reads the trials of this device. */
export function openTrials(storage: DeviceStorage = deviceStorage): void {
  const { stored, problem } = loadStoredTrials(storage);
  const unread: Problem[] = problem === null ? [] : [problem];
  const ids = new Set<string>();
  const read = (entries: readonly unknown[]): readonly Trial[] =>
    entries.flatMap((entry) => {
      const parsed = readTrial(entry);
      if (parsed.ok && !ids.has(parsed.value.id)) {
        ids.add(parsed.value.id);
        return [parsed.value];
      }
      unread.push(
        ...(parsed.ok
          ? [{ field: 'id', value: parsed.value.id, allowed: 'an id that no other trial has' }]
          : parsed.problems),
      );
      keepUnread(storage, { source: 'device', text: JSON.stringify(entry) });
      return [];
    });
  useTrials.setState({ trials: read(stored.kept), deleted: read(stored.deleted), unread });
}

/** Reads them again when another window has changed them. */
export function followTrials(target: Pick<Window, 'addEventListener'>): void {
  target.addEventListener('storage', (event) => {
    if ((event as StorageEvent).key === TRIALS_RECORD.key) openTrials();
  });
}

const lookOf = ({ axleId: _, ...look }: Look): TrialLook => look;

/** The trial that this very look was kept as. */
export const trialOfLook = (trials: readonly Trial[], look: Look): Trial | null =>
  trials.find((trial) => trial.axleId === look.axleId && sameTrialLook(trial.look, look)) ?? null;

export type Kept =
  /** not durable: until the page is closed only */
  | { readonly kind: 'new'; readonly trial: Trial; readonly durable: boolean }
  | {
      readonly kind: 'already';
      readonly trial: Trial;
      readonly durable: boolean;
      readonly noteChanged: boolean;
    }
  | { readonly kind: 'full'; readonly count: number; readonly most: number }
  | { readonly kind: 'refused'; readonly problem: Problem };

/** Keeps an answered look. The very same look is not kept twice: only its note can change. */
export function keepTrial(
  { look, answer }: NonNullable<AnswerStore['answered']>,
  note: string,
  now: Date = new Date(),
  storage: DeviceStorage = deviceStorage,
): Kept {
  // another window may have kept some since
  openTrials(storage);
  const { trials, deleted } = useTrials.getState();
  const already = trialOfLook(trials, look);
  if (already !== null) {
    if (already.note === note.trim())
      return { kind: 'already', trial: already, durable: true, noteChanged: false };
    const changed = { ...already, note: note.trim() };
    const put = putChecked(changed, storage);
    return put.ok
      ? { kind: 'already', trial: changed, durable: put.durable, noteChanged: true }
      : { kind: 'refused', problem: put.problem };
  }
  const count = trials.filter(({ axleId }) => isKnownAxle(axleId)).length;
  if (count >= MOST_TRIALS) return { kind: 'full', count, most: MOST_TRIALS };
  const numbers = [...trials, ...deleted].flatMap((one) => (one.axleId === look.axleId ? [one.number] : []));
  const trial: Trial = {
    id: newId(),
    axleId: look.axleId,
    number: Math.max(0, ...numbers) + 1,
    when: now.toISOString(),
    look: lookOf(look),
    found: foundIn(answer),
    advised: advisedBy(answer),
    note: note.trim(),
  };
  const put = putChecked(trial, storage);
  return put.ok ? { kind: 'new', trial, durable: put.durable } : { kind: 'refused', problem: put.problem };
}

/** Nothing is written that could not be read again. */
function putChecked(trial: Trial, storage: DeviceStorage): Changed {
  const written = writeTrial(trial);
  const back = readTrial(written);
  if (!back.ok) return { ok: false, problem: back.problems[0] };
  return changed(changeStoredTrials(storage, putTrial(written)), storage);
}

function changed(outcome: Changed, storage: DeviceStorage): Changed {
  if (outcome.ok) openTrials(storage);
  return outcome;
}

export const deleteTrial = (id: string, storage: DeviceStorage = deviceStorage): Changed =>
  changed(changeStoredTrials(storage, dropTrial(id)), storage);

export const restoreTrial = (id: string, storage: DeviceStorage = deviceStorage): Changed =>
  changed(changeStoredTrials(storage, bringBackTrial(id)), storage);

/** Puts its look into Match, one step for undo. */
export function openTrial({ axleId, look }: Trial): void {
  useLook.getState().change(axleId, { ...look, earlier: look.earlier.slice(-MOST_EARLIER) });
  useLook.setState({ wet: {} });
}

const ID_CHARACTERS = 'abcdefghijklmnopqrstuvwxyz0123456789';

const newId = (): string =>
  Array.from(
    crypto.getRandomValues(new Uint8Array(12)),
    (byte) => ID_CHARACTERS[byte % ID_CHARACTERS.length],
  ).join('');
