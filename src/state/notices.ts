import { create } from 'zustand';
import type { PlainTextKey } from '../text/catalogue.ts';

/** Part of a link that was not understood, in the words of the link. */
export interface LinkProblem {
  /** the name in the link */
  readonly part: string;
  /** what stood there, shortened */
  readonly found: string;
  readonly allowed:
    | {
        readonly kind: 'number';
        readonly least: number;
        readonly most: number;
        readonly unit: 'mm' | 'deg' | 'notch' | 'µm';
      }
    | { readonly kind: 'choice'; readonly choices: readonly string[] }
    | { readonly kind: 'not-for-this-axle' }
    | { readonly kind: 'unknown-part' }
    | { readonly kind: 'version'; readonly newest: number }
    | { readonly kind: 'length'; readonly most: number };
}

export type Notice =
  | { readonly id: string; readonly kind: 'link'; readonly problems: readonly LinkProblem[] }
  | { readonly id: string; readonly kind: 'plain'; readonly text: PlainTextKey }
  /** the link that was opened is for an own axle that is not on this device */
  | { readonly id: string; readonly kind: 'own-axle-missing' };

export interface NoticesStore {
  readonly notices: readonly Notice[];
  /** Shows a notice; one with the same id is replaced. */
  readonly show: (notice: Notice) => void;
  readonly dismiss: (id: string) => void;
  readonly reset: () => void;
}

export const useNotices = create<NoticesStore>()((set) => ({
  notices: [],
  show: (notice) =>
    set((state) => ({ notices: [...state.notices.filter((other) => other.id !== notice.id), notice] })),
  dismiss: (id) => set((state) => ({ notices: state.notices.filter((notice) => notice.id !== id) })),
  reset: () => set({ notices: [] }),
}));
