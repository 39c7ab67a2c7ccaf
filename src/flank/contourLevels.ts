/** mm, separations worth a line when lines are wanted */
export const CONTOUR_LEVELS: readonly number[] = [0.002, 0.005, 0.01, 0.02, 0.05];

/** Number of a separation in µm for beside its line; the unit stands in the key. */
export function inMicrometres(mm: number): string {
  return String(Math.round(mm * 1e4) / 10);
}
