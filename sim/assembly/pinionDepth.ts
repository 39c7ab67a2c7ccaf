import type { PinionShim, PinionShimPlace, Spacer } from './hardware.ts';

/** +1 where a thicker shim moves the pinion in (deeper), −1 where it moves it out. */
export function pinionShimSign(place: PinionShimPlace): 1 | -1 {
  switch (place) {
    case 'head-bearing':
    case 'behind-cup':
      return 1;
    case 'cartridge':
      return -1;
  }
}

/** mm, `pinionIn` of the pose (docs/model.md §2) with a shim of `thickness` mm. */
export const pinionInFromShim = (shim: PinionShim, thickness: number): number =>
  pinionShimSign(shim.place) * (thickness - shim.design) + 0;

/**
 * What a change of the pinion shim (`thicker` mm, negative = thinner) does to pinion bearing preload, and what it asks of the spacer.
 * - A shim behind the head bearing's cup spreads the cups one for one: with a solid spacer the stack beside it changes by the same
 *   amount (more spacer shim = less preload), else preload rises with `preloadInterference`.
 * - Under the head bearing's cone or the cartridge, preload stays.
 * - A crush sleeve yields once: each re-opening for depth costs a new one.
 */
export interface PinionPreloadEffect {
  /** mm the bearings would be squeezed together more if the spacer stayed as it is */
  readonly preloadInterference: number;
  /** mm to add to the stack beside a solid spacer (negative = take out); 0 when none is needed */
  readonly spacerChange: number;
  readonly newCrushSleeve: boolean;
}

export function pinionPreloadEffect(
  place: PinionShimPlace,
  spacer: Spacer,
  thicker: number,
): PinionPreloadEffect {
  if (thicker === 0) return { preloadInterference: 0, spacerChange: 0, newCrushSleeve: false };
  // A cartridge lifts off with its bearings together; the other two places open the pinion nut.
  const newCrushSleeve = spacer.kind === 'crush-sleeve' && place !== 'cartridge';
  const solidBehindCup = spacer.kind === 'solid-spacer' && place === 'behind-cup';
  return {
    preloadInterference: solidBehindCup ? thicker : 0,
    spacerChange: solidBehindCup ? thicker : 0,
    newCrushSleeve,
  };
}
