import { create } from 'zustand';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import { poseOfSetup, type ShownMesh, useMesh } from './mesh.ts';
import { type Setup, useSetup } from './setup.ts';

/** What the lock holds, for one set-up. */
export interface Held {
  /** mm square to the flank, least over a pitch; null where the mesh has no contact to measure from */
  readonly reading: number | null;
  /** the shims the reading was taken with: what has moved since is counted from here */
  readonly from: Fitment;
  /** mm, the ring's place that gives exactly this reading; real parts may miss it. null: as it stands */
  readonly ringAway: number | null;
}

/** Keep the backlash while the depth changes: a change of the pinion shim moves the ring too. */
export interface BacklashLockStore {
  readonly on: boolean;
  /** null: off, or on and the reading of the present set-up is not known yet */
  readonly held: Held | null;
  /** the ring's place could not be worked out at the last change: the sides stayed */
  readonly failed: boolean;
  /** Switching on holds what is read then. */
  readonly switchTo: (on: boolean) => void;
  /** On, holding a reading that somebody else asked for (a link). */
  readonly holdReading: (reading: number) => void;
  readonly reset: () => void;
}

/** Goes back with undo: what was held with a set-up is held with it again. */
let heldWith = new WeakMap<Setup, Held>();

const OFF = { on: false, held: null, failed: false } as const;

export const useBacklashLock = create<BacklashLockStore>()((set) => ({
  ...OFF,
  switchTo: (on) => {
    heldWith = new WeakMap();
    set({ ...OFF, on });
    if (on) takeReading();
  },
  holdReading: (reading) => {
    heldWith = new WeakMap();
    set({ ...OFF, on: true });
    const { live } = useSetup.getState();
    holdWith(live, { reading, from: live.fitment, ringAway: null });
  },
  reset: () => {
    heldWith = new WeakMap();
    set(OFF);
  },
}));

export const heldFor = (setup: Setup): Held | null => heldWith.get(setup) ?? null;

/** From now on `held` belongs to `setup`. */
export function holdWith(setup: Setup, held: Held): void {
  heldWith.set(setup, held);
  if (useSetup.getState().live === setup) useBacklashLock.setState({ held });
}

/** Is it the mesh of this set-up? */
const answers = (shown: ShownMesh, setup: Setup): boolean => {
  if (shown.axleId !== setup.axleId) return false;
  const { pinionIn, ringAway, offsetError, shaftAngleError } = poseOfSetup(setup);
  const { pose } = shown.result;
  return (
    pose.pinionIn === pinionIn &&
    pose.ringAway === ringAway &&
    pose.offsetError === offsetError &&
    pose.shaftAngleError === shaftAngleError
  );
};

/** At rest with a set-up of which nothing is held: what it reads is what will be held. */
function takeReading(): void {
  const { on, held } = useBacklashLock.getState();
  const { live, committed } = useSetup.getState();
  const { shown, pending, failure } = useMesh.getState();
  if (!on || held !== null || live !== committed || pending || shown === null) return;
  const known = failure === null;
  if (known && !answers(shown, live)) return;
  const reading = known ? shown.result.backlash.normal : null;
  holdWith(live, { reading, from: live.fitment, ringAway: null });
}

/**
 * Whatever else moves (the ring, the housing, undo, another axle) is a new reading to hold from then on, or the one held
 * there before. Returns a function that ends it.
 */
export function followHeldReading(): () => void {
  const endings = [
    useSetup.subscribe(({ live, committed }, before) => {
      if (!useBacklashLock.getState().on) return;
      if (live !== before.live) useBacklashLock.setState({ held: heldFor(live), failed: false });
      if (live !== before.live || committed !== before.committed) takeReading();
    }),
    useMesh.subscribe(takeReading),
  ];
  return () => {
    for (const end of endings) end();
  };
}
