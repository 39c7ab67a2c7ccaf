import { describe, expect, it } from 'vitest';
import { createDeviceStorage } from '../../src/storage/device.ts';
import { loadRecord, type RecordKind, saveRecord } from '../../src/storage/record.ts';
import { keepUnread, listUnread } from '../../src/storage/unread.ts';

const inMemory = () => createDeviceStorage(() => undefined);

const KIND: RecordKind<{ size: number }> = {
  key: 'test.size',
  version: 2,
  read: (content, version) => {
    const size = (content as { size?: unknown; width?: unknown } | null)?.[version === 1 ? 'width' : 'size'];
    return typeof size === 'number' ? { size } : undefined;
  },
};

describe('records on this device', () => {
  it('come back as saved', () => {
    const storage = inMemory();
    expect(loadRecord(storage, KIND)).toEqual({ found: 'nothing' });
    saveRecord(storage, KIND, { size: 3 });
    expect(loadRecord(storage, KIND)).toEqual({ found: 'value', value: { size: 3 } });
  });

  it('of an older version are read by it', () => {
    const storage = inMemory();
    storage.set(KIND.key, '{"version":1,"content":{"width":4}}');
    expect(loadRecord(storage, KIND)).toEqual({ found: 'value', value: { size: 4 } });
  });

  it.each([
    ['no JSON', '{'],
    ['no record', '7'],
    ['a newer version', '{"version":3,"content":{"size":3}}'],
    ['damaged content', '{"version":2,"content":null}'],
  ])('with %s are kept aside word for word', (_, text) => {
    const storage = inMemory();
    storage.set(KIND.key, text);
    expect(loadRecord(storage, KIND)).toEqual({ found: 'unreadable' });
    expect(listUnread(storage)).toEqual([{ source: 'device', text }]);
  });

  it('live in memory where the browser refuses storage', () => {
    const refusing = createDeviceStorage(() => {
      throw new Error('refused');
    });
    refusing.set('a', '1');
    expect(refusing.get('a')).toBe('1');
    refusing.remove('a');
    expect(refusing.get('a')).toBeNull();
  });
});

describe('what could not be read', () => {
  it('is kept newest first, each text once, twenty at most', () => {
    const storage = inMemory();
    for (let index = 0; index < 25; index += 1)
      keepUnread(storage, { source: 'link', text: `link ${index}` });
    keepUnread(storage, { source: 'link', text: 'link 20' });
    const kept = listUnread(storage).map(({ text }) => text);
    expect(kept.length).toBe(20);
    expect(kept.slice(0, 3)).toEqual(['link 20', 'link 24', 'link 23']);
  });
});
