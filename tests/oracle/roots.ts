/**
 * Bisection to the last bit. `f` must change sign on [low, high].
 * Throws when it does not: the oracle is only asked for makeable sets.
 */
export function bisect(f: (x: number) => number, low: number, high: number): number {
  let lo = low;
  let hi = high;
  const fLow = f(lo);
  const fHigh = f(hi);
  if (!(fLow * fHigh <= 0)) {
    throw new RangeError(`oracle: no sign change on [${low}, ${high}] (values ${fLow}, ${fHigh})`);
  }
  for (let step = 0; step < 200; step++) {
    const middle = 0.5 * (lo + hi);
    if (middle === lo || middle === hi) break;
    if (f(middle) * fLow > 0) lo = middle;
    else hi = middle;
  }
  return 0.5 * (lo + hi);
}

/**
 * Least value of a one-valley function on [low, high] by golden section.
 * Returns the place; the interval is narrowed to `tolerance`.
 */
export function goldenMinimum(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): { readonly at: number; readonly value: number } {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let lo = low;
  let hi = high;
  let p = hi - ratio * (hi - lo);
  let q = lo + ratio * (hi - lo);
  let fp = f(p);
  let fq = f(q);
  while (hi - lo > tolerance) {
    if (fp <= fq) {
      hi = q;
      q = p;
      fq = fp;
      p = hi - ratio * (hi - lo);
      fp = f(p);
    } else {
      lo = p;
      p = q;
      fp = fq;
      q = lo + ratio * (hi - lo);
      fq = f(q);
    }
  }
  return fp <= fq ? { at: p, value: fp } : { at: q, value: fq };
}
