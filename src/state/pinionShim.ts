import { useBacklashLock } from './backlashLock.ts';
import type { LockedPinion } from './lockedPinion.ts';
import { useSetup } from './setup.ts';
import { useWantedShim } from './wantedShim.ts';

/** mm of pinion shim as the hand has it: steps count from here. */
export const pinionShimInHand = (): number =>
  useWantedShim.getState().mm ?? useSetup.getState().live.fitment.pinionShim;

/** A step of a drag. */
export function previewPinionShim(mm: number): void {
  change(mm, (lock) => lock.preview(mm), 'preview');
}

/** The end of a drag. */
export function commitPinionShim(): void {
  if (useWantedShim.getState().mm === null) useSetup.getState().commit();
  else withLock((lock) => lock.commit());
}

/** One complete change. */
export function setPinionShim(mm: number): void {
  change(mm, (lock) => lock.apply(mm), 'apply');
}

function change(mm: number, locked: (lock: LockedPinion) => void, plain: 'preview' | 'apply'): void {
  const inHand = useWantedShim.getState().mm !== null;
  if (useBacklashLock.getState().on || inHand) {
    useWantedShim.setState({ mm });
    withLock(locked);
    return;
  }
  const { live, [plain]: go } = useSetup.getState();
  go({ fitment: { ...live.fitment, pinionShim: mm } });
}

let lock: Promise<LockedPinion> | null = null;

/** Who keeps no backlash never loads what keeps it. */
function load(): Promise<LockedPinion> {
  lock ??= Promise.all([import('./lockedPinion.ts'), import('./longService.ts')]).then(
    ([{ lockPinion }, { longService }]) => lockPinion(longService()),
  );
  return lock;
}

function withLock(act: (lock: LockedPinion) => void): void {
  load().then(act, withoutLock);
}

/** Keep the backlash from now on, at what is read now; or no more. */
export function switchBacklashLock(on: boolean): void {
  useBacklashLock.getState().switchTo(on);
  if (on) prepareLock();
}

/** Ahead of the first change: the second worker and the gear set in it. */
function prepareLock(): void {
  const { axleId } = useSetup.getState().live;
  load().then(
    (ready) => ready.prepare(axleId),
    () => undefined,
  );
}

/** The lock could not be loaded: the shim goes where it was put all the same, and the control says what did not happen. */
function withoutLock(): void {
  lock = null;
  const { mm } = useWantedShim.getState();
  if (mm === null) return;
  useWantedShim.setState({ mm: null });
  const { live, apply } = useSetup.getState();
  apply({ fitment: { ...live.fitment, pinionShim: mm } });
  useBacklashLock.setState({ failed: true });
}
