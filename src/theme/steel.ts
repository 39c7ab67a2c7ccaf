const DARK_STEEL = '#55595c';
const BRIGHT_STEEL = '#e4e7e9';

const channel = (colour: string, from: number): number =>
  Number.parseInt(colour.slice(from, from + 2), 16) / 255;

/** Relative luminance of #rrggbb without its gamma: enough to tell pale from dark. */
export const luminanceOf = (colour: string): number =>
  0.2126 * channel(colour, 1) + 0.7152 * channel(colour, 3) + 0.0722 * channel(colour, 5);

/**
 * sRGB of the tooth where a compound (#rrggbb) is rubbed away, the same on the stage and on the flank maps. Bare steel
 * looks dark beside a pale compound and bright beside a deep one.
 */
export const rubbedSteel = (compound: string): string =>
  luminanceOf(compound) > 0.5 ? DARK_STEEL : BRIGHT_STEEL;
