import { beforeEach, describe, expect, it } from 'vitest';
import type { MatchAnswer } from '../../sim/worker/diagnoseProtocol.ts';
import { blankLook, type Look, lookAt, useLook } from '../../src/state/look.ts';
import { ovalMark } from '../../src/state/paintedMark.ts';
import type { Trial } from '../../src/state/trial.ts';
import { writeTrial } from '../../src/state/trialRecord.ts';
import {
  deleteTrial,
  keepTrial,
  MOST_TRIALS,
  openTrial,
  openTrials,
  restoreTrial,
  trialOfLook,
  useTrials,
} from '../../src/state/trials.ts';
import { createDeviceStorage, type DeviceStorage } from '../../src/storage/device.ts';
import { changeStoredTrials, TRIALS_RECORD } from '../../src/storage/trials.ts';
import { listUnread } from '../../src/storage/unread.ts';

/** Storage that lasts; `room` in characters as browsers limit it. */
function device(room = Number.POSITIVE_INFINITY) {
  const kept = new Map<string, string>();
  const used = () => [...kept.values()].reduce((sum, text) => sum + text.length, 0);
  const storage = createDeviceStorage(
    () =>
      ({
        getItem: (key: string) => kept.get(key) ?? null,
        setItem: (key: string, value: string) => {
          if (used() - (kept.get(key)?.length ?? 0) + value.length > room) throw new Error('no room');
          kept.set(key, value);
        },
        removeItem: (key: string) => void kept.delete(key),
      }) as unknown as Storage,
  );
  return { kept, storage };
}

const spread = (mean: number, sd: number) => ({ mean, sd });

const expected = {
  drive: { toeHeel: spread(-0.1, 0.05), rootFace: spread(0.02, 0.08) },
  coast: { toeHeel: spread(Number.NaN, 0), rootFace: spread(Number.NaN, 0) },
  backlash: spread(0.1512345678, 0.012),
  allMet: 1.0000000000000002,
};

/** Of an answer only what a trial keeps. */
const ANSWER = {
  diagnosis: {
    pose: {
      pinionIn: spread(0.0987654321, 0.03),
      ringAway: spread(-0.02, 0.01),
      offsetError: spread(-0, 0.02),
      shaftAngleError: spread(0.01, 0.02),
    },
    shimmable: null,
  },
  advice: {
    kind: 'change',
    now: expected,
    change: {
      fitment: { pinionShim: 1.25, ringSide: 5.86, oppositeSide: 6.14 },
      move: { pinionIn: -0.1, ringAway: 0 },
      expected,
    },
  },
} as unknown as MatchAnswer;

const lookWith = (reading: number, axleId = 'borrin'): Look => ({
  ...blankLook(axleId),
  drive: ovalMark({ toeHeel: 0.2, rootFace: 0, length: 0.5, height: 0.5, tilt: 0 }),
  readings: [reading],
});

const NOON = new Date('2031-05-04T12:00:00.000Z');

const keep = (look: Look, storage: DeviceStorage, note = '') =>
  keepTrial({ look, answer: ANSWER }, note, NOON, storage);

const kept = (look: Look, storage: DeviceStorage, note = ''): Trial => {
  const outcome = keep(look, storage, note);
  if (outcome.kind !== 'new') throw new Error(outcome.kind);
  return outcome.trial;
};

const numbers = () => useTrials.getState().trials.map(({ axleId, number }) => `${axleId} ${number}`);

beforeEach(() => {
  useTrials.getState().reset();
  useLook.getState().reset();
});

describe('a look kept as a trial', () => {
  it('holds what was seen, found and advised, and comes back from the device', () => {
    const { storage } = device();
    const look = lookWith(0.15);
    const trial = kept(look, storage, '  first setting ');
    const { axleId: _, ...seen } = look;
    expect(trial).toMatchObject({
      axleId: 'borrin',
      number: 1,
      when: NOON.toISOString(),
      note: 'first setting',
    });
    expect(trial.look).toEqual(seen);
    expect(trial.found.pose.pinionIn).toEqual({ mean: 0.098765, sd: 0.03 });
    expect(trial.advised).toEqual({
      kind: 'change',
      fitment: { pinionShim: 1.25, ringSide: 5.86, oppositeSide: 6.14 },
      move: { pinionIn: -0.1, ringAway: 0 },
      predicted: {
        drive: { toeHeel: spread(-0.1, 0.05), rootFace: spread(0.02, 0.08) },
        coast: { toeHeel: null, rootFace: null },
        dial: spread(0.151235, 0.012),
        allRight: 1,
      },
    });
    useTrials.getState().reset();
    openTrials(storage);
    expect(useTrials.getState().trials).toEqual([trial]);
  });

  it('says what is to be seen with the present shims where they are to stay, and nothing of a contradiction', () => {
    const { storage } = device();
    const withAdvice = (advice: unknown) => ({ ...ANSWER, advice }) as MatchAnswer;
    const leave = keepTrial(
      { look: lookWith(0.1), answer: withAdvice({ kind: 'leave', now: expected, change: null }) },
      '',
      NOON,
      storage,
    );
    expect(leave).toMatchObject({
      trial: { advised: { kind: 'leave', fitment: null, move: null, predicted: { allRight: 1 } } },
    });
    const refused = keepTrial(
      { look: lookWith(0.2), answer: withAdvice({ kind: 'refused', readings: ['drive'] }) },
      '',
      NOON,
      storage,
    );
    expect(refused).toMatchObject({ trial: { advised: { kind: 'refused', predicted: null } } });
  });

  it('is not kept twice: only its note changes', () => {
    const { storage } = device();
    const trial = kept(lookWith(0.15), storage, 'a');
    expect(keep(lookWith(0.15), storage, 'a ')).toMatchObject({ kind: 'already', noteChanged: false });
    expect(keep(lookWith(0.15), storage, 'b')).toMatchObject({
      kind: 'already',
      noteChanged: true,
      trial: { id: trial.id, number: 1 },
    });
    openTrials(storage);
    expect(useTrials.getState().trials).toEqual([{ ...trial, note: 'b' }]);
  });

  it('is another one when anything the answer rests on differs', () => {
    const { storage } = device();
    const look = lookWith(0.15);
    kept(look, storage);
    const { drive, coast, readings, sureness, fitment } = look;
    const others: readonly Look[] = [
      { ...look, readings: [0.15, 0.15] },
      { ...look, fitment: { ...fitment, ringSide: fitment.ringSide + 0.05 } },
      { ...look, coast: drive },
      { ...look, gears: 'used' },
      { ...look, cut: 'unknown' },
      { ...look, sureness: 'rough' },
      { ...look, manner: look.manner === 'square' ? 'tangential' : 'square' },
      { ...look, recorded: { drive, coast, readings, sureness } },
      { ...look, earlier: [{ drive, coast, readings, sureness, fitment }] },
    ];
    for (const other of others) expect(keep(other, storage).kind).toBe('new');
    expect(useTrials.getState().trials).toHaveLength(others.length + 1);
    for (const one of [look, ...others]) expect(trialOfLook(useTrials.getState().trials, one)).not.toBeNull();
  });

  it('has the number of its axle; no number comes twice, also after one is deleted and brought back', () => {
    const { storage } = device();
    kept(lookWith(0.1), storage);
    const second = kept(lookWith(0.11), storage);
    kept(lookWith(0.1, 'cavel'), storage);
    expect(deleteTrial(second.id, storage)).toEqual({ ok: true, durable: true });
    expect(useTrials.getState().deleted).toEqual([second]);
    kept(lookWith(0.12), storage);
    restoreTrial(second.id, storage);
    expect(numbers()).toEqual(['borrin 1', 'cavel 1', 'borrin 3', 'borrin 2']);
    expect(useTrials.getState().deleted).toEqual([]);
  });

  it('opens as one step for undo, with wet paint gone', () => {
    const { storage } = device();
    const { change, preview } = useLook.getState();
    const look = lookWith(0.15);
    const trial = kept(look, storage);
    change('borrin', { readings: [0.3], drive: null });
    const before = lookAt(useLook.getState().looks, 'borrin');
    preview('coast', ovalMark({ toeHeel: 0, rootFace: 0, length: 0.1, height: 0.1, tilt: 0 }));
    openTrial(trial);
    expect(lookAt(useLook.getState().looks, 'borrin')).toEqual(look);
    expect(useLook.getState().wet).toEqual({});
    useLook.temporal.getState().undo();
    expect(lookAt(useLook.getState().looks, 'borrin')).toBe(before);
  });

  it('with a note that is too long is refused by name, and nothing is kept', () => {
    const { storage, kept: lies } = device();
    expect(keep(lookWith(0.1), storage, 'n'.repeat(201))).toMatchObject({
      kind: 'refused',
      problem: { field: 'note', allowed: 'a text of at most 200 characters' },
    });
    expect(lies.size).toBe(0);
  });
});

describe('the trials of a device', () => {
  const ID = 'abcdefghijkl';
  const numbered = (trial: Trial, k: number): Trial => ({
    ...trial,
    id: k.toString(36).padStart(12, '0'),
    number: k + 1,
    look: { ...trial.look, readings: [k / 1000] },
  });
  const fill = (storage: DeviceStorage, count: number, axleId: string): readonly Trial[] => {
    const trial = kept(lookWith(9, axleId), device().storage);
    const all = Array.from({ length: count }, (_, k) => numbered(trial, k));
    changeStoredTrials(storage, ({ deleted }) => ({ kept: all.map(writeTrial), deleted }));
    return all;
  };

  it('are at most so many: the next is refused with the figure, none gives way', () => {
    const { storage } = device();
    const all = fill(storage, MOST_TRIALS, 'borrin');
    expect(keep(lookWith(5), storage)).toEqual({ kind: 'full', count: MOST_TRIALS, most: MOST_TRIALS });
    expect(useTrials.getState().trials.map(({ id }) => id)).toEqual(all.map(({ id }) => id));
    // one that is there already is still said to be
    expect(keep(lookWith(0.003), storage).kind).toBe('already');
    deleteTrial(all[7].id, storage);
    expect(keep(lookWith(5), storage).kind).toBe('new');
  });

  it('of an axle that is not known here stay, and take no room from the others: nobody could delete them', () => {
    const { storage } = device();
    const strangers = fill(storage, MOST_TRIALS, 'borrin').map((one) => ({
      ...one,
      axleId: 'own-abcdefgh-1',
    }));
    changeStoredTrials(storage, () => ({ kept: strangers.map(writeTrial), deleted: [] }));
    kept(lookWith(0.1), storage);
    openTrials(storage);
    expect(
      useTrials
        .getState()
        .trials.slice(0, MOST_TRIALS)
        .map(({ id }) => id),
    ).toEqual(strangers.map(({ id }) => id));
  });

  it('that another window kept are not written over', () => {
    const { storage } = device();
    const first = kept(lookWith(0.1), storage);
    useTrials.getState().reset();
    const second = kept(lookWith(0.2), storage);
    expect(second.number).toBe(2);
    expect(useTrials.getState().trials).toEqual([first, second]);
  });

  it('that cannot be read are told by field, kept aside and left where they are through every change', () => {
    const { storage, kept: lies } = device();
    const broken = [
      { id: ID, axleId: 'borrin' },
      'nonsense',
      { ...writeTrial(fill(storage, 1, 'borrin')[0]), number: 0 },
    ];
    changeStoredTrials(storage, () => ({ kept: broken, deleted: [] }));
    openTrials(storage);
    expect(useTrials.getState().unread.map(({ field }) => field)).toEqual(['number', '', 'number']);
    const trial = kept(lookWith(0.4), storage);
    deleteTrial(trial.id, storage);
    restoreTrial(trial.id, storage);
    deleteTrial(trial.id, storage);
    const content = JSON.parse(lies.get(TRIALS_RECORD.key) ?? '').content;
    expect(content.kept).toEqual(JSON.parse(JSON.stringify(broken)));
    expect(listUnread(storage).map(({ text }) => text)).toContain('"nonsense"');
  });

  it('two with one id are not shown as two, nor is either lost', () => {
    const { storage, kept: lies } = device();
    const [one] = fill(storage, 1, 'borrin');
    const twice = [one, { ...one, number: 2 }].map(writeTrial);
    changeStoredTrials(storage, () => ({ kept: twice, deleted: [] }));
    openTrials(storage);
    expect(useTrials.getState().trials).toEqual([one]);
    expect(useTrials.getState().unread).toMatchObject([{ field: 'id', value: one.id }]);
    deleteTrial(one.id, storage);
    const { content } = JSON.parse(lies.get(TRIALS_RECORD.key) ?? '');
    expect([...content.kept, ...content.deleted]).toHaveLength(2);
  });

  it('written by a newer app are refused and left alone', () => {
    const { storage, kept: lies } = device();
    const text = JSON.stringify({ version: 2, content: { something: 'else' } });
    lies.set(TRIALS_RECORD.key, text);
    openTrials(storage);
    expect(useTrials.getState().unread).toEqual([{ field: 'version', value: '2', allowed: 'at most 1' }]);
    expect(keep(lookWith(0.1), storage)).toMatchObject({ kind: 'refused', problem: { field: 'version' } });
    expect(deleteTrial(ID, storage).ok).toBe(false);
    expect(lies.get(TRIALS_RECORD.key)).toBe(text);
  });

  it.each(['{', 'null', '7', '{"version":1,"content":[]}', '{"content":{"kept":[],"deleted":[]}}'])(
    'damaged as a whole (%s) are told, kept aside word for word and then written over',
    (text) => {
      const { storage, kept: lies } = device();
      lies.set(TRIALS_RECORD.key, text);
      openTrials(storage);
      expect(useTrials.getState().unread).toHaveLength(1);
      kept(lookWith(0.1), storage);
      expect(listUnread(storage)).toEqual([{ source: 'device', text }]);
      openTrials(storage);
      expect(useTrials.getState()).toMatchObject({ unread: [], trials: [{ number: 1 }] });
    },
  );

  it('damaged as a whole and too large to be kept aside are not written over', () => {
    const { storage, kept: lies } = device();
    const text = `{${'x'.repeat(600_000)}`;
    lies.set(TRIALS_RECORD.key, text);
    expect(keep(lookWith(0.1), storage).kind).toBe('refused');
    expect(lies.get(TRIALS_RECORD.key)).toBe(text);
  });

  it('for which the browser has no room are kept until the page is closed, and that is said', () => {
    const { storage } = device(1000);
    expect(keep(lookWith(0.1), storage)).toMatchObject({ kind: 'new', durable: false });
    expect(numbers()).toEqual(['borrin 1']);
  });
});
