import { create } from 'zustand';
import { type Setup, useSetup } from './setup.ts';

/**
 * The set-up the controls show: the live one, held back until the core has answered, so that control and patch change in
 * one drawing of the page instead of two. A slow answer holds them no longer than HOLD_MS.
 */
export const useShownSetup = create<{ readonly setup: Setup }>()(() => ({ setup: useSetup.getState().live }));

/** ms: less than one frame, so nobody sees a control lag behind the hand. */
export const HOLD_MS = 12;

let timer: ReturnType<typeof setTimeout> | undefined;

/** The controls show the live set-up from now on. */
export function showLiveSetup(): void {
  clearTimeout(timer);
  timer = undefined;
  const { live } = useSetup.getState();
  if (useShownSetup.getState().setup !== live) useShownSetup.setState({ setup: live });
}

useSetup.subscribe(({ live }, before) => {
  if (live === before.live) return;
  // a new axle brings other controls: nothing of the former one may be offered for it
  if (live.axleId !== before.live.axleId) showLiveSetup();
  else timer ??= setTimeout(showLiveSetup, HOLD_MS);
});

/** Before a key reaches a control, the control shows what the key before it did: steps count from there. */
export function showBeforeKeys(target: Pick<Window, 'addEventListener'>): void {
  target.addEventListener('keydown', showLiveSetup, { capture: true });
}
