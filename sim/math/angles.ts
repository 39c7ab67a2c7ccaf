export const RAD_PER_DEG = Math.PI / 180;
export const DEG_PER_RAD = 180 / Math.PI;
export const TURN = 2 * Math.PI;

/** Wraps an angle (rad) to (−π, π]. */
export const wrapAngle = (angle: number): number => {
  const wrapped = angle - TURN * Math.round(angle / TURN);
  return wrapped <= -Math.PI ? wrapped + TURN : wrapped;
};
