import { poseOfFitment } from './fitment.ts';
import type { AxleHardware, Fitment } from './hardware.ts';
import { pinionInFromShim } from './pinionDepth.ts';
import { fineness, preloadChange, realSidesForRingAway } from './sides.ts';
import { possibleTotals } from './stock.ts';

/** A fitment that stock and lock positions allow, and the move it makes from the present one. */
export interface Candidate {
  readonly fitment: Fitment;
  /** mm */
  readonly pinionIn: number;
  /** mm */
  readonly ringAway: number;
}

/** mm, furthest a pinion is moved in one go: more than any set-up that turns needs. */
const PINION_REACH = 0.5;

const candidate = (hardware: AxleHardware, present: Fitment, fitment: Fitment): Candidate => {
  const from = poseOfFitment(hardware, present);
  const to = poseOfFitment(hardware, fitment);
  return { fitment, pinionIn: to.pinionIn - from.pinionIn, ringAway: to.ringAway - from.ringAway };
};

/** Pinion shims that the stock can make within reach, the present one first. */
export const pinionChoices = (hardware: AxleHardware, present: Fitment): readonly number[] => {
  const { stock } = hardware.pinionShim;
  const here = present.pinionShim;
  return [
    here,
    ...possibleTotals(stock, here - PINION_REACH, here + PINION_REACH).filter(
      (total) => Math.abs(total - here) > 1e-6,
    ),
  ];
};

export const pinionMove = (hardware: AxleHardware, present: Fitment, pinionShim: number): number =>
  pinionInFromShim(hardware.pinionShim, pinionShim) -
  pinionInFromShim(hardware.pinionShim, present.pinionShim);

/**
 * Fitments with this pinion shim and the ring moved by about `ringAway` mm, `steps` of the coarser side to either
 * hand; carrier preload kept as near as the stock allows. With `stay` the sides as they are come first.
 */
export const candidatesAround = (
  hardware: AxleHardware,
  present: Fitment,
  pinionShim: number,
  ringAway: number,
  steps: number,
  stay: boolean,
): readonly Candidate[] => {
  const { sides } = hardware;
  const preload = preloadChange(sides, present);
  const here = poseOfFitment(hardware, present).ringAway;
  const step = Math.max(fineness(sides.ringSide), fineness(sides.oppositeSide));
  const found: Candidate[] = stay ? [candidate(hardware, present, { ...present, pinionShim })] : [];
  for (let k = -steps; k <= steps; k++) {
    const settings = realSidesForRingAway(sides, here + ringAway + k * step, preload);
    const known = found.some(
      ({ fitment }) =>
        Math.abs(fitment.ringSide - settings.ringSide) < 1e-6 &&
        Math.abs(fitment.oppositeSide - settings.oppositeSide) < 1e-6,
    );
    if (!known) found.push(candidate(hardware, present, { pinionShim, ...settings }));
  }
  return found;
};
