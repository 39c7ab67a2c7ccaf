import { create } from 'zustand';

/** Is what nobody knows of an own axle varied, to show which answers are robust? Not kept: it costs the device work. */
export interface UnknownsStore {
  readonly on: boolean;
  readonly set: (on: boolean) => void;
  readonly reset: () => void;
}

export const useUnknowns = create<UnknownsStore>()((set) => ({
  on: false,
  set: (on) => set({ on }),
  reset: () => set({ on: false }),
}));
