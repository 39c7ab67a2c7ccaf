import fc from 'fast-check';
import { AXLE_IDS } from '../../models/index.ts';
import { axleOf } from '../../src/state/axles.ts';
import type { SharedState } from '../../src/state/codec.ts';
import { LEFT_STANDS, type Left } from '../../src/state/compare.ts';
import {
  FILM_RANGE,
  KEPT_READING_RANGE,
  OFFSET_ERROR_RANGE,
  pinionShimRange,
  type Range,
  SHAFT_ANGLE_ERROR_RANGE,
  sideRange,
} from '../../src/state/ranges.ts';
import type { Setup } from '../../src/state/setup.ts';
import { CAMERA_HOMES, PICTURES } from '../../src/state/view.ts';

/** A value of `range` with as many decimals as the written form keeps. */
const inRange = (range: Range, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({
      min: Math.ceil(range.least * 10 ** decimals),
      max: Math.floor(range.most * 10 ** decimals),
    })
    .map((whole) => Number((whole / 10 ** decimals).toFixed(decimals)) + 0);

/** Any set-up that controls can reach, in the resolution that links keep. */
const arbitrarySetup: fc.Arbitrary<Setup> = fc.constantFrom(...AXLE_IDS).chain((axleId) => {
  const { axle } = axleOf(axleId);
  const side = (name: 'ringSide' | 'oppositeSide') =>
    inRange(sideRange(axle.sides[name]), axle.sides[name].kind === 'adjuster' ? 3 : 4);
  return fc.record({
    axleId: fc.constant(axleId as string),
    fitment: fc.record({
      pinionShim: inRange(pinionShimRange(axle), 4),
      ringSide: side('ringSide'),
      oppositeSide: side('oppositeSide'),
    }),
    offsetError: inRange(OFFSET_ERROR_RANGE, 4),
    shaftAngleError: inRange(SHAFT_ANGLE_ERROR_RANGE, 4),
    film: inRange({ least: FILM_RANGE.least * 1000, most: FILM_RANGE.most * 1000 }, 3).map(
      (micron) => micron / 1000,
    ),
  });
});

const arbitraryLeft: fc.Arbitrary<Left> = fc.oneof(
  fc.record({ stand: fc.constantFrom(...LEFT_STANDS), axleId: fc.constantFrom(null, ...AXLE_IDS) }),
  fc.record({ stand: fc.constant('kept' as const), setup: arbitrarySetup }),
);

/** Any state that controls can reach, in the resolution that links keep. */
export const arbitraryState: fc.Arbitrary<SharedState> = fc.record({
  setup: arbitrarySetup,
  view: fc.record({
    picture: fc.constantFrom(...PICTURES),
    camera: fc.constantFrom(...CAMERA_HOMES),
    contours: fc.boolean(),
    arrows: fc.boolean(),
  }),
  units: fc.constantFrom('mm' as const, 'in' as const, null),
  keptReading: fc.option(inRange(KEPT_READING_RANGE, 4)),
  left: arbitraryLeft,
});
