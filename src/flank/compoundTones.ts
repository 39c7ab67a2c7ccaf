import { luminanceOf, rubbedSteel } from '../theme/steel.ts';

/** The tones a map needs of one compound colour. */
export interface CompoundTones {
  /** the compound as brushed on */
  readonly coat: string;
  /** steel where the mark has rubbed it away */
  readonly rubbed: string;
  /** the crisp border of the mark, apart from both */
  readonly rim: string;
  /** rub marks inside the mark, so that it is known by more than its shade */
  readonly grain: string;
}

const DARK_RIM = '#1d2022';
const PALE_COMPOUND = 0.5;

/**
 * `colour` as #rrggbb.
 * @throws RangeError when the colour is not of that form
 */
export function compoundTones(colour: string): CompoundTones {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) {
    throw new RangeError(`colour: ${JSON.stringify(colour)} is not of the form #rrggbb`);
  }
  const grain = luminanceOf(colour) > PALE_COMPOUND ? '#6f7478' : '#aab0b4';
  return { coat: colour, rubbed: rubbedSteel(colour), rim: DARK_RIM, grain };
}
