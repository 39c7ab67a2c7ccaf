import type { DeviceStorage } from './device.ts';

/** Something the app was given and could not (fully) read, kept word for word so that nothing is lost. */
export interface UnreadItem {
  /** a link that was opened, or a record found on this device */
  readonly source: 'link' | 'device';
  readonly text: string;
}

const KEY = 'meshwitness.unread';
const MOST_ITEMS = 20;
/** of all items together: a tenth or so of what a browser keeps for one site */
const MOST_CHARACTERS = 500_000;

export function listUnread(storage: DeviceStorage): readonly UnreadItem[] {
  const text = storage.get(KEY);
  if (text === null) return [];
  try {
    const parsed: unknown = JSON.parse(text);
    return Array.isArray(parsed) ? parsed.filter(isUnreadItem) : [];
  } catch {
    return [];
  }
}

/** Puts the newest first; the same text is kept once, the oldest make room after twenty or when the room is full. */
export function keepUnread(storage: DeviceStorage, item: UnreadItem): void {
  const bounded = { ...item, text: item.text.slice(0, MOST_CHARACTERS) };
  const others = listUnread(storage).filter((other) => other.text !== bounded.text);
  let room = MOST_CHARACTERS;
  const kept = [bounded, ...others].slice(0, MOST_ITEMS).filter(({ text }) => {
    room -= text.length;
    return room >= 0;
  });
  storage.set(KEY, JSON.stringify(kept));
}

export function forgetUnread(storage: DeviceStorage): void {
  storage.remove(KEY);
}

function isUnreadItem(value: unknown): value is UnreadItem {
  if (typeof value !== 'object' || value === null) return false;
  const { source, text } = value as Record<string, unknown>;
  return (source === 'link' || source === 'device') && typeof text === 'string';
}
