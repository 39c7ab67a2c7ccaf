import { scaleLinear } from 'd3-scale';
import type { ChartSize } from './useChartSize.ts';

/** Where a chart over one pitch has its edges, px. */
export interface ChartFrame {
  readonly left: number;
  readonly right: number;
  /** pitches 0…1 → px */
  readonly x: (pitches: number) => number;
}

/** The same frame for every chart of one width, so that a place of the pitch stands under itself. */
export function frameOf({ width, rem }: ChartSize): ChartFrame {
  const left = Math.round(3.7 * rem);
  const right = width - Math.round(0.6 * rem);
  return { left, right, x: scaleLinear([0, 1], [left, right]) };
}

/** Pointer over a chart → nearest tabulated place. */
export function placeAt(
  event: { clientX: number; currentTarget: Element },
  frame: ChartFrame,
  places: number,
): number {
  const box = event.currentTarget.getBoundingClientRect();
  const share = (event.clientX - box.left - frame.left) / (frame.right - frame.left);
  return Math.min(Math.max(Math.round(share * places), 0), places - 1);
}
