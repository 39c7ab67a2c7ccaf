import { create } from 'zustand';

/** mm of pinion shim asked for while the backlash lock is still working out the sides; null: none. */
export const useWantedShim = create<{ readonly mm: number | null }>()(() => ({ mm: null }));
