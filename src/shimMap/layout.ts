import type { LengthUnit } from '../units/length.ts';
import type { PlotBox } from './scales.ts';
import type { BoxSize } from './useBoxSize.ts';

/** Room round the plot in text heights: numbers and names of the axes; to the right of it the limits. */
const ROOM = { left: 3.9, right: { mm: 5, in: 6.2 }, top: 0.9, bottom: 3.5 } as const;

/** A narrow screen spends less on the margins: the limits stand there without a word. */
const NARROW_ROOM = { left: 3.7, right: { mm: 2.9, in: 3.9 }, top: 0.7, bottom: 3.3 } as const;

/** Inch has more decimals on the left too. */
const INCH_LEFT = 0.5;

export const isNarrow = ({ width, em }: BoxSize): boolean => width < 30 * em;

export function plotBox(size: BoxSize, unit: LengthUnit): PlotBox {
  const { width, height, em } = size;
  const room = isNarrow(size) ? NARROW_ROOM : ROOM;
  const left = Math.round((room.left + (unit === 'in' ? INCH_LEFT : 0)) * em);
  const top = Math.round(room.top * em);
  return {
    left,
    top,
    width: Math.max(40, Math.round(width - left - room.right[unit] * em)),
    height: Math.max(40, Math.round(height - top - room.bottom * em)),
  };
}

/** Mean width of a letter and room between two texts, in text heights of the page. */
const LETTER = 0.45;
const GAP = 0.5;

/** Does an axis `length` px long hold its name in the middle between the words at its ends? */
export function nameFits(name: string, ends: readonly string[], length: number, em: number): boolean {
  const longest = Math.max(...ends.map((end) => end.length));
  return (name.length / 2 + longest) * LETTER * em + GAP * em <= length / 2;
}
