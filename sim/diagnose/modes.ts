import type { Mode } from './climb.ts';
import type { Housing } from './unknowns.ts';

/** A mode together with the housing it was climbed under. */
export interface HousedMode {
  readonly housing: Housing;
  readonly mode: Mode;
}
