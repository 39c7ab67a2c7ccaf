import type { FlankName } from '../../sim/gearset/definition.ts';
import type { EdgeName } from '../../sim/worker/protocol.ts';

/**
 * Lines lie as the edge does on a flank map: toe and heel are its upright ends (lines leaning to one side and to the
 * other, since both could not be upright), face and root its long borders.
 */
export const HATCH_TURNS: Readonly<Record<EdgeName, number>> = { toe: 45, heel: -45, face: 0, root: 90 };

/** px from line to line */
export const HATCH_SPACING = 9;

/** px of the lines: full ones for the drive flank, dotted for the coast flank. */
export const HATCH_STROKES: Readonly<
  Record<FlankName, { readonly width: number; readonly dashes: readonly number[] }>
> = {
  drive: { width: 1.3, dashes: [] },
  coast: { width: 1.6, dashes: [2, 2.5] },
};
