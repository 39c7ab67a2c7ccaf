/**
 * Points that fill the unit cube of `dimensions` evenly however many are taken: an additive sequence with the powers of
 * the inverse generalised golden ratio as steps (the positive root of gⁿ⁺¹ = g + 1 in n dimensions). No chance in it:
 * the k-th point of a `start` in [0, 1) is always the same. Coordinates in [0, 1).
 */
export const evenPoint = (dimensions: number, k: number, start = 0.5): number[] => {
  let ratio = 2;
  for (let i = 0; i < 60; i++) ratio = (1 + ratio) ** (1 / (dimensions + 1));
  return Array.from({ length: dimensions }, (_, axis) => (start + (k + 1) * ratio ** -(axis + 1)) % 1);
};
