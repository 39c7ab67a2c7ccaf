import { describe, expect, it } from 'vitest';
import { blankLook } from '../../src/state/look.ts';
import { ovalMark, type PaintedMark } from '../../src/state/paintedMark.ts';
import { sameTrialLook, type Trial } from '../../src/state/trial.ts';
import { readTrial, writeTrial } from '../../src/state/trialRecord.ts';
import { type Random, seededRandom } from '../support/random.ts';

const spread = (random: Random) => ({ mean: random.between(-1, 1), sd: random.between(0, 0.5) });

const someMark = (random: Random): PaintedMark | null =>
  random.pick([true, true, false])
    ? ovalMark({
        toeHeel: random.between(-0.5, 0.5),
        rootFace: random.between(-0.5, 0.5),
        length: random.between(0.1, 0.9),
        height: random.between(0.1, 0.9),
        tilt: 0,
      })
    : null;

const someSeen = (random: Random) => ({
  drive: someMark(random),
  coast: someMark(random),
  readings: Array.from({ length: random.whole(0, 5) }, () => random.between(0, 0.4)),
  sureness: random.pick(['careful', 'rough'] as const),
});

const someFitment = (random: Random) => ({
  pinionShim: random.between(0.5, 2),
  ringSide: random.between(4, 8),
  oppositeSide: random.whole(0, 40),
});

function someTrial(random: Random): Trial {
  const { axleId, ...blank } = blankLook(random.pick(['borrin', 'cavel', 'elspar']));
  const kind = random.pick(['change', 'leave', 'refused'] as const);
  const markOf = () => ({ toeHeel: spread(random), rootFace: random.pick([null, spread(random)]) });
  return {
    id: Array.from({ length: 12 }, () => random.pick([...'abcxyz0189'])).join(''),
    axleId,
    number: random.whole(1, 300),
    when: new Date(Date.UTC(2031, random.whole(0, 11), random.whole(1, 28), 13, 5, 7, 89)).toISOString(),
    look: {
      ...blank,
      ...someSeen(random),
      fitment: someFitment(random),
      gears: random.pick(['new', 'used'] as const),
      cut: random.pick(['known', 'unknown'] as const),
      recorded: random.pick([null, someSeen(random)]),
      earlier: Array.from({ length: random.whole(0, 5) }, () => ({
        ...someSeen(random),
        fitment: someFitment(random),
      })),
    },
    found: {
      pose: {
        pinionIn: spread(random),
        ringAway: spread(random),
        offsetError: spread(random),
        shaftAngleError: spread(random),
      },
      shimmable: random.pick([true, false, null]),
    },
    advised: {
      kind,
      fitment: kind === 'change' ? someFitment(random) : null,
      move: kind === 'change' ? { pinionIn: random.between(-0.3, 0.3), ringAway: 0 } : null,
      predicted:
        kind === 'refused'
          ? null
          : { drive: markOf(), coast: markOf(), dial: spread(random), allRight: random.between(0, 1) },
    },
    note: random.pick(['', 'first setting', 'ring “20” ± nothing\u2028', 'ü'.repeat(200)]),
  };
}

const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** Every place in a JSON value, by its way from the top. */
function places(value: unknown, way: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [way];
  return [way, ...Object.entries(value).flatMap(([key, part]) => places(part, [...way, key]))];
}

type Json = Record<string, unknown>;
const at = (value: unknown, way: readonly string[]): unknown =>
  way.reduce((part, key) => (part as Json)[key], value);

const STRANGE: readonly unknown[] = [
  null,
  true,
  '',
  'x',
  '0.1',
  0,
  -1,
  1e9,
  -1e-300,
  0.1 + 0.2,
  [],
  [null],
  {},
  { mean: 0, sd: -1 },
  { columns: 3, rows: 3, bits: '****' },
  { columns: 1e9, rows: 3, bits: '' },
  'n'.repeat(201),
  '2031-02-30T00:00:00.000Z',
];

/** Changes one place: another value, gone, moved on a little, a stranger beside it, a text with one sign changed. */
function mutate(written: unknown, random: Random): unknown {
  const copy = asJson(written);
  const way = random.pick(places(copy).slice(1));
  const owner = at(copy, way.slice(0, -1)) as Json;
  const key = way.at(-1) as string;
  const old = owner[key];
  const how = random.whole(0, 4);
  if (how === 0) owner[key] = asJson(random.pick(STRANGE));
  else if (how === 1) {
    if (Array.isArray(owner)) owner.splice(Number(key), 1);
    else delete owner[key];
  } else if (how === 2 && typeof old === 'number') owner[key] = old + random.between(-300, 300);
  else if (how === 3 && typeof old === 'string' && old !== '') {
    const place = random.whole(0, old.length - 1);
    owner[key] = `${old.slice(0, place)}${random.pick([...'aA1=- *é'])}${old.slice(place + 1)}`;
  } else if (Array.isArray(owner)) owner.push(...Array.from({ length: 30 }, () => old));
  else
    Object.defineProperty(owner, random.pick(['extra', '__proto__', 'mean2']), {
      value: old,
      enumerable: true,
    });
  return copy;
}

describe('a trial as it is written', () => {
  it('reads back equal, whatever it holds (seed 9417)', () => {
    const random = seededRandom(9417);
    for (let k = 0; k < 60; k += 1) {
      const trial = someTrial(random);
      const written = asJson(writeTrial(trial));
      const back = readTrial(written);
      if (!back.ok) throw new Error(JSON.stringify(back.problems));
      // square by square: a matcher takes seconds for so many
      expect(sameTrialLook(back.value.look, trial.look)).toBe(true);
      expect({ ...back.value, look: null }).toEqual({ ...trial, look: null });
      expect(asJson(writeTrial(back.value))).toEqual(written);
    }
  });

  it('and then changed in 600 places is refused with the field named, or read as it stands there (seed 9418)', () => {
    const random = seededRandom(9418);
    let refused = 0;
    let read = 0;
    for (let k = 0; k < 600; k += 1) {
      const mutated = mutate(writeTrial(someTrial(random)), random);
      const parsed = readTrial(mutated);
      if (parsed.ok) {
        read += 1;
        // nothing of it is dropped or put right in silence
        expect(asJson(writeTrial(parsed.value))).toEqual(mutated);
      } else {
        refused += 1;
        expect(parsed.problems).toHaveLength(1);
        const [{ field, value, allowed }] = parsed.problems;
        expect(field).toMatch(/^(id|axleId|number|when|look|found|advised|note|extra|__proto__|mean2)(\.|$)/);
        expect(value).not.toBe('');
        expect(allowed).not.toBe('');
      }
    }
    expect(refused).toBeGreaterThan(300);
    expect(read).toBeGreaterThan(20);
  });

  it.each([null, 7, 'trial', [], {}, undefined])('is not this: %j', (foreign) => {
    const parsed = readTrial(foreign);
    expect(parsed).toMatchObject({ ok: false });
  });

  it('with a mark that we would write otherwise is refused: bits beyond the last square, spaces, more fields', () => {
    const read = (mark: unknown) => {
      const written = asJson(writeTrial(someTrial(seededRandom(2)))) as { look: Json };
      written.look.drive = mark;
      return readTrial(written);
    };
    const nine = { columns: 3, rows: 3, bits: btoa('\xff\x01') };
    expect(read(nine).ok).toBe(true);
    for (const mark of [
      { ...nine, bits: btoa('\xff\x03') },
      { ...nine, bits: ` ${nine.bits}` },
      { ...nine, colour: 'yellow' },
    ]) {
      expect(read(mark)).toMatchObject({ ok: false, problems: [{ field: 'look.drive' }] });
    }
  });

  it('names the field, what was found and what is allowed', () => {
    const written = asJson(writeTrial(someTrial(seededRandom(1)))) as Json;
    const found = written.found as { pose: { pinionIn: Json } };
    found.pose.pinionIn.sd = -3;
    expect(readTrial(written)).toEqual({
      ok: false,
      problems: [{ field: 'found.pose.pinionIn.sd', value: '-3', allowed: 'a number from 0 to 100' }],
    });
  });
});
