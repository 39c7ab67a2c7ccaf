import type { AxleHardware, Fitment } from '../../sim/assembly/hardware.ts';
import { pinionInFromShim } from '../../sim/worker/assembly.ts';
import type { ShimMapPlane } from '../../sim/worker/longProtocol.ts';
import { pinionShimPositions, type RingPosition, ringPositions } from '../state/positions.ts';
import type { PlanePoint } from './plane.ts';

/** Below this many mm two places are the same. */
const SAME = 1e-6;

/** A pinion shim that can be had, and where it puts the pinion. */
export interface ShimChoice {
  readonly pinionShim: number;
  /** mm */
  readonly pinionIn: number;
}

/** Every pinion shim and every place of the ring on the map that real parts give (or fine steps allow). */
export interface Combinations {
  /** from thin to thick */
  readonly shims: readonly ShimChoice[];
  /** from ring out to ring in, the total of the sides as it is */
  readonly rings: readonly RingPosition[];
}

/** One of each. */
export interface Combination {
  readonly shim: number;
  readonly ring: number;
}

/** `preload`: mm of squeeze over the design position to hold; `fineStep` in mm, null where the stock decides. */
export function combinationsOf(
  hardware: AxleHardware,
  preload: number,
  { pinionIn, ringAway }: Pick<ShimMapPlane, 'pinionIn' | 'ringAway'>,
  fineStep: number | null,
): Combinations {
  const on = ({ low, high }: ShimMapPlane['pinionIn'], at: number) => at >= low - 1e-6 && at <= high + 1e-6;
  return {
    shims: pinionShimPositions(hardware, fineStep)
      .map((pinionShim) => ({ pinionShim, pinionIn: pinionInFromShim(hardware.pinionShim, pinionShim) }))
      .filter((choice) => on(pinionIn, choice.pinionIn)),
    rings: ringPositions(hardware.sides, preload, fineStep).filter(({ ringIn }) => on(ringAway, -ringIn)),
  };
}

export const pointOf = ({ shims, rings }: Combinations, { shim, ring }: Combination): PlanePoint => ({
  pinionIn: shims[shim].pinionIn,
  ringAway: -rings[ring].ringIn,
});

export const fitmentOf = ({ shims, rings }: Combinations, { shim, ring }: Combination): Fitment => ({
  pinionShim: shims[shim].pinionShim,
  ringSide: rings[ring].ringSide,
  oppositeSide: rings[ring].oppositeSide,
});

/** The combination nearest to a point, along each axis by itself; null where there is none on the map. */
export function nearestCombination({ shims, rings }: Combinations, point: PlanePoint): Combination | null {
  if (shims.length === 0 || rings.length === 0) return null;
  return {
    shim: nearest(
      shims.map(({ pinionIn }) => pinionIn),
      point.pinionIn,
    ),
    ring: nearest(
      rings.map(({ ringIn }) => -ringIn),
      point.ringAway,
    ),
  };
}

/** How many steps: toward the thicker pinion shim, toward the ring in; negative = the other way. */
export interface Steps {
  readonly shim: number;
  readonly ring: number;
}

/** That many real places on from a shim and a ring place, which may lie between two; at the ends the last one. */
export function stepFrom(
  { shims, rings }: Combinations,
  from: { readonly pinionShim: number; readonly ringIn: number },
  by: Steps,
): Combination {
  return {
    shim: stepAlong(
      shims.map(({ pinionShim }) => pinionShim),
      from.pinionShim,
      by.shim,
    ),
    ring: stepAlong(
      rings.map(({ ringIn }) => ringIn),
      from.ringIn,
      by.ring,
    ),
  };
}

function stepAlong(places: readonly number[], from: number, by: number): number {
  const last = places.length - 1;
  if (by === 0) return nearest(places, from);
  const index =
    by > 0
      ? places.findIndex((place) => place > from + SAME)
      : places.findLastIndex((place) => place < from - SAME);
  if (index === -1) return by > 0 ? last : 0;
  return Math.min(Math.max(index + by - Math.sign(by), 0), last);
}

function nearest(places: readonly number[], at: number): number {
  let best = 0;
  for (let index = 1; index < places.length; index++) {
    if (Math.abs(places[index] - at) < Math.abs(places[best] - at) - 1e-9) best = index;
  }
  return best;
}
