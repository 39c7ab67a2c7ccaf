import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { AXLES } from '../../models/index.ts';
import { axleOf, keyOfOwnId } from '../../src/state/axles.ts';
import { type AddressBar, currentHash, followAddress } from '../../src/state/link.ts';
import { chooseAxle, stepPinionShim } from '../../src/state/moves.ts';
import { useNotices } from '../../src/state/notices.ts';
import { deleteFromBench, saveToBench } from '../../src/state/ownAxleBench.ts';
import {
  deleteOwnAxle,
  forgetDeletedAxles,
  newAxleKey,
  openOwnAxles,
  restoreOwnAxle,
  saveOwnAxle,
  useOwnAxles,
} from '../../src/state/ownAxles.ts';
import { redoSetup, undoSetup, useSetup } from '../../src/state/setup.ts';
import { useView } from '../../src/state/view.ts';
import { createDeviceStorage, deviceStorage } from '../../src/storage/device.ts';
import { OWN_AXLES_RECORD } from '../../src/storage/ownAxles.ts';
import { forgetUnread, listUnread } from '../../src/storage/unread.ts';

const KEY = 'k3f9q2zz';
const file = { key: KEY, axle: { ...AXLES.aldra, name: 'Mine', fictional: false } };
const thicker = {
  key: KEY,
  axle: { ...file.axle, gearset: { ...file.axle.gearset, faceWidth: 25.4 } },
};

beforeEach(() => {
  for (const store of [useSetup, useOwnAxles, useNotices, useView]) store.getState().reset();
  deviceStorage.remove(OWN_AXLES_RECORD.key);
  forgetUnread(deviceStorage);
});

const names = () => useOwnAxles.getState().axles.map(({ axle }) => axle.name);

describe('own axles', () => {
  it('come back at the next start, under the same ids', async () => {
    const saved = saveOwnAxle(file);
    expect(keyOfOwnId(saved.id)).toBe(KEY);
    useOwnAxles.getState().reset();
    await openOwnAxles();
    expect(useOwnAxles.getState().axles).toEqual([{ ...file, id: saved.id }]);
    expect(useOwnAxles.getState().unread).toBe(0);
  });

  it('keep their place when they are changed; a former form stays known under its id', () => {
    const first = saveOwnAxle(file);
    saveOwnAxle({ key: newAxleKey(), axle: { ...file.axle, name: 'Other' } });
    const second = saveOwnAxle({ ...thicker, axle: { ...thicker.axle, name: 'Mine, wider' } });
    expect(second.id).not.toBe(first.id);
    expect(names()).toEqual(['Mine, wider', 'Other']);
    expect(axleOf(first.id).axle).toEqual(file.axle);
    expect(() => axleOf(`own-${KEY}-0`)).toThrow(RangeError);
  });

  it('can be deleted and restored, also after the next start', async () => {
    saveOwnAxle(file);
    deleteOwnAxle(KEY);
    expect(names()).toEqual([]);
    useOwnAxles.getState().reset();
    await openOwnAxles();
    expect(useOwnAxles.getState().deleted.map(({ key }) => key)).toEqual([KEY]);
    restoreOwnAxle(KEY);
    expect(names()).toEqual(['Mine']);
    deleteOwnAxle(KEY);
    forgetDeletedAxles();
    await openOwnAxles();
    expect(useOwnAxles.getState()).toMatchObject({ axles: [], deleted: [] });
  });

  it('that cannot be read stay on the device through every change, and are told of', async () => {
    const damaged = { format: 'axle', version: 1, key: 'damaged1', axle: { name: 'half' } };
    deviceStorage.set(
      OWN_AXLES_RECORD.key,
      JSON.stringify({ version: 1, content: { kept: [damaged, 7], deleted: [] } }),
    );
    await openOwnAxles();
    expect(useOwnAxles.getState()).toMatchObject({ axles: [], unread: 2 });
    expect(useNotices.getState().notices).toMatchObject([{ text: 'app.ownAxles.unread' }]);
    expect(listUnread(deviceStorage).map(({ text }) => text)).toEqual(['7', JSON.stringify(damaged)]);
    saveOwnAxle(file);
    deleteOwnAxle(KEY);
    restoreOwnAxle(KEY);
    const { content } = JSON.parse(deviceStorage.get(OWN_AXLES_RECORD.key) ?? '');
    expect(content.kept.slice(0, 2)).toEqual([damaged, 7]);
  });

  it('say so when the browser keeps nothing', () => {
    const refusing = createDeviceStorage(() => undefined);
    saveOwnAxle(file, refusing);
    expect(useOwnAxles.getState().durable).toBe(false);
    expect(useNotices.getState().notices).toMatchObject([{ text: 'app.ownAxles.notDurable' }]);
    expect(names()).toEqual(['Mine']);
  });
});

describe('an own axle on the bench', () => {
  it('that is changed keeps its shims where they still fit, and undo brings the former form back', () => {
    const first = saveToBench(file);
    chooseAxle(first.id);
    stepPinionShim(1);
    const { fitment } = useSetup.getState().live;
    const second = saveToBench(thicker);
    expect(useSetup.getState().live).toMatchObject({ axleId: second.id, fitment });
    undoSetup();
    expect(useSetup.getState().live.axleId).toBe(first.id);
    redoSetup();
    expect(useSetup.getState().live.axleId).toBe(second.id);
    const pinionShim = { ...thicker.axle.pinionShim, fitted: 1.3 };
    const third = saveToBench({ key: KEY, axle: { ...thicker.axle, pinionShim } });
    expect(useSetup.getState().live).toMatchObject({ axleId: third.id, fitment: { pinionShim: 1.3 } });
  });

  it('that is deleted makes room for a practice axle; taking it back puts it on the bench again', () => {
    const saved = saveToBench(file);
    chooseAxle(saved.id);
    const takeBack = deleteFromBench(KEY);
    expect(useSetup.getState().live.axleId).toBe('borrin');
    takeBack();
    expect(useSetup.getState().live.axleId).toBe(saved.id);
    expect(names()).toEqual(['Mine']);
  });
});

describe('a link to an own axle', () => {
  let end = () => {};
  /** outside a browser nothing is kept, which is told of as well */
  const told = () => useNotices.getState().notices.filter(({ id }) => id !== 'app.ownAxles.notDurable');
  afterEach(() => end());

  const open = (hash: string) => {
    const bar: AddressBar & { hash: string } = {
      hash,
      read: () => bar.hash,
      replace: (next) => {
        bar.hash = next;
      },
      listen: () => () => {},
    };
    end = followAddress(bar);
    return bar;
  };
  const linkTo = (id: string) => `/explore?v=1&axle=${id}&pinion=1.3&ring=1.43&opposite=1.55&film=10`;

  it('opens it', () => {
    const { id } = saveOwnAxle(file);
    open(linkTo(id));
    expect(useSetup.getState().live).toMatchObject({ axleId: id, fitment: { pinionShim: 1.3 } });
    expect(told()).toEqual([]);
    expect(currentHash()).toContain(`axle=${id}`);
  });

  it('is told of and kept where the axle is not on the device, and opens once it is imported', () => {
    const { id } = saveOwnAxle(file);
    useOwnAxles.getState().reset();
    const link = linkTo(id);
    open(link);
    expect(useSetup.getState().live.axleId).toBe('borrin');
    expect(told().map(({ kind }) => kind)).toEqual(['own-axle-missing']);
    expect(listUnread(deviceStorage)).toEqual([{ source: 'link', text: link }]);
    saveOwnAxle({ key: 'another1', axle: file.axle });
    expect(useSetup.getState().live.axleId).toBe('borrin');
    saveOwnAxle(file);
    expect(useSetup.getState().live).toMatchObject({ axleId: id, fitment: { pinionShim: 1.3 } });
    expect(told()).toEqual([]);
  });

  it('opens the present form of an axle that was changed since, and says so', () => {
    const { id } = saveOwnAxle(file);
    const changed = saveOwnAxle(thicker);
    open(linkTo(id));
    expect(useSetup.getState().live.axleId).toBe(changed.id);
    expect(told()).toMatchObject([{ kind: 'plain', text: 'app.link.ownAxle.changed' }]);
  });

  it.each(['own-', 'own-k3f9q2zz', 'own-k3f9q2zz-', 'own-K3F9Q2ZZ-1', 'own-k3f9q2zz-12345678'])(
    '%s is no such link: damaged like any other',
    (id) => {
      open(linkTo(id));
      expect(told()).toMatchObject([{ kind: 'link' }]);
    },
  );
});
