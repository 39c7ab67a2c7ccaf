import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { mersenne } from 'pure-rand/generator/mersenne';

/** Seeded numbers for tests; equal seeds give equal sequences. */
export interface Random {
  /** uniform on [low, high) */
  between(low: number, high: number): number;
  /** whole number, both ends included */
  whole(low: number, high: number): number;
  pick<T>(choices: readonly T[]): T;
}

export const seededRandom = (seed: number): Random => {
  const generator = mersenne(seed);
  const between = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  const whole = (low: number, high: number) => Math.min(high, Math.floor(between(low, high + 1)));
  return { between, whole, pick: (choices) => choices[whole(0, choices.length - 1)] };
};
