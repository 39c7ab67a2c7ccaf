import { axleOf, type KnownAxle, SHIPPED_AXLES } from '../../../state/axles.ts';
import type { Left, LeftStand } from '../../../state/compare.ts';

/** Pairs worth looking at: the axle on the bench stays, the other one comes to its left and moves as it does. */
export const READY_PAIRS = ['cut', 'hand'] as const;
export type ReadyPair = (typeof READY_PAIRS)[number];

/** The axle to put beside `axleId`: of the other cutting method, or of the other hand, alike in the rest where there is one. */
export function partnerOf(pair: ReadyPair, axleId: string): KnownAxle {
  const { axle } = axleOf(axleId);
  const sameCut = (other: KnownAxle) => other.axle.gearset.cut.method === axle.gearset.cut.method;
  const sameHand = (other: KnownAxle) => other.axle.hand === axle.hand;
  const [differs, alike] = pair === 'cut' ? [sameCut, sameHand] : [sameHand, sameCut];
  const others = SHIPPED_AXLES.filter((other) => !differs(other));
  return others.find(alike) ?? others[0];
}

export const readyPair = (pair: ReadyPair, axleId: string): Left => ({
  stand: 'alike',
  axleId: partnerOf(pair, axleId).id,
});

/** Another axle on the left: as the former one stood, where that has a meaning. */
export function withAxle(left: Left, axleId: string | null, presentId: string): Left {
  const stand: LeftStand = left.stand === 'kept' ? 'found' : left.stand;
  const same = axleId === null || axleId === presentId;
  // an axle beside itself, moved alike, would be the same twice
  return { stand: same && stand === 'alike' ? 'found' : stand, axleId };
}

export function withStand(left: Left, stand: LeftStand): Left {
  return { stand, axleId: left.stand === 'kept' ? left.setup.axleId : left.axleId };
}

/** Id of the axle on the left. */
export const leftAxleId = (left: Left, presentId: string): string =>
  left.stand === 'kept' ? left.setup.axleId : (left.axleId ?? presentId);
