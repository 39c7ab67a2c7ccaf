/** Outcome of a capped search: not converging is data, not an exception. */
export interface RootResult {
  readonly converged: boolean;
  readonly root: number;
  readonly iterations: number;
  readonly residual: number;
}

/**
 * Bisects `f` on [low, high]. Without a sign change it returns `converged: false` with the end of the
 * smaller residual. Stops when the bracket is below `tolerance` or after `cap` halvings.
 */
export const bisect = (
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance = 1e-14,
  cap = 200,
): RootResult => {
  let a = low;
  let b = high;
  const fa = f(a);
  const fb = f(b);
  if (fa === 0) return { converged: true, root: a, iterations: 0, residual: 0 };
  if (fb === 0) return { converged: true, root: b, iterations: 0, residual: 0 };
  if (!(fa * fb < 0)) {
    const atLow = !(Math.abs(fb) < Math.abs(fa));
    return { converged: false, root: atLow ? a : b, iterations: 0, residual: atLow ? fa : fb };
  }
  let iterations = 0;
  let middle = 0.5 * (a + b);
  let residual = f(middle);
  while (iterations < cap && Math.abs(b - a) > tolerance * Math.max(1, Math.abs(middle))) {
    if (residual === 0) break;
    if (residual * fa > 0) a = middle;
    else b = middle;
    middle = 0.5 * (a + b);
    residual = f(middle);
    iterations++;
  }
  return { converged: true, root: middle, iterations, residual };
};

/**
 * Root of `f` between two places with known values of opposite sign, by false position with the retained end halved
 * (quick on nearly straight functions, never leaves the bracket). Converged when |f| ≤ `tolerance`; a NaN of `f` or the
 * `cap` ends it unconverged at the best place found.
 */
export const falsePosition = (
  f: (x: number) => number,
  low: { readonly x: number; readonly value: number },
  high: { readonly x: number; readonly value: number },
  tolerance: number,
  cap = 40,
): RootResult => {
  let a = low.x;
  let b = high.x;
  let fa = low.value;
  let fb = high.value;
  let root = Math.abs(fb) < Math.abs(fa) ? b : a;
  let residual = Math.abs(fb) < Math.abs(fa) ? fb : fa;
  if (Math.abs(residual) <= tolerance) return { converged: true, root, iterations: 0, residual };
  if (!(fa * fb < 0)) return { converged: false, root, iterations: 0, residual };
  let keptLow = false;
  let keptHigh = false;
  for (let iterations = 1; iterations <= cap; iterations++) {
    const x = (a * fb - b * fa) / (fb - fa);
    const value = f(x);
    if (Number.isNaN(value)) return { converged: false, root, iterations, residual };
    if (Math.abs(value) < Math.abs(residual)) {
      root = x;
      residual = value;
    }
    if (Math.abs(value) <= tolerance) return { converged: true, root: x, iterations, residual: value };
    if (value * fa > 0) {
      a = x;
      fa = value;
      if (keptHigh) fb *= 0.5;
      keptHigh = true;
      keptLow = false;
    } else {
      b = x;
      fb = value;
      if (keptLow) fa *= 0.5;
      keptLow = true;
      keptHigh = false;
    }
  }
  return { converged: false, root, iterations: cap, residual };
};

/** Least value of a unimodal `f` on [low, high] by golden section; returns the abscissa. */
export const minimize = (f: (x: number) => number, low: number, high: number, cap = 60): number => {
  const golden = (Math.sqrt(5) - 1) / 2;
  let a = low;
  let b = high;
  let c = b - golden * (b - a);
  let d = a + golden * (b - a);
  let fc = f(c);
  let fd = f(d);
  for (let i = 0; i < cap; i++) {
    if (fc < fd) {
      b = d;
      d = c;
      fd = fc;
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return 0.5 * (a + b);
};
