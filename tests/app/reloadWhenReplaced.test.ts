import { describe, expect, it } from 'vitest';
import { reloadWhenReplaced } from '../../src/app/reloadWhenReplaced.ts';

function open(controller: object | null) {
  const serviceWorker = Object.assign(new EventTarget(), { controller });
  let reloads = 0;
  const page = Object.assign(new EventTarget(), {
    location: { reload: () => reloads++ },
    navigator: { serviceWorker },
  });
  reloadWhenReplaced(page);
  return {
    newVersion: () => serviceWorker.dispatchEvent(new Event('controllerchange')),
    /** @returns whether the failure was left to whoever asked */
    partMissing: () => page.dispatchEvent(new Event('vite:preloadError', { cancelable: true })),
    reloads: () => reloads,
  };
}

describe('a page whose version was replaced', () => {
  it('reloads when a part of it is gone', () => {
    const page = open({});
    page.newVersion();
    expect(page.reloads()).toBe(0);
    expect(page.partMissing()).toBe(false);
    expect(page.reloads()).toBe(1);
  });

  it('is not taken for one on the first visit, when the first version arrives', () => {
    const page = open(null);
    page.newVersion();
    expect(page.partMissing()).toBe(true);
    expect(page.reloads()).toBe(0);
    page.newVersion();
    expect(page.partMissing()).toBe(false);
    expect(page.reloads()).toBe(1);
  });

  it('is not taken for one when the network fails', () => {
    const page = open({});
    expect(page.partMissing()).toBe(true);
    expect(page.reloads()).toBe(0);
  });

  it('does nothing where there is no service worker', () => {
    const page = Object.assign(new EventTarget(), { location: { reload() {} }, navigator: {} });
    expect(() => reloadWhenReplaced(page)).not.toThrow();
  });
});
