/**
 * Cholesky factor of the symmetric positive definite n×n `matrix` (row-major), in place in its lower half.
 * Returns false when the matrix is not positive definite (too few or badly placed equations).
 */
export const factorNormalEquations = (matrix: Float64Array, n: number): boolean => {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k] * matrix[j * n + k];
      if (i === j) {
        if (!(sum > 0)) return false;
        matrix[i * n + i] = Math.sqrt(sum);
      } else {
        matrix[i * n + j] = sum / matrix[j * n + j];
      }
    }
  }
  return true;
};

/** Solution for one right-hand side of n entries, in place, with the factor from `factorNormalEquations`. */
export const substituteInto = (factor: Float64Array, rhs: Float64Array, n: number): void => {
  for (let i = 0; i < n; i++) {
    let sum = rhs[i];
    for (let k = 0; k < i; k++) sum -= factor[i * n + k] * rhs[k];
    rhs[i] = sum / factor[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = rhs[i];
    for (let k = i + 1; k < n; k++) sum -= factor[k * n + i] * rhs[k];
    rhs[i] = sum / factor[i * n + i];
  }
};

/**
 * Solves the symmetric positive definite system `matrix · x = rhs` in place by Cholesky.
 * `matrix` is n×n row-major and `rhs` has n entries; both are overwritten, the solution is in `rhs`.
 * Returns false when the matrix is not positive definite (too few or badly placed equations).
 */
export const solveNormalEquations = (matrix: Float64Array, rhs: Float64Array, n: number): boolean => {
  if (!factorNormalEquations(matrix, n)) return false;
  substituteInto(matrix, rhs, n);
  return true;
};
