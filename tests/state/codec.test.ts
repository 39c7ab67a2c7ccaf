import { test as property } from '@fast-check/vitest';
import encodeQR from 'qr';
import { describe, expect, it } from 'vitest';
import {
  CODEC_VERSION,
  decodeState,
  defaultSharedState,
  encodeState,
  LONGEST_READ,
  LONGEST_WRITTEN,
} from '../../src/state/codec.ts';
import { DEFAULT_LEFT, type Left } from '../../src/state/compare.ts';
import { setupAsFound } from '../../src/state/setup.ts';
import { seededRandom } from '../support/random.ts';
import { arbitraryState } from './arbitrarySetup.ts';

const SEED = 20261124;
/** Every printable sign of ASCII, and some that a chat program may put in. */
const SIGNS = `${String.fromCharCode(...Array.from({ length: 95 }, (_, code) => code + 32))}\n\u0000é€🦷%`;

describe('the written state', () => {
  property.prop([arbitraryState], { seed: SEED, numRuns: 300 })(
    `comes back as it was written, within its bound (seed ${SEED})`,
    (state) => {
      const text = encodeState(state);
      expect(text.length).toBeLessThanOrEqual(LONGEST_WRITTEN);
      expect(text).toMatch(/^[a-z0-9=&.-]+$/i);
      expect(decodeState(text)).toEqual({ state, problems: [] });
    },
  );

  it('says nothing against an empty text and gives the default', () => {
    expect(decodeState('')).toEqual({ state: defaultSharedState(), problems: [] });
  });

  it(`survives 500 damaged texts (seed ${SEED}): never throws, always a state within its ranges`, () => {
    const random = seededRandom(SEED);
    let reported = 0;
    for (let run = 0; run < 500; run += 1) {
      const sound = encodeState({
        ...defaultSharedState(),
        setup: { ...setupAsFound(random.pick(['aldra', 'cavel', 'dornet'])), offsetError: 0.12 },
        left: random.pick<Left>([
          DEFAULT_LEFT,
          { stand: 'alike', axleId: 'elspar' },
          { stand: 'kept', setup: { ...setupAsFound('borrin'), film: 0.0085 } },
        ]),
      });
      const damaged = damage(sound, random);
      const { state, problems } = decodeState(damaged);
      // what was made of it is a state like any other: it writes and reads back without a problem
      expect(decodeState(encodeState(state)), JSON.stringify(damaged)).toEqual({ state, problems: [] });
      if (problems.length > 0) reported += 1;
      for (const problem of problems) expect(problem.found.length).toBeLessThanOrEqual(41);
    }
    expect(reported).toBeGreaterThan(250);
  });

  it('gives a default to each bad part alone and reports it with what would do', () => {
    const { state, problems } = decodeState(
      'v=1&axle=cavel&pinion=1.65&ring=70&opposite=1e2&film=200&offset=0,1&camera=moon&contours=on&units=cubits&x=1',
    );
    const found = setupAsFound('cavel');
    expect(state).toEqual({
      setup: { ...found, fitment: { ...found.fitment, pinionShim: 1.65, ringSide: 70 } },
      view: { picture: 'gears', camera: 'mesh', contours: true, arrows: false },
      units: null,
      keptReading: null,
      left: DEFAULT_LEFT,
    });
    expect(problems.map(({ part, allowed }) => [part, allowed.kind])).toEqual([
      ['x', 'unknown-part'],
      ['film', 'number'],
      ['opposite', 'number'],
      ['offset', 'number'],
      ['camera', 'choice'],
      ['units', 'choice'],
    ]);
    expect(problems[1]).toEqual({
      part: 'film',
      found: '200',
      allowed: { kind: 'number', least: 2, most: 40, unit: 'µm' },
    });
  });

  it('carries the reading that the backlash lock holds, and refuses one that no mesh has', () => {
    expect(decodeState('axle=cavel&keep=0.2305').state.keptReading).toBe(0.2305);
    const { state, problems } = decodeState('axle=cavel&keep=9');
    expect(state.keptReading).toBeNull();
    expect(problems).toEqual([
      { part: 'keep', found: '9', allowed: { kind: 'number', least: -1, most: 2, unit: 'mm' } },
    ]);
  });

  it('carries what stands on the left of a comparison, and leaves out what belongs to no axle known here', () => {
    expect(decodeState('axle=cavel').state.left).toEqual(DEFAULT_LEFT);
    expect(decodeState('axle=cavel&left=alike&left.axle=borrin').state.left).toEqual({
      stand: 'alike',
      axleId: 'borrin',
    });
    const kept = decodeState('axle=cavel&left=kept&left.axle=borrin&left.pinion=1.425&left.offset=0.02');
    const found = setupAsFound('borrin');
    expect(kept).toMatchObject({
      state: {
        setup: setupAsFound('cavel'),
        left: {
          stand: 'kept',
          setup: { ...found, offsetError: 0.02, fitment: { ...found.fitment, pinionShim: 1.425 } },
        },
      },
      problems: [],
    });
    const damaged = decodeState('axle=cavel&left=kept&left.axle=nosuch&left.pinion=1.425&left.film=9000');
    expect(damaged.state.left).toEqual(DEFAULT_LEFT);
    expect(damaged.problems.map(({ part }) => part)).toEqual(['left.axle', 'left.film', 'left.pinion']);
    expect(decodeState('left=above').problems).toMatchObject([{ part: 'left', allowed: { kind: 'choice' } }]);
  });

  property.prop([arbitraryState], { seed: SEED, numRuns: 5 })(
    `as a link of the longest kind fits a QR code that a phone reads off a screen (seed ${SEED})`,
    (state) => {
      const text = encodeState(state).padEnd(LONGEST_WRITTEN, '0');
      const rows = encodeQR(`https://training.workshop.example/meshwitness/#/explore?${text}`, 'raw', {
        ecc: 'medium',
        border: 4,
      });
      // version 21 has 101 modules; on a phone held to a projector's or a tablet's screen each is still 3 px
      expect(rows.length - 8).toBeLessThanOrEqual(101);
    },
  );

  it('does not put the shims of an unknown axle into another one', () => {
    const { state, problems } = decodeState(
      'v=1&axle=nosuch&pinion=1.4&ring=5.9&opposite=6.1&offset=0.1&keep=0.1',
    );
    expect(state.keptReading).toBeNull();
    expect(state.setup).toEqual({ ...setupAsFound('borrin'), offsetError: 0.1 });
    expect(problems.map(({ part, allowed }) => [part, allowed.kind])).toEqual([
      ['axle', 'choice'],
      ['pinion', 'not-for-this-axle'],
      ['ring', 'not-for-this-axle'],
      ['opposite', 'not-for-this-axle'],
      ['keep', 'not-for-this-axle'],
    ]);
  });

  it('reads what it knows of a newer version, and says that it is newer', () => {
    const { state, problems } = decodeState('v=2&axle=aldra&pinion=1.3');
    expect(state.setup.fitment.pinionShim).toBe(1.3);
    expect(problems).toEqual([
      { part: 'v', found: '2', allowed: { kind: 'version', newest: CODEC_VERSION } },
    ]);
  });

  it('reads only the beginning of an endless text', () => {
    const { state, problems } = decodeState(`v=1&axle=elspar&${'pinion=1.25&'.repeat(1e5)}`);
    expect(state.setup.axleId).toBe('elspar');
    expect(problems[0].allowed).toEqual({ kind: 'length', most: LONGEST_READ });
    expect(problems.length).toBeLessThanOrEqual(12);
  });

  it('refuses a number outside its range rather than moving it to the edge', () => {
    const { state, problems } = decodeState('axle=borrin&pinion=1.9');
    expect(state.setup.fitment.pinionShim).toBe(1.35);
    expect(problems).toEqual([
      { part: 'pinion', found: '1.9', allowed: { kind: 'number', least: 1, most: 1.7, unit: 'mm' } },
    ]);
  });
});

function damage(text: string, random: ReturnType<typeof seededRandom>): string {
  const signs = [...text];
  const at = () => random.whole(0, signs.length);
  const times = random.whole(1, 6);
  for (let time = 0; time < times; time += 1) {
    const way = random.whole(0, 4);
    if (way === 0) signs.splice(at(), random.whole(1, 12));
    if (way === 1) signs.splice(at(), 0, random.pick([...SIGNS]));
    if (way === 2) signs.splice(at(), 1, random.pick([...SIGNS]));
    if (way === 3) signs.splice(at(), 0, ...signs.slice(at(), at()));
    if (way === 4) signs.length = Math.min(signs.length, at());
  }
  return signs.join('');
}
