import { create } from 'zustand';

/** What of the desk for own axles is open over the bench. */
export type DeskPart = 'list' | 'editor';

export interface AxleDeskStore {
  readonly open: DeskPart | null;
  readonly show: (part: DeskPart | null) => void;
  readonly reset: () => void;
}

export const useAxleDesk = create<AxleDeskStore>()((set) => ({
  open: null,
  show: (open) => set({ open }),
  reset: () => set({ open: null }),
}));
