import type { PlanePoint } from './plane.ts';

/** Standard deviations in mm, and how the two go together. */
export interface PlaneSpread {
  readonly pinionIn: number;
  readonly ringAway: number;
  /** −1 … 1 */
  readonly correlation: number;
}

/** Squared distance, in joint standard deviations, within which 9 of 10 points of two normal numbers lie. */
const NINE_IN_TEN = -2 * Math.log(0.1);
const CORNERS = 72;

/** The oval round `middle` that holds 9 of 10 states, as a closed line of points. */
export function spreadOval(
  middle: PlanePoint,
  { pinionIn, ringAway, correlation }: PlaneSpread,
): readonly PlanePoint[] {
  const reach = Math.sqrt(NINE_IN_TEN);
  const apart = Math.sqrt(Math.max(0, 1 - correlation * correlation));
  return Array.from({ length: CORNERS }, (_, k) => {
    const turn = (2 * Math.PI * k) / CORNERS;
    const [a, b] = [reach * Math.cos(turn), reach * Math.sin(turn)];
    return {
      pinionIn: middle.pinionIn + pinionIn * a,
      ringAway: middle.ringAway + ringAway * (correlation * a + apart * b),
    };
  });
}
