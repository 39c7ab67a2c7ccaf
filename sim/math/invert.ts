/** Inverse of a symmetric positive definite matrix by Gauss and Jordan; small n only. */
export const invert = (matrix: Float64Array, n: number): Float64Array => {
  const a = matrix.slice();
  for (let k = 0; k < n; k++) {
    const pivot = 1 / a[k * n + k];
    a[k * n + k] = 1;
    for (let j = 0; j < n; j++) a[k * n + j] *= pivot;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = a[i * n + k];
      a[i * n + k] = 0;
      for (let j = 0; j < n; j++) a[i * n + j] -= factor * a[k * n + j];
    }
  }
  return a;
};
