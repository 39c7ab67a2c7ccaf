import type { DeviceStorage } from './device.ts';
import { keepUnread } from './unread.ts';

/** One thing kept on this device under one key, with the version of its form. */
export interface RecordKind<T> {
  readonly key: string;
  readonly version: number;
  /** The value, or undefined when `content` of this `version` (its own or an older one) cannot be read. */
  readonly read: (content: unknown, version: number) => T | undefined;
}

export type LoadedRecord<T> =
  | { readonly found: 'nothing' }
  | { readonly found: 'value'; readonly value: T }
  /** damaged, or written by a newer app; kept aside, see unread.ts */
  | { readonly found: 'unreadable' };

export function loadRecord<T>(storage: DeviceStorage, kind: RecordKind<T>): LoadedRecord<T> {
  const text = storage.get(kind.key);
  if (text === null) return { found: 'nothing' };
  const value = parseRecord(text, kind);
  if (value !== undefined) return { found: 'value', value };
  keepUnread(storage, { source: 'device', text });
  return { found: 'unreadable' };
}

/** False: kept until the page is closed only. */
export function saveRecord<T>(storage: DeviceStorage, kind: RecordKind<T>, content: T): boolean {
  return storage.set(kind.key, JSON.stringify({ version: kind.version, content }));
}

function parseRecord<T>(text: string, kind: RecordKind<T>): T | undefined {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof parsed !== 'object' || parsed === null) return undefined;
  const { version, content } = parsed as { version?: unknown; content?: unknown };
  if (typeof version !== 'number' || version > kind.version) return undefined;
  return kind.read(content, version);
}
