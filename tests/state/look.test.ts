import { beforeEach, describe, expect, it } from 'vitest';
import { blankLook, lookAt, useLook } from '../../src/state/look.ts';
import { LOOKS_RECORD, readMark, writeMark } from '../../src/state/lookRecord.ts';
import { blankMark, ovalMark, sameMark, stroke } from '../../src/state/paintedMark.ts';
import { createDeviceStorage } from '../../src/storage/device.ts';
import { loadRecord, saveRecord } from '../../src/storage/record.ts';
import { seededRandom } from '../support/random.ts';

const DOT = { along: 0.1, across: 0.2 };

describe('a look at an axle', () => {
  beforeEach(() => useLook.getState().reset());

  it('is one entry for undo per stroke, however many steps the stroke had', () => {
    const { preview, commit } = useLook.getState();
    let mark = blankMark();
    for (let k = 0; k < 10; k += 1) {
      mark = stroke(mark, [k / 10, 0], [(k + 1) / 10, 0], DOT, 1);
      preview('drive', mark);
    }
    expect(lookAt(useLook.getState().looks, 'borrin').drive).toBeNull();
    commit('borrin');
    expect(lookAt(useLook.getState().looks, 'borrin').drive).toBe(mark);
    expect(useLook.temporal.getState().pastStates).toHaveLength(1);
    useLook.temporal.getState().undo();
    expect(lookAt(useLook.getState().looks, 'borrin').drive).toBeNull();
    useLook.temporal.getState().redo();
    expect(lookAt(useLook.getState().looks, 'borrin').drive).toBe(mark);
  });

  it('waits while another axle is looked at', () => {
    const { change } = useLook.getState();
    change('borrin', { readings: [0.15] });
    change('cavel', { readings: [0.2, 0.21] });
    expect(lookAt(useLook.getState().looks, 'borrin').readings).toEqual([0.15]);
    expect(lookAt(useLook.getState().looks, 'aldra')).toEqual(blankLook('aldra'));
  });
});

describe('the next look', () => {
  beforeEach(() => useLook.getState().reset());
  const look = () => lookAt(useLook.getState().looks, 'borrin');

  it('keeps the one before with its shims, and begins blank with the new ones', () => {
    const { change, lookAgain } = useLook.getState();
    const drive = ovalMark({ toeHeel: 0, rootFace: 0, length: 0.5, height: 0.5, tilt: 0 });
    change('borrin', { drive, readings: [0.2], gears: 'used' });
    const before = look();
    const fitted = { ...before.fitment, pinionShim: before.fitment.pinionShim - 0.05 };
    lookAgain('borrin', fitted);
    expect(look()).toMatchObject({ drive: null, coast: null, readings: [], gears: 'used', fitment: fitted });
    expect(look().earlier).toEqual([
      { drive, coast: null, readings: [0.2], sureness: 'careful', fitment: before.fitment },
    ]);
    useLook.temporal.getState().undo();
    expect(look()).toEqual(before);
  });

  it('forgets the oldest of many', () => {
    const { change, lookAgain } = useLook.getState();
    for (const reading of [0.1, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18]) {
      change('borrin', { readings: [reading] });
      lookAgain('borrin', look().fitment);
    }
    expect(look().earlier.map(({ readings }) => readings[0])).toEqual([
      0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18,
    ]);
  });
});

describe('what is kept on the device', () => {
  it('brings back earlier looks; a look kept before there were any has none; a broken one is not half read', () => {
    const { axleId: _, ...blank } = blankLook('borrin');
    const kept = (earlier: unknown) => LOOKS_RECORD.read({ borrin: { ...blank, earlier } }, 1);
    const drive = ovalMark({ toeHeel: 0.1, rootFace: 0, length: 0.4, height: 0.6, tilt: 0 });
    const one = { drive, coast: null, readings: [0.17], sureness: 'rough', fitment: blank.fitment } as const;
    const back = kept([{ ...one, drive: writeMark(drive) }])?.looks.borrin.earlier[0];
    expect({ ...back, drive: null }).toEqual({ ...one, drive: null });
    expect(sameMark(back?.drive ?? null, drive)).toBe(true);
    expect(kept(undefined)?.looks.borrin.earlier).toEqual([]);
    expect(kept([{ ...one, drive: null, fitment: { pinionShim: 1 } }])).toBeUndefined();
    expect(kept('none')).toBeUndefined();
  });

  const random = seededRandom(5211);

  it('reads back every mark it wrote, square by square (seed 5211)', () => {
    for (let k = 0; k < 30; k += 1) {
      const columns = 1 + Math.floor(random.between(0, 150));
      const rows = 1 + Math.floor(random.between(0, 60));
      const data = Uint8Array.from({ length: columns * rows }, () => (random.between(0, 1) < 0.5 ? 0 : 1));
      const back = readMark(JSON.parse(JSON.stringify(writeMark({ columns, rows, data }))));
      expect(sameMark(back ?? null, { columns, rows, data })).toBe(true);
    }
  });

  it('keeps aside what it cannot read, and says so', () => {
    const kept = new Map<string, string>();
    const storage = createDeviceStorage(
      () =>
        ({
          getItem: (key: string) => kept.get(key) ?? null,
          setItem: (key: string, value: string) => void kept.set(key, value),
          removeItem: (key: string) => void kept.delete(key),
        }) as unknown as Storage,
    );
    const look = {
      ...blankLook('borrin'),
      drive: writeMark(ovalMark({ toeHeel: 0, rootFace: 0, length: 0.5, height: 0.5, tilt: 0 })),
    };
    saveRecord(storage, LOOKS_RECORD, { borrin: look } as never);
    expect(loadRecord(storage, LOOKS_RECORD).found).toBe('value');
    saveRecord(storage, LOOKS_RECORD, { borrin: look, 'own-gone': { whatever: 1 } } as never);
    const withStranger = loadRecord(storage, LOOKS_RECORD);
    expect(withStranger.found === 'value' && withStranger.value.strangers).toEqual({
      'own-gone': { whatever: 1 },
    });
    for (const damage of [
      { ...look, drive: { columns: 3, rows: 3, bits: '****' } },
      { ...look, drive: { columns: 1e9, rows: 3, bits: '' } },
      { ...look, readings: ['0.15'] },
      { ...look, fitment: { pinionShim: null } },
      'look',
    ]) {
      saveRecord(storage, LOOKS_RECORD, { borrin: damage } as never);
      expect(loadRecord(storage, LOOKS_RECORD).found).toBe('unreadable');
    }
    expect([...kept.values()].some((text) => text.includes('****'))).toBe(true);
  });
});
