import type { AxleDefinition } from '../../models/axle.ts';
import type { Fitment, SideDevice } from '../../sim/assembly/hardware.ts';
import { fittedNow, sidePush, sidesForRingAway } from '../../sim/worker/assembly.ts';
import { preloadToHold, ringPositions } from './positions.ts';
import { clamp, type Range, REACH, sideRange } from './ranges.ts';

/** mm: as fine as links write it, far finer than any dial. */
const GRAIN = 1e-4;

/**
 * Shims that put the ring as near to `ringAway` mm as can be, with `pinionShim` mm and the carrier preload of `from`:
 * what one side gives the other gets. `free`: any thickness and any part of a notch; else what stock and lock positions
 * allow. Stays where the controls can reach.
 */
export function lockedFitment(
  axle: AxleDefinition,
  from: Fitment,
  pinionShim: number,
  ringAway: number,
  free: boolean,
): Fitment {
  const { sides } = axle;
  const preload = preloadToHold(axle, fittedNow(axle), from);
  if (free) {
    const rounded = Math.round(ringAway / GRAIN) * GRAIN;
    const place = clamp(ringAwayRange(sides.ringSide, sides.oppositeSide, preload), rounded);
    const { ringSide, oppositeSide } = sidesForRingAway(sides, place, preload);
    return { pinionShim, ringSide: tidy(ringSide), oppositeSide: tidy(oppositeSide) };
  }
  let best: { readonly ringSide: number; readonly oppositeSide: number } = from;
  let least = Number.POSITIVE_INFINITY;
  for (const { ringIn, ringSide, oppositeSide } of ringPositions(sides, preload, null)) {
    const miss = Math.abs(ringIn + ringAway);
    if (miss < least) {
      least = miss;
      best = { ringSide, oppositeSide };
    }
  }
  return { pinionShim, ringSide: best.ringSide, oppositeSide: best.oppositeSide };
}

/** mm the ring can be moved within the reach of both sides, the total squeeze at `preload` mm over design. */
function ringAwayRange(ringSide: SideDevice, oppositeSide: SideDevice, preload: number): Range {
  const ring = sideRange(ringSide);
  const opposite = sideRange(oppositeSide);
  return {
    least: Math.max(
      -REACH,
      preload / 2 - sidePush(ringSide, ring.most),
      sidePush(oppositeSide, opposite.least) - preload / 2,
    ),
    most: Math.min(
      REACH,
      preload / 2 - sidePush(ringSide, ring.least),
      sidePush(oppositeSide, opposite.most) - preload / 2,
    ),
  };
}

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
