import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type AddressBar, followAddress } from '../../src/state/link.ts';
import { stepPinionShim } from '../../src/state/moves.ts';
import { useNotices } from '../../src/state/notices.ts';
import { usePreferences } from '../../src/state/preferences.ts';
import { setupAsFound, useSetup } from '../../src/state/setup.ts';
import { useView } from '../../src/state/view.ts';
import { deviceStorage } from '../../src/storage/device.ts';
import { forgetUnread, listUnread } from '../../src/storage/unread.ts';

/** An address bar that a test can read and type into. */
function addressBar(hash: string) {
  const listeners = new Set<() => void>();
  const bar: AddressBar & { hash: string; written: string[]; type: (typed: string) => void } = {
    hash,
    written: [],
    read: () => bar.hash,
    replace: (next) => {
      bar.hash = next;
      bar.written.push(next);
    },
    listen: (changed) => {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    type: (typed) => {
      bar.hash = typed;
      for (const changed of listeners) changed();
    },
  };
  return bar;
}

let end = () => {};

beforeEach(() => {
  for (const store of [useSetup, usePreferences, useView, useNotices]) store.getState().reset();
  forgetUnread(deviceStorage);
});
afterEach(() => end());

describe('links', () => {
  it('open with the state they carry, without an entry for undo', () => {
    const bar = addressBar('/explore?v=1&axle=cavel&pinion=1.65&contours=on&units=in');
    end = followAddress(bar);
    expect(useSetup.getState().live).toEqual({
      ...setupAsFound('cavel'),
      fitment: { ...setupAsFound('cavel').fitment, pinionShim: 1.65 },
    });
    expect(useView.getState().contours).toBe(true);
    expect(usePreferences.getState().units).toBe('in');
    expect(useSetup.temporal.getState().pastStates).toEqual([]);
    expect(useNotices.getState().notices).toEqual([]);
  });

  it('are kept up to date at the end of a change, not during it', () => {
    const bar = addressBar('');
    end = followAddress(bar);
    const before = bar.written.length;
    useSetup.getState().preview({ film: 0.02 });
    useSetup.getState().preview({ film: 0.021 });
    expect(bar.written.length).toBe(before);
    useSetup.getState().commit();
    expect(bar.written.length).toBe(before + 1);
    expect(bar.hash).toContain('film=21');
    useView.getState().goHome('coast');
    expect(bar.hash).toContain('camera=coast');
  });

  it('bring another page to the same state', () => {
    const first = addressBar('');
    end = followAddress(first);
    stepPinionShim(1);
    useSetup.getState().apply({ shaftAngleError: -0.0375 });
    const there = useSetup.getState().live;
    end();
    useSetup.getState().reset();
    end = followAddress(addressBar(first.hash));
    expect(useSetup.getState().live).toEqual(there);
  });

  it('typed into the open app can be undone', () => {
    const bar = addressBar('');
    end = followAddress(bar);
    bar.type('/explore?axle=aldra');
    expect(useSetup.getState().live.axleId).toBe('aldra');
    expect(useSetup.temporal.getState().pastStates.length).toBe(1);
  });

  it('that are damaged give a notice and are kept word for word', () => {
    const damaged = '/explore?v=1&axle=cavel&pinion=thick';
    const bar = addressBar(damaged);
    end = followAddress(bar);
    expect(useSetup.getState().live).toEqual(setupAsFound('cavel'));
    expect(useNotices.getState().notices).toMatchObject([
      { kind: 'link', problems: [{ part: 'pinion', found: 'thick' }] },
    ]);
    expect(listUnread(deviceStorage)).toEqual([{ source: 'link', text: damaged }]);
    expect(bar.hash).toContain('pinion=1.62');
  });

  it('to an unknown page show what they can', () => {
    end = followAddress(addressBar('/nowhere?axle=elspar'));
    expect(useSetup.getState().live.axleId).toBe('elspar');
    expect(useNotices.getState().notices).toMatchObject([
      { problems: [{ part: 'page', found: '/nowhere' }] },
    ]);
  });
});
