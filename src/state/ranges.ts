import type { AxleHardware, SideDevice } from '../../sim/assembly/hardware.ts';
import { pinionShimSign, travelPerNotch } from '../../sim/worker/assembly.ts';

/** Closed interval in the unit of what it bounds. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

/** mm from the design position that the app lets pinion and ring go: well beyond any sensible shim, and the solver answers there. */
export const REACH = 0.35;

/** mm, housing bore offset error */
export const OFFSET_ERROR_RANGE: Range = { least: -0.3, most: 0.3 };
/** degrees */
export const SHAFT_ANGLE_ERROR_RANGE: Range = { least: -0.25, most: 0.25 };
/** mm square to the flank: readings that the backlash lock can be asked for by a link */
export const KEPT_READING_RANGE: Range = { least: -1, most: 2 };
/** mm of compound */
export const FILM_RANGE: Range = { least: 0.002, most: 0.04 };

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** mm of shim; the same span about the design thickness whichever way a thicker shim pushes. */
export function pinionShimRange(hardware: AxleHardware): Range {
  const { design, place } = hardware.pinionShim;
  const ends = [-REACH, REACH].map((move) => tidy(design + pinionShimSign(place) * move));
  return { least: Math.max(0, Math.min(...ends)), most: Math.max(...ends) };
}

/** mm of shim, or notches, that keep one side's push within reach. */
export function sideRange(device: SideDevice): Range {
  if (device.kind !== 'adjuster') {
    return { least: Math.max(0, tidy(device.design - REACH)), most: tidy(device.design + REACH) };
  }
  const notches = REACH / travelPerNotch(device);
  return {
    least: Math.max(0, tidy(device.design - notches)),
    most: Math.min(device.mostNotches, tidy(device.design + notches)),
  };
}

export const within = (range: Range, value: number): boolean => value >= range.least && value <= range.most;

export const clamp = (range: Range, value: number): number =>
  Math.min(Math.max(value, range.least), range.most);
