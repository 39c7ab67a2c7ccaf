import { poseOfFitment } from './fitment.ts';
import type { AxleHardware, Fitment } from './hardware.ts';
import { preloadChange, realSidesForRingAway, ringAwayFromSides, transferToRingSide } from './sides.ts';
import { nearestTotal } from './stock.ts';

/** What keeping the backlash asks of the hardware when the pinion shim changes (docs/model.md §2, §9). */
export interface BacklashTransfer {
  /** mm of push to move from the opposite side to the ring side; negative = the other way */
  readonly toRingSide: number;
  /** free of stock and lock positions, preload as before */
  readonly exact: Fitment;
  /** what stock and lock positions allow */
  readonly real: Fitment;
  /** mm, `ringAway` with the real fitment */
  readonly realRingAway: number;
  /** mm of carrier squeeze the real fitment has over the present one; negative = less */
  readonly realPreloadChange: number;
}

/**
 * From the present fitment to one with `pinionShim` mm and the ring at `ringAway` mm, as `keepBacklash` found it,
 * with carrier preload kept: what one side gives the other gets.
 */
export const transferForBacklash = (
  hardware: AxleHardware,
  present: Fitment,
  pinionShim: number,
  ringAway: number,
): BacklashTransfer => {
  const { sides } = hardware;
  const preload = preloadChange(sides, present);
  const toRingSide = poseOfFitment(hardware, present).ringAway - ringAway;
  const real: Fitment = {
    pinionShim: nearestTotal(hardware.pinionShim.stock, pinionShim),
    ...realSidesForRingAway(sides, ringAway, preload),
  };
  return {
    toRingSide,
    exact: { pinionShim, ...transferToRingSide(sides, present, toRingSide) },
    real,
    realRingAway: ringAwayFromSides(sides, real),
    realPreloadChange: preloadChange(sides, real) - preload,
  };
};
