import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { mersenne } from 'pure-rand/generator/mersenne';
import type { Pose } from '../../sim/contact/pose.ts';

/** Poses well beyond what a workshop meets, with films from thin to thick; the same list for the same seed. */
export function randomPoses(seed: number, count: number): { readonly pose: Pose; readonly film: number }[] {
  const generator = mersenne(seed);
  const between = (low: number, high: number): number =>
    low + ((high - low) * uniformInt(generator, 0, 1_000_000)) / 1_000_000;
  return Array.from({ length: count }, () => ({
    pose: {
      pinionIn: between(-0.3, 0.3),
      ringAway: between(-0.2, 0.3),
      offsetError: between(-0.1, 0.1),
      shaftAngleError: between(-0.1, 0.1),
    },
    film: between(0.003, 0.02),
  }));
}
