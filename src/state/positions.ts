import type { AxleHardware, Fitment, SideDevice, Sides } from '../../sim/assembly/hardware.ts';
import {
  fineness,
  possibleTotals,
  preloadChange,
  realSetting,
  ringAwayFromSides,
  settingForPush,
  sidePush,
  sidesForRingAway,
} from '../../sim/worker/assembly.ts';
import { pinionShimRange, type Range, REACH, sideRange } from './ranges.ts';

/** Below this many mm (or notches) two settings are the same. */
const SAME = 1e-6;

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** Multiples of `step` from one end of a range to the other. */
export function evenPositions(range: Range, step: number): readonly number[] {
  const first = Math.ceil(range.least / step - SAME);
  const last = Math.floor(range.most / step + SAME);
  return Array.from({ length: Math.max(1, last - first + 1) }, (_, index) => tidy((first + index) * step));
}

/** Every pinion shim (mm) that can be chosen: what the stock makes, or free steps of `fineStep` mm. */
export function pinionShimPositions(hardware: AxleHardware, fineStep: number | null): readonly number[] {
  const range = pinionShimRange(hardware);
  return fineStep === null
    ? possibleTotals(hardware.pinionShim.stock, range.least, range.most)
    : evenPositions(range, fineStep);
}

/** A place of the ring that both sides together can give. */
export interface RingPosition {
  /** mm from the design position toward the pinion */
  readonly ringIn: number;
  readonly ringSide: number;
  readonly oppositeSide: number;
}

/**
 * Every place the ring can be put to by moving thickness (or notches) from one side to the other, ascending toward the
 * pinion. The total stays at `preload` mm of squeeze over the design position, as nearly as real parts allow.
 */
export function ringPositions(
  sides: Sides,
  preload: number,
  fineStep: number | null,
): readonly RingPosition[] {
  if (fineStep !== null) {
    return evenPositions({ least: -REACH, most: REACH }, fineStep).map((ringIn) => ({
      ringIn,
      ...sidesForRingAway(sides, -ringIn, preload),
    }));
  }
  // The coarser side leads, the finer one makes up the total.
  const ringLeads = fineness(sides.ringSide) >= fineness(sides.oppositeSide);
  const lead = ringLeads ? sides.ringSide : sides.oppositeSide;
  const other = ringLeads ? sides.oppositeSide : sides.ringSide;
  const slack = fineness(other) / 2 + SAME;
  return sidePositions(lead, null)
    .map((setting): RingPosition => {
      const rest = realSetting(other, settingForPush(other, preload - sidePush(lead, setting)));
      const pair = ringLeads
        ? { ringSide: setting, oppositeSide: rest }
        : { ringSide: rest, oppositeSide: setting };
      return { ringIn: tidy(-ringAwayFromSides(sides, pair)), ...pair };
    })
    .filter(
      (position) =>
        Math.abs(preloadChange(sides, position) - preload) <= slack &&
        Math.abs(position.ringIn) <= REACH + SAME,
    )
    .sort((a, b) => a.ringIn - b.ringIn);
}

/** Every setting of one side alone; `fineStep` in mm of push. */
function sidePositions(device: SideDevice, fineStep: number | null): readonly number[] {
  const range = sideRange(device);
  if (device.kind === 'adjuster') {
    return evenPositions(range, fineStep === null ? 1 : fineStep / fineness(device));
  }
  return fineStep === null
    ? possibleTotals(device.stock, range.least, range.most)
    : evenPositions(range, fineStep);
}

/**
 * mm of squeeze to hold while the ring is moved: the total it was found with as long as it still has that, else its
 * present one. Without this, the rounding of unlike sides would creep from step to step.
 */
export function preloadToHold(hardware: AxleHardware, found: Fitment, present: Fitment): number {
  const was = preloadChange(hardware.sides, found);
  const is = preloadChange(hardware.sides, present);
  const coarse = Math.max(fineness(hardware.sides.ringSide), fineness(hardware.sides.oppositeSide));
  return Math.abs(is - was) <= coarse / 2 + SAME ? was : is;
}

/** The neighbour of `value` in an ascending list; null at the end. */
export function nextPosition(positions: readonly number[], value: number, direction: 1 | -1): number | null {
  if (direction === 1) return positions.find((position) => position > value + SAME) ?? null;
  return positions.findLast((position) => position < value - SAME) ?? null;
}

/** Is it one of them? */
export const isPosition = (positions: readonly number[], value: number): boolean =>
  positions.some((position) => Math.abs(position - value) <= SAME);
