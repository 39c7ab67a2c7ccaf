import { create } from 'zustand';

/** The work areas; each has a path of its own in the address. */
export const AREAS = ['explore', 'match'] as const;
export type Area = (typeof AREAS)[number];

export interface AreaStore {
  readonly area: Area;
  readonly go: (area: Area) => void;
  readonly reset: () => void;
}

export const useArea = create<AreaStore>()((set) => ({
  area: 'explore',
  go: (area) => set({ area }),
  reset: () => set({ area: 'explore' }),
}));

export const pathOf = (area: Area): string => `/${area}`;
export const areaOf = (path: string): Area | undefined => AREAS.find((area) => pathOf(area) === path);
