import { NAMED_SETS } from '../../support/namedSets.ts';
import { METHODS, randomSets } from '../randomSets.ts';
import { directionsOf } from '../solve.ts';
import { blocks, fixed, largest, quantile, smallest, table } from '../text.ts';

/** Ratios of the named sets. */
export const namedBacklashRatios = (): string =>
  table(
    ['Set', 'cut method', 'per mm of ring away', 'per mm of pinion out'],
    NAMED_SETS.map((set) => {
      const { dialPerRingAway, dialPerPinionOut } = directionsOf(set);
      return [set.label, set.definition.cut.method, fixed(dialPerRingAway, 3), fixed(dialPerPinionOut, 3)];
    }),
  );

const spread = (values: readonly number[]): string =>
  [smallest(values), quantile(values, 0.5), largest(values)].map((value) => fixed(value, 3)).join(' / ');

const randomRatios = (): string => {
  const rows = METHODS.map((method) => {
    const { directions } = randomSets(method);
    return [
      `random ${method} (${directions.length})`,
      spread(directions.map(({ dialPerRingAway }) => dialPerRingAway)),
      spread(directions.map(({ dialPerPinionOut }) => dialPerPinionOut)),
    ];
  });
  return table(
    ['Sets', 'per mm of ring away: least / median / most', 'per mm of pinion out: least / median / most'],
    rows,
  );
};

/** How the square dial reading answers to ring and pinion. */
export const backlashRatiosSection = (): string =>
  blocks([
    '## Backlash ratios',
    'Change of the least dial reading over a pitch, square to the drive flank at the heel, in mm per mm of move, from a step of 0.1 mm off the design position.',
    namedBacklashRatios(),
    randomRatios(),
  ]);
