import { beforeEach, describe, expect, it } from 'vitest';
import { AXLE_FIELDS } from '../../models/axleFields.ts';
import { defaultsOf } from '../../models/field.ts';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { parseAxle } from '../../models/schema.ts';
import {
  type AxleDraft,
  counts,
  draftField,
  draftOf,
  jsonOf,
  nameOfPath,
  newDraft,
  withAssumed,
  withEntry,
} from '../../src/state/axleDraft.ts';
import { AXLE_DRAFTS_RECORD, keepDrafts, openDraft, useAxleDrafts } from '../../src/state/axleDrafts.ts';
import { createDeviceStorage } from '../../src/storage/device.ts';
import { loadRecord } from '../../src/storage/record.ts';

const inMemory = () => createDeviceStorage(() => undefined);
const set = (draft: AxleDraft, ...changes: [string, AxleDraft['entries'][string]][]): AxleDraft =>
  changes.reduce((next, [name, entry]) => withEntry(next, name, entry), draft);

describe('a draft', () => {
  it.each(AXLE_IDS)('of %s writes the same axle again', (id) => {
    const draft = draftOf(AXLES[id], { key: 'k3f9q2zz', changes: true, source: null });
    expect(parseAxle(jsonOf(draft.entries))).toEqual({ ok: true, value: AXLES[id] });
  });

  it('from a caliper starts from the stated defaults, none of them given', () => {
    const draft = newDraft('k3f9q2zz');
    expect(jsonOf(draft.entries)).toEqual(defaultsOf(AXLE_FIELDS));
    expect(draft.given).toEqual([]);
  });

  it('keeps what belongs to another choice, and hands on what means the same', () => {
    const shims = set(
      newDraft('k'),
      ['sides.ringSide.fitted@outboard-shims', 2.31],
      ['sides.ringSide.stock.step@outboard-shims', 0.05],
    );
    const inboard = set(shims, ['sides.ringSide.kind', 'inboard-shims']);
    expect(inboard.entries['sides.ringSide.fitted@inboard-shims']).toBe(2.31);
    expect(inboard.entries['sides.ringSide.stock.step@inboard-shims']).toBe(0.05);
    // mm of shim are no notches
    const adjuster = set(inboard, ['sides.ringSide.kind', 'adjuster']);
    expect(adjuster.entries['sides.ringSide.fitted@adjuster']).toBe(66);
    const back = set(adjuster, ['sides.ringSide.kind', 'outboard-shims']);
    expect(back.entries['sides.ringSide.fitted@outboard-shims']).toBe(2.31);
    expect(counts(draftField('sides.ringSide.fitted@adjuster'), back.entries)).toBe(false);
    expect(nameOfPath('sides.ringSide.fitted', back.entries)).toBe('sides.ringSide.fitted@outboard-shims');
  });

  it('takes the fitted shim for the design one until that is given', () => {
    const fitted = set(newDraft('k'), ['pinionShim.fitted', 1.234]);
    expect(fitted.entries['pinionShim.design']).toBe(1.234);
    const both = set(fitted, ['pinionShim.design', 1.3], ['pinionShim.fitted', 1.5]);
    expect(both.entries['pinionShim.design']).toBe(1.3);
    expect(fitted.given).toEqual(['pinionShim.fitted']);
  });

  it('takes the design backlash at the middle of the limits, and uniform depth with a hobbing cutter', () => {
    const draft = set(
      newDraft('k'),
      ['limits.backlash.min', 0.15],
      ['limits.backlash.max', 0.25],
      ['gearset.cut.method', 'face-hobbed'],
    );
    expect(draft.entries['gearset.backlash']).toBe(0.2);
    expect(draft.entries['gearset.tooth.depthTaper']).toBe(0);
  });

  it('assumes nothing over what the user gave', () => {
    const draft = set(newDraft('k'), ['gearset.pinionSpiralAngle', 45]);
    const assumed = withAssumed(draft, { 'gearset.pinionSpiralAngle': 50, 'gearset.faceWidth': 33 });
    expect(assumed.entries['gearset.pinionSpiralAngle']).toBe(45);
    expect(assumed.entries['gearset.faceWidth']).toBe(33);
    expect(assumed.given).toEqual(['gearset.pinionSpiralAngle']);
  });

  it('leaves what is no value yet out of the file', () => {
    const typed = set(newDraft('k'), ['gearset.faceWidth', { typed: '3o', unit: 'mm' }]);
    const parsed = parseAxle(jsonOf(typed.entries));
    expect(parsed).toMatchObject({ ok: false, problems: [{ field: 'gearset.faceWidth', value: 'missing' }] });
  });
});

describe('unfinished axles', () => {
  beforeEach(() => useAxleDrafts.getState().reset());
  const { begin, change, rest, undo, redo, close, discard } = useAxleDrafts.getState();
  const enter = (name: string, entry: AxleDraft['entries'][string]) =>
    change(name, (draft) => withEntry(draft, name, entry));
  const faceWidth = () => openDraft(useAxleDrafts.getState())?.entries['gearset.faceWidth'];

  it('are on the device with everything that was typed when the page goes', () => {
    const storage = inMemory();
    const pages: (() => void)[] = [];
    keepDrafts(storage, { addEventListener: ((_: string, flush: () => void) => pages.push(flush)) as never });
    begin(newDraft('k3f9q2zz'));
    enter('gearset.faceWidth', { typed: '1 1/4', unit: 'in' });
    enter('name', '');
    for (const leave of pages) leave();
    const loaded = loadRecord(storage, AXLE_DRAFTS_RECORD);
    expect(loaded).toEqual({ found: 'value', value: useAxleDrafts.getState().drafts });
    discard('k3f9q2zz');
    for (const leave of pages) leave();
    expect(loadRecord(storage, AXLE_DRAFTS_RECORD)).toEqual({ found: 'nothing' });
  });

  it('that are damaged are kept aside word for word', () => {
    const storage = inMemory();
    storage.set(AXLE_DRAFTS_RECORD.key, '{"version":1,"content":[{"key":7}]}');
    expect(loadRecord(storage, AXLE_DRAFTS_RECORD)).toEqual({ found: 'unreadable' });
  });

  it('gain the fields that a later form added', () => {
    const { 'gearset.faceWidth': _, ...entries } = newDraft('k').entries;
    const storage = inMemory();
    const content = [{ ...newDraft('k'), entries: { ...entries, gone: 1 }, given: ['gone'] }];
    storage.set(AXLE_DRAFTS_RECORD.key, JSON.stringify({ version: 1, content }));
    expect(loadRecord(storage, AXLE_DRAFTS_RECORD)).toEqual({ found: 'value', value: [newDraft('k')] });
  });

  it('are taken up where they were left, once for each axle', () => {
    begin(draftOf(AXLES.aldra, { key: 'aaaaaaaa', changes: true, source: null }));
    enter('gearset.faceWidth', 26);
    close();
    begin(newDraft('bbbbbbbb'));
    begin(draftOf(AXLES.aldra, { key: 'aaaaaaaa', changes: true, source: null }));
    expect(faceWidth()).toBe(26);
    expect(useAxleDrafts.getState().drafts.map(({ key }) => key)).toEqual(['bbbbbbbb', 'aaaaaaaa']);
  });

  it('come back when they were thrown away', () => {
    begin(newDraft('aaaaaaaa'));
    begin(newDraft('bbbbbbbb'));
    enter('gearset.faceWidth', 30);
    const before = useAxleDrafts.getState().drafts;
    const takeBack = discard('bbbbbbbb');
    expect(useAxleDrafts.getState()).toMatchObject({ open: null, drafts: [{ key: 'aaaaaaaa' }] });
    takeBack();
    expect(useAxleDrafts.getState().drafts).toEqual(before);
  });

  it('undo a field at a time, not a key at a time', () => {
    begin(newDraft('k'));
    enter('gearset.faceWidth', 3);
    enter('gearset.faceWidth', 33);
    rest();
    enter('gearset.faceWidth', 34);
    enter('gearset.ringTeeth', 45);
    undo();
    expect(faceWidth()).toBe(34);
    undo();
    expect(faceWidth()).toBe(33);
    undo();
    expect(faceWidth()).toBe(31.5);
    redo();
    redo();
    expect(faceWidth()).toBe(34);
    enter('gearset.faceWidth', 35);
    expect(useAxleDrafts.getState().future).toEqual([]);
  });
});
