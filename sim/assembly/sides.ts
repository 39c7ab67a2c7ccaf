import type { Fitment, SideAdjuster, SideDevice, Sides } from './hardware.ts';
import { nearestTotal } from './stock.ts';

type SidePair = Pick<Fitment, 'ringSide' | 'oppositeSide'>;

/** mm the carrier is pushed by one notch. */
export const travelPerNotch = (adjuster: Pick<SideAdjuster, 'pitch' | 'notchesPerTurn'>): number =>
  adjuster.pitch / adjuster.notchesPerTurn;

/** mm of travel for a number of notches (turned in = positive). */
export const travelOfNotches = (
  adjuster: Pick<SideAdjuster, 'pitch' | 'notchesPerTurn'>,
  notches: number,
): number => (adjuster.pitch * notches) / adjuster.notchesPerTurn;

/** mm by which a side pushes the carrier more than at the design position. `setting` in the device's own measure. */
export const sidePush = (device: SideDevice, setting: number): number =>
  device.kind === 'adjuster' ? travelOfNotches(device, setting - device.design) : setting - device.design;

/** Exact setting (mm of shim, or a broken number of notches) that pushes by `push` mm from the design position. */
export const settingForPush = (device: SideDevice, push: number): number =>
  device.kind === 'adjuster' ? device.design + push / travelPerNotch(device) : device.design + push;

/** The nearest setting that the hardware can really have: a total of the stock, or a whole lock position on the thread. */
export function realSetting(device: SideDevice, setting: number): number {
  if (device.kind !== 'adjuster') return nearestTotal(device.stock, setting);
  return Math.min(Math.max(Math.round(setting), 0), device.mostNotches);
}

/**
 * mm, `ringAway` of the pose (docs/model.md §2). Thickness moved from the opposite side to the ring side pushes the ring toward the
 * pinion by that much; thickness added to one side alone is shared by the two preloaded bearings, half and half.
 */
export const ringAwayFromSides = (sides: Sides, fitment: SidePair): number =>
  -(sidePush(sides.ringSide, fitment.ringSide) - sidePush(sides.oppositeSide, fitment.oppositeSide)) / 2 + 0;

/** mm by which both sides together squeeze the carrier bearings more than at the design position; positive = more preload. */
export const preloadChange = (sides: Sides, fitment: SidePair): number =>
  sidePush(sides.ringSide, fitment.ringSide) + sidePush(sides.oppositeSide, fitment.oppositeSide);

/** Exact settings for `ringAway` mm with a total squeeze of `preload` mm over the design position (0 keeps the design's). */
export function sidesForRingAway(sides: Sides, ringAway: number, preload: number): SidePair {
  return {
    ringSide: settingForPush(sides.ringSide, preload / 2 - ringAway),
    oppositeSide: settingForPush(sides.oppositeSide, preload / 2 + ringAway),
  };
}

/**
 * Settings the hardware can really have, for `ringAway` mm at a total squeeze near `preload` mm. The side that can be set in the coarser
 * measure is settled first and the other one made to hold the total, since a wrong preload does more harm than a hundredth of backlash.
 */
export function realSidesForRingAway(sides: Sides, ringAway: number, preload: number): SidePair {
  const exact = sidesForRingAway(sides, ringAway, preload);
  if (fineness(sides.ringSide) >= fineness(sides.oppositeSide)) {
    const ringSide = realSetting(sides.ringSide, exact.ringSide);
    const rest = preload - sidePush(sides.ringSide, ringSide);
    return {
      ringSide,
      oppositeSide: realSetting(sides.oppositeSide, settingForPush(sides.oppositeSide, rest)),
    };
  }
  const oppositeSide = realSetting(sides.oppositeSide, exact.oppositeSide);
  const rest = preload - sidePush(sides.oppositeSide, oppositeSide);
  return { ringSide: realSetting(sides.ringSide, settingForPush(sides.ringSide, rest)), oppositeSide };
}

/** mm of push per smallest change of the device. */
export const fineness = (device: SideDevice): number =>
  device.kind === 'adjuster' ? travelPerNotch(device) : device.stock.step;
