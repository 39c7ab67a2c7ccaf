import { create } from 'zustand';
import { type AxleFile, axleFileJson } from '../../models/axleFileForm.ts';
import type { Parsed } from '../../models/problem.ts';
import { type DeviceStorage, deviceStorage } from '../storage/device.ts';
import {
  changeStoredAxles,
  deleteStored,
  forgetDeletedStored,
  loadStoredAxles,
  OWN_AXLES_RECORD,
  putStored,
  restoreStored,
} from '../storage/ownAxles.ts';
import type { StoredList } from '../storage/storedList.ts';
import { keepUnread } from '../storage/unread.ts';
import { type KnownAxle, keyOfOwnId, knowOwnAxle } from './axles.ts';
import { useNotices } from './notices.ts';

export interface OwnAxlesStore {
  /** in the order they were made */
  readonly axles: readonly KnownAxle[];
  /** newest first; can be restored */
  readonly deleted: readonly KnownAxle[];
  /** entries on the device that are no axle; they stay there, and word for word in the settings */
  readonly unread: number;
  /** false: the browser keeps nothing, so they are gone when the page is closed */
  readonly durable: boolean;
  readonly reset: () => void;
}

const NONE_YET = { axles: [], deleted: [], unread: 0, durable: true } as const;

/** The user's own axles. Whoever opens a link reads it after `openOwnAxles`. */
export const useOwnAxles = create<OwnAxlesStore>()((set) => ({
  ...NONE_YET,
  reset: () => set(NONE_YET),
}));

/** The axle of this key as it is now; null when it is not on this device. */
export const presentForm = (key: string): KnownAxle | null =>
  useOwnAxles.getState().axles.find((axle) => axle.key === key) ?? null;

/** The id that a link asks for, as far as this device knows it. */
export function findOwnAxle(id: string): { readonly found: KnownAxle | null; readonly changed: boolean } {
  const key = keyOfOwnId(id);
  const found = key === null ? null : presentForm(key);
  return { found, changed: found !== null && found.id !== id };
}

/**
 * Reads the own axles of this device, before the first link is read. Without any, which is every first visit, nothing is
 * fetched; with some, the schema that checks them.
 */
export async function openOwnAxles(storage: DeviceStorage = deviceStorage): Promise<void> {
  const stored = loadStoredAxles(storage);
  if (stored.kept.length === 0 && stored.deleted.length === 0) {
    useOwnAxles.setState({ axles: [], deleted: [], unread: 0 });
    return;
  }
  try {
    const { parseAxleFile } = await import('../../models/axleFile.ts');
    show(stored, parseAxleFile, storage);
  } catch {
    // without the schema none is taken on trust; they stay where they are until the next start
    useOwnAxles.setState({ axles: [], deleted: [], unread: stored.kept.length });
  }
  if (useOwnAxles.getState().unread > 0) tell('app.ownAxles.unread');
}

const tell = (text: 'app.ownAxles.unread' | 'app.ownAxles.notDurable'): void =>
  useNotices.getState().show({ id: text, kind: 'plain', text });

/** Reads them again when another window has changed them. */
export function followOwnAxles(target: Pick<Window, 'addEventListener'>): void {
  target.addEventListener('storage', (event) => {
    if ((event as StorageEvent).key === OWN_AXLES_RECORD.key) void openOwnAxles();
  });
}

/** Keeps an axle, in the place of the one with its key. */
export function saveOwnAxle(file: AxleFile, storage: DeviceStorage = deviceStorage): KnownAxle {
  const durable = changeStoredAxles(storage, putStored(axleFileJson(file)));
  const saved = knowOwnAxle(file);
  const { axles, deleted } = useOwnAxles.getState();
  const place = axles.findIndex(({ key }) => key === file.key);
  useOwnAxles.setState({
    axles: place === -1 ? [...axles, saved] : axles.with(place, saved),
    deleted: deleted.filter(({ key }) => key !== file.key),
    durable,
  });
  if (!durable) tell('app.ownAxles.notDurable');
  return saved;
}

export function deleteOwnAxle(key: string, storage: DeviceStorage = deviceStorage): void {
  const durable = changeStoredAxles(storage, deleteStored(key));
  const { axles, deleted } = useOwnAxles.getState();
  const gone = axles.filter((axle) => axle.key === key);
  useOwnAxles.setState({
    axles: axles.filter((axle) => axle.key !== key),
    deleted: [...gone, ...deleted.filter((axle) => axle.key !== key)],
    durable,
  });
}

export function restoreOwnAxle(key: string, storage: DeviceStorage = deviceStorage): void {
  const durable = changeStoredAxles(storage, restoreStored(key));
  const { axles, deleted } = useOwnAxles.getState();
  const back = deleted.filter((axle) => axle.key === key);
  useOwnAxles.setState({
    axles: [...axles.filter((axle) => axle.key !== key), ...back],
    deleted: deleted.filter((axle) => axle.key !== key),
    durable,
  });
}

export function forgetDeletedAxles(storage: DeviceStorage = deviceStorage): void {
  useOwnAxles.setState({ deleted: [], durable: changeStoredAxles(storage, forgetDeletedStored) });
}

const KEY_CHARACTERS = 'abcdefghijklmnopqrstuvwxyz0123456789';

/** A key that no other axle has. */
export const newAxleKey = (): string =>
  Array.from(
    crypto.getRandomValues(new Uint8Array(8)),
    (byte) => KEY_CHARACTERS[byte % KEY_CHARACTERS.length],
  ).join('');

function show(stored: StoredList, parse: (json: unknown) => Parsed<AxleFile>, storage: DeviceStorage): void {
  let unread = 0;
  const read = (entries: readonly unknown[]): readonly KnownAxle[] =>
    entries.flatMap((entry) => {
      const parsed = parse(entry);
      if (parsed.ok) return [knowOwnAxle(parsed.value)];
      unread += 1;
      keepUnread(storage, { source: 'device', text: JSON.stringify(entry) });
      return [];
    });
  useOwnAxles.setState({ axles: read(stored.kept), deleted: read(stored.deleted), unread });
}
