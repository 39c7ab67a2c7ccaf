import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { useSetup } from '../../src/state/setup.ts';
import { HOLD_MS, showBeforeKeys, showLiveSetup, useShownSetup } from '../../src/state/shownSetup.ts';

const shownFilm = () => useShownSetup.getState().setup.film;
const preview = (film: number) => useSetup.getState().preview({ film });

describe('the set-up that the controls show', () => {
  beforeEach(() => {
    vi.useFakeTimers();
    useSetup.getState().reset();
    showLiveSetup();
  });
  afterEach(() => vi.useRealTimers());

  it('waits for the answer, and for nothing longer than its hold', () => {
    const before = shownFilm();
    preview(0.02);
    expect(shownFilm()).toBe(before);
    vi.advanceTimersByTime(HOLD_MS - 1);
    expect(shownFilm()).toBe(before);
    vi.advanceTimersByTime(1);
    expect(shownFilm()).toBe(0.02);
  });

  it('is not put off further by a second step within the hold', () => {
    preview(0.02);
    vi.advanceTimersByTime(HOLD_MS - 1);
    preview(0.021);
    vi.advanceTimersByTime(1);
    expect(shownFilm()).toBe(0.021);
  });

  it('comes with the answer', () => {
    preview(0.02);
    showLiveSetup();
    expect(shownFilm()).toBe(0.02);
    preview(0.022);
    vi.advanceTimersByTime(HOLD_MS);
    expect(shownFilm()).toBe(0.022);
  });

  it('shows another axle at once: nothing of the former one may be offered for it', () => {
    useSetup.getState().apply({ axleId: 'cavel' });
    expect(useShownSetup.getState().setup.axleId).toBe('cavel');
  });

  it('is up to date before a key reaches a control', () => {
    const target = new EventTarget();
    showBeforeKeys(target as unknown as Window);
    preview(0.02);
    target.dispatchEvent(new Event('keydown'));
    expect(shownFilm()).toBe(0.02);
  });
});
