/** The tones a map needs of one compound colour. */
export interface CompoundTones {
  /** the compound itself */
  readonly fill: string;
  /** the crisp border of the mark: dark enough on paper for any compound */
  readonly rim: string;
  /** rub marks inside the mark */
  readonly grain: string;
}

/**
 * `colour` as #rrggbb. The rim keeps the compound's hue and goes dark, so that a pale compound is seen on paper too.
 * @throws RangeError when the colour is not of that form
 */
export function compoundTones(colour: string): CompoundTones {
  const match = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  if (match === null) throw new RangeError(`colour: ${JSON.stringify(colour)} is not of the form #rrggbb`);
  const channels = match.slice(1).map((hex) => Number.parseInt(hex, 16));
  const dark = (share: number): string =>
    `#${channels
      .map((c) =>
        Math.round(c * share)
          .toString(16)
          .padStart(2, '0'),
      )
      .join('')}`;
  // relative luminance decides how much darker the rim has to be
  const light = (0.2126 * channels[0] + 0.7152 * channels[1] + 0.0722 * channels[2]) / 255;
  return { fill: colour, rim: dark(light > 0.5 ? 0.42 : 0.55), grain: dark(light > 0.5 ? 0.72 : 0.78) };
}
