import { create } from 'zustand';

/**
 * Keep the carrier preload: what one side gives the other gets. On unless switched off; not kept on the device nor part
 * of a link, so that nobody works with a free total without having chosen it.
 */
export const usePreloadLock = create<{
  readonly on: boolean;
  readonly switchTo: (on: boolean) => void;
  readonly reset: () => void;
}>()((set) => ({
  on: true,
  switchTo: (on) => set({ on }),
  reset: () => set({ on: true }),
}));
