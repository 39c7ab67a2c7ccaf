import type { LongService } from '../../sim/worker/longProtocol.ts';
import { axleOf } from './axles.ts';
import { type Held, heldFor, holdWith, useBacklashLock } from './backlashLock.ts';
import { lockedFitment } from './lockedFitment.ts';
import { poseOfSetup } from './mesh.ts';
import { usePreferences } from './preferences.ts';
import { type Setup, useSetup } from './setup.ts';
import { useWantedShim } from './wantedShim.ts';

/** The pinion shim with the backlash kept; the same three ways to change it as without. */
export interface LockedPinion {
  preview(mm: number): void;
  commit(): void;
  apply(mm: number): void;
  /** Builds the gear set ahead of need. */
  prepare(axleId: string): void;
}

export type LockSource = Pick<LongService, 'load' | 'keepBacklash'>;

interface Wish {
  readonly mm: number;
  /** an entry for undo */
  readonly complete: boolean;
}

/**
 * Changes of the pinion shim that wait for the ring's place. Shim and sides enter the set-up together, so that no reading
 * in between is ever drawn. Of the steps of a drag only the newest waits; complete changes keep their order.
 */
export function lockPinion(source: LockSource): LockedPinion {
  const wishes: Wish[] = [];
  let busy = false;

  const want = (wish: Wish): void => {
    if (wishes.at(-1)?.complete === false) wishes.pop();
    wishes.push(wish);
    useWantedShim.setState({ mm: wish.mm });
    if (!busy) void work();
  };

  const work = async (): Promise<void> => {
    busy = true;
    for (let wish = wishes[0]; wish !== undefined; wish = wishes[0]) {
      const held = await untilHeld();
      const basis = useSetup.getState().live;
      const { change, failed, ringAway } = await keep(source, basis, held, wish.mm);
      const { live, preview, commit } = useSetup.getState();
      if (live !== basis) {
        // Somebody moved something else meanwhile: once more from there. A new axle or shim overrules the wish.
        if (overruled(basis, live)) wishes.length = 0;
        continue;
      }
      // a newer step of the same drag, or its end, may have taken the wish's place
      const answered = wishes[0];
      if (answered?.mm === wish.mm) wishes.shift();
      preview(change);
      const changed = useSetup.getState().live;
      if (held !== null) holdWith(changed, { ...held, ringAway });
      if (failed) useBacklashLock.setState({ failed });
      if (answered?.mm === wish.mm && answered.complete) commit();
    }
    useWantedShim.setState({ mm: null });
    busy = false;
  };

  return {
    preview: (mm) => want({ mm, complete: false }),
    apply: (mm) => want({ mm, complete: true }),
    commit: () => {
      const last = wishes.at(-1);
      if (last === undefined) useSetup.getState().commit();
      else wishes[wishes.length - 1] = { ...last, complete: true };
    },
    prepare: (axleId) => {
      void source.load(axleId, axleOf(axleId).axle.gearset);
    },
  };
}

const overruled = (basis: Setup, live: Setup): boolean =>
  basis.axleId !== live.axleId || basis.fitment.pinionShim !== live.fitment.pinionShim;

/** What is held with the live set-up, once it is known; null when the lock is off. */
function untilHeld(): Promise<Held | null> {
  return new Promise((resolve) => {
    const look = (): boolean => {
      const { on } = useBacklashLock.getState();
      const held = on ? heldFor(useSetup.getState().live) : null;
      if (on && held === null) return false;
      resolve(held);
      return true;
    };
    if (look()) return;
    const end = useBacklashLock.subscribe(() => {
      if (look()) end();
    });
  });
}

interface Kept {
  readonly change: Partial<Setup>;
  readonly failed: boolean;
  readonly ringAway: number | null;
}

/** `basis` with a pinion shim of `mm` and the ring where it reads what is held. */
async function keep(source: LockSource, basis: Setup, held: Held | null, mm: number): Promise<Kept> {
  const alone = { ...basis.fitment, pinionShim: mm };
  const asItIs = { change: { fitment: alone }, failed: false, ringAway: null };
  if (held === null || held.reading === null) return asItIs;
  const { axle } = axleOf(basis.axleId);
  const pose = poseOfSetup({ ...basis, fitment: alone });
  const answer = await source.keepBacklash(basis.axleId, axle.gearset, pose, held.reading);
  if (answer === null || !answer.ok || Number.isNaN(answer.value.residual))
    return { ...asItIs, failed: true };
  const { ringAway } = answer.value;
  const fitment = lockedFitment(axle, held.from, mm, ringAway, usePreferences.getState().fine);
  return { change: { fitment }, failed: false, ringAway };
}
