/**
 * Correlation of u and v over the mark, −1 … +1: the slant of an oval. Whole grid cells' worth of accuracy is enough,
 * so every node inside counts with the share of its neighbourhood that the film leaves it.
 * separation and tipClearance in mm, row-major over the (u, v) square; 0 without a mark.
 */
export const markCorrelation = (
  separation: Float64Array,
  tipClearance: Float64Array,
  columns: number,
  rows: number,
  film: number,
): number => {
  const du = 2 / (columns - 1);
  const dv = 2 / (rows - 1);
  // A node counts fully well inside, half on the border of the mark, not at all outside: this keeps it smooth.
  const soft = 0.3 * film;
  let mass = 0;
  let mu = 0;
  let mv = 0;
  let muu = 0;
  let muv = 0;
  let mvv = 0;
  for (let j = 0, node = 0; j < rows; j++) {
    const v = -1 + j * dv;
    for (let i = 0; i < columns; i++, node++) {
      const depth = (film - separation[node]) / soft;
      if (depth <= -1 || tipClearance[node] < 0) continue;
      const weight = depth >= 1 ? 1 : 0.5 * (1 + depth);
      const u = -1 + i * du;
      mass += weight;
      mu += weight * u;
      mv += weight * v;
      muu += weight * u * u;
      muv += weight * u * v;
      mvv += weight * v * v;
    }
  }
  if (mass === 0) return 0;
  mu /= mass;
  mv /= mass;
  return correlation(muu / mass - mu * mu, muv / mass - mu * mv, mvv / mass - mv * mv);
};

/** Zero where a direction has no extent. */
export const correlation = (uu: number, uv: number, vv: number): number =>
  uu > 1e-9 && vv > 1e-9 ? uv / Math.sqrt(uu * vv) : 0;
