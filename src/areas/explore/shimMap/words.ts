import type { AxleDefinition } from '../../../../models/axle.ts';
import type { SideExplanation } from '../../../../sim/assembly/explain.ts';
import type { Fitment, SideDevice } from '../../../../sim/assembly/hardware.ts';
import { pinionInFromShim, ringAwayFromSides } from '../../../../sim/worker/assembly.ts';
import { sayNotches } from '../../../app/ui/notches.ts';
import { digitsFor, digitsToShow, type Lengths, SHIM_DIGITS } from '../../../app/ui/useLengths.ts';
import { alongWords, edgeList, percent, upWords } from '../../../flank/describePattern.ts';
import { NO_MARK } from '../../../shimMap/fields.ts';
import type { Translate } from '../../../text/translate.ts';
import type { BacklashReading } from '../backlash.ts';
import type { FlankState, PlaceState } from './placeState.ts';
import type { PinionLeg, Route, SidesLeg } from './route.ts';

/** Rounds to nothing on any screen. */
const NOTHING = 5e-7;

/** One place in words, line by line. */
export interface PlaceWords {
  readonly pinion: string;
  readonly sides: string;
  readonly backlash: string;
  readonly drive: string;
  readonly coast: string;
  readonly home: string;
}

export interface Speech {
  readonly t: Translate;
  readonly lengths: Lengths;
}

/** `state` as far as it is known. */
export function placeWords(
  axle: AxleDefinition,
  fitment: Fitment,
  state: Partial<PlaceState>,
  speech: Speech,
): PlaceWords {
  const { t } = speech;
  const waiting = t('shimMap.waiting');
  return {
    pinion: pinionWords(axle, fitment, speech),
    sides: sidesWords(axle, fitment, speech),
    backlash: state.backlash === undefined ? waiting : backlashWords(state.backlash, speech),
    drive: state.drive === undefined ? waiting : flankWords(state.drive, t),
    coast: state.coast === undefined ? waiting : flankWords(state.coast, t),
    home: state.offHome === undefined ? waiting : homeWords(state.offHome, t),
  };
}

function pinionWords({ pinionShim }: AxleDefinition, fitment: Fitment, { t, lengths }: Speech): string {
  const thickness = sayShim(fitment.pinionShim, pinionShim.stock.step, lengths);
  const pinionIn = pinionInFromShim(pinionShim, fitment.pinionShim);
  if (Math.abs(pinionIn) < NOTHING) return t('shimMap.pinion.design', { thickness });
  return t('shimMap.pinion.at', {
    thickness,
    amount: lengths.move(pinionIn),
    way: pinionIn > 0 ? 'in' : 'out',
  });
}

const sayShim = (mm: number, step: number, lengths: Lengths): string =>
  lengths.say(mm, digitsToShow(digitsFor(step), mm));

function sidesWords({ sides }: AxleDefinition, fitment: Fitment, { t, lengths }: Speech): string {
  const side = (device: SideDevice, setting: number): string =>
    device.kind === 'adjuster' ? sayNotches(setting, t) : sayShim(setting, device.stock.step, lengths);
  const ring = side(sides.ringSide, fitment.ringSide);
  const opposite = side(sides.oppositeSide, fitment.oppositeSide);
  const ringAway = ringAwayFromSides(sides, fitment);
  if (Math.abs(ringAway) < NOTHING) return t('shimMap.sides.design', { ring, opposite });
  return t('shimMap.sides.at', {
    ring,
    opposite,
    amount: lengths.move(ringAway),
    way: ringAway > 0 ? 'out' : 'in',
  });
}

function backlashWords({ least, mean, verdict, beyond }: BacklashReading, { t, lengths }: Speech): string {
  if (verdict === 'binds') return t('shimMap.backlash.binds');
  // what is held against the limit: the mean when it is too much, else the least
  const reading = verdict === 'above' ? mean : least;
  if (verdict === 'unknown' || reading === null) return t('shimMap.backlash.unknown');
  const amount = lengths.say(reading, SHIM_DIGITS);
  if (verdict === 'inside') return t('shimMap.backlash.inside', { amount });
  return t(`shimMap.backlash.${verdict}`, { amount, beyond: lengths.amount(beyond, SHIM_DIGITS) });
}

function flankWords({ toeHeel, rootFace, edges }: FlankState, t: Translate): string {
  if (Number.isNaN(toeHeel) || Number.isNaN(rootFace)) return t('shimMap.flank.none');
  const along = alongWords(toeHeel, t);
  const up = upWords(rootFace, t);
  return edges.length === 0
    ? t('shimMap.flank.at', { along, up })
    : t('shimMap.flank.edges', { along, up, edges: edgeList(edges, t) });
}

const homeWords = (offHome: number, t: Translate): string =>
  offHome >= NO_MARK ? t('shimMap.home.none') : t('shimMap.home.percent', { percent: percent(offHome) });

/** The legs of a route, each with what it costs; empty where nothing changes. */
export function routeWords(route: Route, speech: Speech): readonly string[] {
  return [
    ...(route.pinion === null ? [] : [pinionLegWords(route.pinion, speech)]),
    ...(route.sides === null ? [] : [sidesLegWords(route.sides, speech)]),
  ];
}

function pinionLegWords(leg: PinionLeg, { t, lengths }: Speech): string {
  const { spacerChange } = leg;
  return [
    t('shimMap.route.pinion', {
      amount: lengths.move(leg.amount),
      change: leg.change,
      way: leg.pinionMoves,
    }),
    t(`shimMap.cost.${leg.place}`),
    ...(leg.newCrushSleeve ? [t('shimMap.cost.sleeve')] : []),
    ...(spacerChange === 0
      ? []
      : [
          t('shimMap.cost.spacer', {
            amount: lengths.move(spacerChange),
            change: spacerChange > 0 ? 'thicker' : 'thinner',
          }),
        ]),
  ].join(' ');
}

function sidesLegWords({ explanation, work }: SidesLeg, { t, lengths }: Speech): string {
  const { ringSide, oppositeSide, ringMoves, ringTravel } = explanation;
  const bothShims = ringSide.kind !== 'adjuster' && oppositeSide.kind !== 'adjuster';
  const transferred =
    bothShims && ringMoves !== 'none' && Math.abs(ringSide.travel - oppositeSide.travel) < 1e-6;
  const what = transferred
    ? t('shimMap.route.shims', { amount: lengths.move(ringTravel), way: ringMoves })
    : t('shimMap.route.sides', {
        ring: sideWords(ringSide, { t, lengths }),
        opposite: sideWords(oppositeSide, { t, lengths }),
        way: ringMoves,
      });
  return `${what} ${t(`shimMap.cost.${work}`)}`;
}

function sideWords(side: SideExplanation, { t, lengths }: Speech): string {
  if (side.change === 'same') return t('shimMap.route.side.stays');
  const inward = side.change === 'thicker';
  if (side.kind === 'adjuster') {
    return t(inward ? 'explore.sides.adjusterIn' : 'explore.sides.adjusterOut', {
      amount: sayNotches(side.amount, t),
    });
  }
  return t(inward ? 'explore.sides.shimThicker' : 'explore.sides.shimThinner', {
    amount: lengths.move(side.amount),
  });
}
