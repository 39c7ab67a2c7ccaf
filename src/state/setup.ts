import { temporal } from 'zundo';
import { create } from 'zustand';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import { fittedNow } from '../../sim/worker/assembly.ts';
import { axleOf, DEFAULT_AXLE_ID } from './axles.ts';

/** Which axle, what is fitted in it, what its housing does, how thick the compound is. Everything the mesh answers to. */
export interface Setup {
  readonly axleId: string;
  readonly fitment: Fitment;
  /** mm, housing bore offset error */
  readonly offsetError: number;
  /** degrees */
  readonly shaftAngleError: number;
  /** mm of marking compound left where the mark ends */
  readonly film: number;
}

/** The axle as it was found: its shims, a true housing, its own film. */
export function setupAsFound(axleId: string): Setup {
  const { axle } = axleOf(axleId);
  return { axleId, fitment: fittedNow(axle), offsetError: 0, shaftAngleError: 0, film: axle.film_mm };
}

export interface SetupStore {
  /** follows every step of a drag; what is drawn */
  readonly live: Setup;
  /** the last set-up that was let go of; what undo, links and files know */
  readonly committed: Setup;
  /** A step on the way: drawn, but no entry for undo. */
  readonly preview: (change: Partial<Setup>) => void;
  /** The end of a drag: what is live becomes an entry for undo. */
  readonly commit: () => void;
  /** One complete change. */
  readonly apply: (change: Partial<Setup>) => void;
  /** Back to the first axle as found; forgets the history. */
  readonly reset: () => void;
}

const UNDO_LIMIT = 200;

const start = setupAsFound(DEFAULT_AXLE_ID);

export const useSetup = create<SetupStore>()(
  temporal(
    (set, get) => ({
      live: start,
      committed: start,
      preview: (change) => set({ live: { ...get().live, ...change } }),
      commit: () => {
        const { live, committed } = get();
        if (!sameSetup(live, committed)) set({ committed: live });
        else if (live !== committed) set({ live: committed });
      },
      apply: (change) => {
        get().preview(change);
        get().commit();
      },
      reset: () => {
        set({ live: start, committed: start });
        useSetup.temporal.getState().clear();
      },
    }),
    {
      limit: UNDO_LIMIT,
      partialize: ({ committed }) => ({ committed }),
      equality: (past, current) => past.committed === current.committed,
    },
  ),
);

export function undoSetup(): void {
  useSetup.temporal.getState().undo();
  showCommitted();
}

export function redoSetup(): void {
  useSetup.temporal.getState().redo();
  showCommitted();
}

function showCommitted(): void {
  const { committed, live } = useSetup.getState();
  if (live !== committed) useSetup.setState({ live: committed });
}

export function sameSetup(a: Setup, b: Setup): boolean {
  return (
    a.axleId === b.axleId &&
    a.fitment.pinionShim === b.fitment.pinionShim &&
    a.fitment.ringSide === b.fitment.ringSide &&
    a.fitment.oppositeSide === b.fitment.oppositeSide &&
    a.offsetError === b.offsetError &&
    a.shaftAngleError === b.shaftAngleError &&
    a.film === b.film
  );
}
