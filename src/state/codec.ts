import { AXLE_IDS } from '../../models/index.ts';
import type { SideDevice } from '../../sim/assembly/hardware.ts';
import type { LengthUnit } from '../units/length.ts';
import { axleOf, DEFAULT_AXLE_ID, keyOfOwnId } from './axles.ts';
import { DEFAULT_LEFT, LEFT_STANDS, type Left } from './compare.ts';
import type { LinkProblem } from './notices.ts';
import { findOwnAxle } from './ownAxles.ts';
import { LENGTH_UNITS } from './preferences.ts';
import {
  FILM_RANGE,
  KEPT_READING_RANGE,
  OFFSET_ERROR_RANGE,
  pinionShimRange,
  type Range,
  SHAFT_ANGLE_ERROR_RANGE,
  sideRange,
  within,
} from './ranges.ts';
import { type Setup, setupAsFound } from './setup.ts';
import { CAMERA_HOMES, type CameraHome, DEFAULT_VIEW, PICTURES, type Picture, type View } from './view.ts';

/**
 * The one written form of what can be shared: links, saved files and (as objects) undo.
 * `v=1&axle=borrin&pinion=1.37&ring=0.84&opposite=0.96&…`: names in plain words, one value each, every part optional,
 * so that damage to one part leaves the others readable. What stands on the left of a comparison is written in the same
 * way, its names after `left.`.
 *
 * mm for shims and the offset error, notches for adjusters, degrees for the shaft angle error, µm for the film.
 */
export interface SharedState {
  readonly setup: Setup;
  readonly view: View;
  /** null: as the reader prefers */
  readonly units: LengthUnit | null;
  /** mm square to the flank, the reading that the backlash lock holds; null: no lock */
  readonly keptReading: number | null;
  /** what stands beside the set-up when two are compared */
  readonly left: Left;
}

export const CODEC_VERSION = 1;
/** Longest text `encodeState` writes (a property test holds it to that). */
export const LONGEST_WRITTEN = 480;
/** Longest text that is read; the rest of a longer one is left out, with a notice. */
export const LONGEST_READ = 2000;
/** Problems are listed up to this many: a damaged link may have a thousand. */
const MOST_PROBLEMS = 12;
const LONGEST_QUOTE = 40;

/** Decimals written: a tenth of a µm, a thousandth of a notch, a ten-thousandth of a degree, a nanometre of film. */
const DECIMALS = { mm: 4, notch: 3, deg: 4, µm: 3 } as const;
type NumberUnit = keyof typeof DECIMALS;

export interface DecodedState {
  readonly state: SharedState;
  /** empty when every part was understood */
  readonly problems: readonly LinkProblem[];
  /** only where the text asks for an own axle that is not here, or not in that form */
  readonly ownAxle?: OwnAxleAsked | undefined;
}

export interface OwnAxleAsked {
  readonly key: string;
  /** missing: another axle stands in, and what the text says of the axle's parts is left out */
  readonly state: 'missing' | 'changed';
}

export const defaultSharedState = (): SharedState => ({
  setup: setupAsFound(DEFAULT_AXLE_ID),
  view: DEFAULT_VIEW,
  units: null,
  keptReading: null,
  left: DEFAULT_LEFT,
});

export function encodeState({ setup, view, units, keptReading, left }: SharedState): string {
  const parts: [string, string][] = [['v', String(CODEC_VERSION)], ...setupParts('', setup)];
  if (view.picture !== DEFAULT_VIEW.picture) parts.push(['picture', view.picture]);
  if (view.camera !== DEFAULT_VIEW.camera) parts.push(['camera', view.camera]);
  if (view.contours) parts.push(['contours', 'on']);
  if (view.arrows) parts.push(['arrows', 'on']);
  if (keptReading !== null) parts.push(['keep', written(keptReading, 'mm')]);
  parts.push(...leftParts(left));
  if (units !== null) parts.push(['units', units]);
  return parts.map(([name, value]) => `${name}=${value}`).join('&');
}

/** A set-up, each part's name after `prefix`. */
function setupParts(prefix: string, setup: Setup): [string, string][] {
  const { axle } = axleOf(setup.axleId);
  const { pinionShim, ringSide, oppositeSide } = setup.fitment;
  const parts: [string, string][] = [
    ['axle', setup.axleId],
    ['pinion', written(pinionShim, 'mm')],
    ['ring', written(ringSide, sideUnit(axle.sides.ringSide))],
    ['opposite', written(oppositeSide, sideUnit(axle.sides.oppositeSide))],
    ['film', written(setup.film * 1000, 'µm')],
  ];
  if (setup.offsetError !== 0) parts.push(['offset', written(setup.offsetError, 'mm')]);
  if (setup.shaftAngleError !== 0) parts.push(['angle', written(setup.shaftAngleError, 'deg')]);
  return parts.map(([name, value]) => [`${prefix}${name}`, value]);
}

const sideUnit = ({ kind }: SideDevice): NumberUnit => (kind === 'adjuster' ? 'notch' : 'mm');

const LEFT_PREFIX = 'left.';

function leftParts(left: Left): [string, string][] {
  if (left.stand === 'kept') return [['left', 'kept'], ...setupParts(LEFT_PREFIX, left.setup)];
  const parts: [string, string][] = [];
  if (left.stand !== DEFAULT_LEFT.stand) parts.push(['left', left.stand]);
  if (left.axleId !== null) parts.push([`${LEFT_PREFIX}axle`, left.axleId]);
  return parts;
}

/**
 * Reads what can be read of `text` (without a leading `?`). A part that is unknown, damaged or out of range takes its
 * default and is reported; this never throws.
 */
export function decodeState(text: string): DecodedState {
  const problems: LinkProblem[] = [];
  const report = (problem: LinkProblem) => {
    if (problems.length < MOST_PROBLEMS) problems.push(problem);
  };
  if (text.length > LONGEST_READ) {
    report({ part: 'link', found: quote(text), allowed: { kind: 'length', most: LONGEST_READ } });
  }
  const parts = readParts(text.slice(0, LONGEST_READ), report);

  const version = parts.get('v');
  if (version !== undefined && version !== String(CODEC_VERSION)) {
    report({ part: 'v', found: quote(version), allowed: { kind: 'version', newest: CODEC_VERSION } });
  }

  const choice = <T extends string>(part: string, choices: readonly T[]): T | undefined => {
    const found = parts.get(part);
    if (found === undefined) return undefined;
    const known = choices.find((one) => one === found);
    if (known === undefined) report({ part, found: quote(found), allowed: { kind: 'choice', choices } });
    return known;
  };

  /** Of an own axle that is not here: null, and nothing of its parts is reported, since nothing is damaged. */
  const axle = (part: string) => {
    const asked = parts.get(part);
    const ownKey = asked === undefined ? null : keyOfOwnId(asked);
    const own = asked === undefined || ownKey === null ? null : findOwnAxle(asked);
    const ownAxle: OwnAxleAsked | undefined =
      ownKey === null || own === null || (own.found !== null && !own.changed)
        ? undefined
        : { key: ownKey, state: own.found === null ? 'missing' : 'changed' };
    const id = own === null ? choice(part, AXLE_IDS) : own.found?.id;
    return { id, ownAxle, isDamaged: id === undefined && asked !== undefined };
  };

  const number = (part: string, range: Range, unit: NumberUnit): number | undefined => {
    const found = parts.get(part);
    if (found === undefined) return undefined;
    // no finer than it is written, so that what was read is what a further link says
    const value = NUMBER.test(found) ? Number(Number(found).toFixed(DECIMALS[unit])) + 0 : Number.NaN;
    if (within(range, value)) return value;
    report({ part, found: quote(found), allowed: { kind: 'number', ...range, unit } });
    return undefined;
  };

  const setup = (prefix: string, { id, ownAxle, isDamaged }: ReturnType<typeof axle>) => {
    const asFound = setupAsFound(id ?? DEFAULT_AXLE_ID);
    const { pinionShim, ringSide, oppositeSide } = asFound.fitment;
    const hardware = axleOf(asFound.axleId).axle;
    /** Shims of an axle that is not known mean nothing on another one. */
    const ofAxle = (name: string, range: Range, unit: NumberUnit): number | undefined => {
      const part = `${prefix}${name}`;
      const found = parts.get(part);
      if (!isDamaged || found === undefined) return number(part, range, unit);
      if (ownAxle === undefined) {
        report({ part, found: quote(found), allowed: { kind: 'not-for-this-axle' } });
      }
      return undefined;
    };
    const { sides } = hardware;
    const film = number(
      `${prefix}film`,
      { least: FILM_RANGE.least * 1000, most: FILM_RANGE.most * 1000 },
      'µm',
    );
    const read: Setup = {
      axleId: asFound.axleId,
      fitment: {
        pinionShim: ofAxle('pinion', pinionShimRange(hardware), 'mm') ?? pinionShim,
        ringSide: ofAxle('ring', sideRange(sides.ringSide), sideUnit(sides.ringSide)) ?? ringSide,
        oppositeSide:
          ofAxle('opposite', sideRange(sides.oppositeSide), sideUnit(sides.oppositeSide)) ?? oppositeSide,
      },
      offsetError: number(`${prefix}offset`, OFFSET_ERROR_RANGE, 'mm') ?? 0,
      shaftAngleError: number(`${prefix}angle`, SHAFT_ANGLE_ERROR_RANGE, 'deg') ?? 0,
      film: film === undefined ? asFound.film : film / 1000,
    };
    return { read, ofAxle };
  };

  const right = axle('axle');
  const { read, ofAxle } = setup('', right);

  const left = (): Left => {
    const stand = choice('left', [...LEFT_STANDS, 'kept']) ?? DEFAULT_LEFT.stand;
    const asked = axle(`${LEFT_PREFIX}axle`);
    if (stand !== 'kept') return { stand, axleId: asked.id ?? null };
    const kept = setup(LEFT_PREFIX, asked).read;
    // the shims of an axle that is not here are nothing to compare with
    return asked.id === undefined ? DEFAULT_LEFT : { stand, setup: kept };
  };

  const state: SharedState = {
    setup: read,
    view: {
      picture: choice<Picture>('picture', PICTURES) ?? DEFAULT_VIEW.picture,
      camera: choice<CameraHome>('camera', CAMERA_HOMES) ?? DEFAULT_VIEW.camera,
      contours: choice('contours', ['on', 'off']) === 'on',
      arrows: choice('arrows', ['on', 'off']) === 'on',
    },
    units: choice<LengthUnit>('units', LENGTH_UNITS) ?? null,
    // a reading of another axle's mesh
    keptReading: ofAxle('keep', KEPT_READING_RANGE, 'mm') ?? null,
    left: left(),
  };
  return { state, problems, ownAxle: right.ownAxle };
}

const KNOWN_PARTS: ReadonlySet<string> = new Set([
  'v',
  'axle',
  'pinion',
  'ring',
  'opposite',
  'film',
  'offset',
  'angle',
  'picture',
  'camera',
  'contours',
  'arrows',
  'keep',
  'units',
  'left',
  'left.axle',
  'left.pinion',
  'left.ring',
  'left.opposite',
  'left.film',
  'left.offset',
  'left.angle',
]);

const NUMBER = /^-?\d{1,4}(\.\d{1,8})?$/;

function readParts(text: string, report: (problem: LinkProblem) => void): ReadonlyMap<string, string> {
  const parts = new Map<string, string>();
  for (const [name, value] of new URLSearchParams(text)) {
    if (KNOWN_PARTS.has(name) && !parts.has(name)) parts.set(name, value);
    else report({ part: quote(name), found: quote(value), allowed: { kind: 'unknown-part' } });
  }
  return parts;
}

/** No exponents, no trailing noughts, no negative nought. */
function written(value: number, unit: NumberUnit): string {
  return String(Number(value.toFixed(DECIMALS[unit])) + 0);
}

function quote(text: string): string {
  return text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
}
