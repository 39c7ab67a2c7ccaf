import type { Fitment } from '../../sim/assembly/hardware.ts';
import { fittedAtDesign, fittedNow, ringAwayFromSides } from '../../sim/worker/assembly.ts';
import { axleOf } from './axles.ts';
import { pinionShimInHand, setPinionShim } from './pinionShim.ts';
import {
  evenPositions,
  nextPosition,
  pinionShimPositions,
  preloadToHold,
  ringPositions,
} from './positions.ts';
import { usePreferences } from './preferences.ts';
import { FILM_RANGE, OFFSET_ERROR_RANGE, type Range, SHAFT_ANGLE_ERROR_RANGE } from './ranges.ts';
import { type Setup, setupAsFound, useSetup } from './setup.ts';

export type Direction = 1 | -1;

/** mm, or null where the stock decides */
export function fineStepInForce(): number | null {
  const { fine, fineStep } = usePreferences.getState();
  return fine ? fineStep : null;
}

/** mm of film, mm of offset, degrees of shaft angle per press; the second is the fine one. */
export const STEPS = {
  film: { usual: 0.001, fine: 0.0001 },
  offsetError: { usual: 0.01, fine: 0.001 },
  shaftAngleError: { usual: 0.01, fine: 0.001 },
} as const;

type FreeQuantity = keyof typeof STEPS;

const RANGES: Readonly<Record<FreeQuantity, Range>> = {
  film: FILM_RANGE,
  offsetError: OFFSET_ERROR_RANGE,
  shaftAngleError: SHAFT_ANGLE_ERROR_RANGE,
};

export const stepOf = (quantity: FreeQuantity, fine: boolean): number =>
  fine ? STEPS[quantity].fine : STEPS[quantity].usual;

export const positionsOf = (quantity: FreeQuantity, fine: boolean): readonly number[] =>
  evenPositions(RANGES[quantity], stepOf(quantity, fine));

/** One real shim (or one fine step) thicker or thinner; false at the end of what there is. */
export function stepPinionShim(direction: Direction): boolean {
  const { live } = useSetup.getState();
  const positions = pinionShimPositions(axleOf(live.axleId).axle, fineStepInForce());
  const next = nextPosition(positions, pinionShimInHand(), direction);
  if (next === null) return false;
  setPinionShim(next);
  return true;
}

/** One step of the ring toward the pinion (1) or away from it (−1), the total kept; false at the end. */
export function stepRing(direction: Direction): boolean {
  const { live, apply } = useSetup.getState();
  const next = nextRingFitment(live, direction, fineStepInForce());
  if (next === null) return false;
  apply({ fitment: next });
  return true;
}

function nextRingFitment(setup: Setup, direction: Direction, fineStep: number | null): Fitment | null {
  const { axle } = axleOf(setup.axleId);
  const positions = ringPositions(axle.sides, preloadToHold(axle, fittedNow(axle), setup.fitment), fineStep);
  const ringIn = -ringAwayFromSides(axle.sides, setup.fitment);
  const next = nextPosition(
    positions.map((position) => position.ringIn),
    ringIn,
    direction,
  );
  const position = positions.find((candidate) => candidate.ringIn === next);
  if (position === undefined) return null;
  return { ...setup.fitment, ringSide: position.ringSide, oppositeSide: position.oppositeSide };
}

export function stepFree(quantity: FreeQuantity, direction: Direction): boolean {
  const { live, apply } = useSetup.getState();
  const positions = positionsOf(quantity, usePreferences.getState().fine);
  const next = nextPosition(positions, live[quantity], direction);
  if (next === null) return false;
  apply({ [quantity]: next });
  return true;
}

/** Everything as the axle was found, housing and film too. */
export function goAsFound(): void {
  const { live, apply } = useSetup.getState();
  apply(setupAsFound(live.axleId));
}

/** Pinion and ring where the gears were cut to run, in a true housing; the film stays. */
export function goToDesign(): void {
  const { live, apply } = useSetup.getState();
  const { axle } = axleOf(live.axleId);
  apply({ fitment: fittedAtDesign(axle), offsetError: 0, shaftAngleError: 0 });
}

export function chooseAxle(axleId: string): void {
  const { live, apply } = useSetup.getState();
  if (live.axleId !== axleId) apply(setupAsFound(axleId));
}
