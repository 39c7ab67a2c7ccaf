import type { PlotBox } from './scales.ts';
import type { BoxSize } from './useBoxSize.ts';

/** Room round the plot in text heights: numbers and names of the axes; the limits to the right of it. */
const ROOM = { left: 3.9, right: 4.6, top: 0.9, bottom: 3.5 } as const;

/** A narrow screen spends less on the margins. */
const NARROW = 460;
const NARROW_ROOM = { left: 3.5, right: 3.6, top: 0.7, bottom: 3.3 } as const;

export function plotBox({ width, height, em }: BoxSize): PlotBox {
  const room = width < NARROW ? NARROW_ROOM : ROOM;
  const left = Math.round(room.left * em);
  const top = Math.round(room.top * em);
  return {
    left,
    top,
    width: Math.max(40, Math.round(width - left - room.right * em)),
    height: Math.max(40, Math.round(height - top - room.bottom * em)),
  };
}
