import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AXLE_FIELDS } from '../../models/axleFields.ts';
import { defaultsOf, listFields } from '../../models/field.ts';
import { GEAR_SET_FIELDS } from '../../models/gearSetFields.ts';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { type Parsed, problemLine } from '../../models/problem.ts';
import { parseAxle, parseGearSet, parseGearSetFile } from '../../models/schema.ts';

const SEED = 20264;

const fixture = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../fixtures/reference/${name}.json`, import.meta.url), 'utf8'));

type Json = Record<string, unknown>;

/** A deep copy with the value at a dotted path replaced (undefined: removed). */
function changed(json: unknown, path: string, value: unknown): Json {
  const copy = structuredClone(json) as Json;
  const keys = path.split('.');
  let node = copy;
  for (const key of keys.slice(0, -1)) node = node[key] as Json;
  const last = keys[keys.length - 1];
  if (value === undefined) delete node[last];
  else node[last] = value;
  return copy;
}

const problems = (parsed: Parsed<unknown>) => (parsed.ok ? [] : parsed.problems);

describe('descriptors', () => {
  const all = [...listFields(GEAR_SET_FIELDS), ...listFields(AXLE_FIELDS)];

  test('every default is within its own range, every label is there', () => {
    expect(all.length).toBeGreaterThan(60);
    for (const { path, field } of all) {
      expect(field.label, path).not.toBe('');
      if (field.kind !== 'number') continue;
      expect(field.min, path).toBeLessThan(field.max);
      expect(field.default, path).toBeGreaterThanOrEqual(field.min);
      expect(field.default, path).toBeLessThanOrEqual(field.max);
      expect(field.step, path).toBeGreaterThan(0);
      if (field.integer) expect(Number.isInteger(field.default), path).toBe(true);
    }
  });

  test('the defaults together are a valid gear set and a valid axle', () => {
    expect(parseGearSet(defaultsOf(GEAR_SET_FIELDS)).ok).toBe(true);
    expect(parseAxle(defaultsOf(AXLE_FIELDS))).toMatchObject({ ok: true });
  });
});

describe('gear sets', () => {
  test.each(['set-a', 'set-b'])('%s is read as it stands', (name) => {
    const json = fixture(name);
    expect(parseGearSet(json)).toEqual({ ok: true, value: json });
  });

  test('every single field is missed by its name', () => {
    for (const name of ['set-a', 'set-b']) {
      const json = fixture(name);
      const method = name === 'set-a' ? 'face-milled' : 'face-hobbed';
      const required = listFields(GEAR_SET_FIELDS).filter(
        ({ field, variant }) =>
          !('optional' in field && field.optional) && (variant === null || variant.endsWith(method)),
      );
      expect(required.length).toBeGreaterThanOrEqual(25);
      for (const { path } of required) {
        const found = problems(parseGearSet(changed(json, path, undefined)));
        expect(
          found.map((p) => p.field),
          path,
        ).toEqual([path]);
        expect(found[0].value, path).toBe('missing');
        expect(found[0].allowed.length, path).toBeGreaterThan(3);
      }
    }
  });

  test.each([
    ['pinionTeeth', 12.5, '12.5', /whole number from 4 to 30/],
    ['pinionTeeth', '12', '"12"', /whole number/],
    ['ringTeeth', null, 'null', /whole number/],
    ['ringOuterDiameter', -221, '-221', /from 60 to 1000 mm/],
    ['ringOuterDiameter', Number.POSITIVE_INFINITY, 'Infinity', /from 60/],
    ['faceWidth', Number.NaN, 'NaN', /number/],
    ['offset', 0, '0', /not between -0.5 and 0.5/],
    ['cut', 'face-milled', '"face-milled"', /object with the field method/],
    ['cut.method', 'ground', '"ground"', /one of "face-milled", "face-hobbed"/],
    ['cut.ringPitchAngle', 90, '90', /from 45 to 86 degrees/],
    [
      'cut.bladeGroups',
      13,
      '13',
      /no field of this name; the fields here are method, cutterRadius, ringPitchAngle/,
    ],
    ['tooth', [], '[]', /object with the fields pressureAngle/],
    ['tooth.pressureAngle', true, 'true', /degrees/],
    ['tooth.presureAngle', 21, '21', /no field of this name.*pressureAngle/],
    ['easeOff.drive.lengthwise', -1, '-1', /from 0 to 500 µm/],
    ['easeOff.coast.centerToeHeel', 1.01, '1.01', /from -1 to 1/],
    ['backlash', {}, '{}', /from 0.01 to 2 mm/],
    ['colour', 'red', '"red"', /no field of this name/],
  ] as const)('%s: %j is refused with value and range', (path, value, shown, allowed) => {
    const found = problems(parseGearSet(changed(fixture('set-a'), path, value)));
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]).toMatchObject({ field: path, value: shown });
    expect(found[0].allowed).toMatch(allowed);
  });

  test.each([null, undefined, 7, 'text', [], [1]])('%j is no gear set', (json) => {
    const found = problems(parseGearSet(json));
    expect(found[0].allowed).toMatch(/object|missing|number/);
  });

  test('a negative offset, a given pitch angle and a missing one are all right', () => {
    const a = fixture('set-a');
    expect(parseGearSet(changed(a, 'offset', -34)).ok).toBe(true);
    expect(parseGearSet(changed(a, 'cut.ringPitchAngle', 70.1)).ok).toBe(true);
  });

  test('face-hobbed teeth have no depth taper', () => {
    const found = problems(parseGearSet(changed(fixture('set-b'), 'tooth.depthTaper', 0.5)));
    expect(found[0]).toMatchObject({ field: 'tooth.depthTaper', value: '0.5' });
  });

  test('several problems are all told', () => {
    const two = changed(changed(fixture('set-a'), 'backlash', 'x'), 'tooth.slotFactor', 7);
    expect(problems(parseGearSet(two)).map((p) => p.field)).toEqual(['tooth.slotFactor', 'backlash']);
  });

  test('keys that objects inherit are unknown fields, not fields', () => {
    for (const key of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
      const text = JSON.stringify(fixture('set-a')).replace('{', `{${JSON.stringify(key)}:{"a":1},`);
      expect(problems(parseGearSet(JSON.parse(text))).map((p) => p.field)).toEqual([key]);
      const method = changed(fixture('set-a'), 'cut.method', key);
      expect(problems(parseGearSet(method))[0].field).toBe('cut.method');
    }
  });

  test(`anything at all is a gear set or a list of one-line problems (seed ${SEED})`, () => {
    const paths = [
      ...new Set(listFields(GEAR_SET_FIELDS).map(({ path }) => path)),
      'cut',
      'easeOff.drive',
      'x\ny',
    ];
    const numbers = new Map(listFields(GEAR_SET_FIELDS).map(({ path, field }) => [path, field]));
    fc.assert(
      fc.property(
        fc.constantFrom('set-a', 'set-b'),
        fc.constantFrom(...paths),
        fc.oneof(fc.jsonValue({ maxDepth: 2 }), fc.double(), fc.constant(undefined)),
        (name, path, value) => {
          const parsed = parseGearSet(changed(fixture(name), path, value));
          for (const problem of problems(parsed)) {
            expect(
              problem.field === path || problem.field.startsWith(`${path}.`) || path.endsWith('method'),
            ).toBe(true);
            expect(problemLine(problem)).not.toMatch(/[\n\r\u2028]/);
            expect(problem.allowed).not.toBe('');
          }
          const field = numbers.get(path);
          if (!parsed.ok || field?.kind !== 'number' || value === undefined) return;
          expect(typeof value).toBe('number');
          expect(value).toBeGreaterThanOrEqual(field.min);
          expect(value).toBeLessThanOrEqual(field.max);
        },
      ),
      { seed: SEED, numRuns: 400 },
    );
  });
});

describe('axles', () => {
  test.each(AXLE_IDS)('%s is read as it stands', (id) => {
    expect(parseAxle(AXLES[id])).toEqual({ ok: true, value: AXLES[id] });
  });

  test('every required field of every axle is missed by its name', () => {
    for (const id of AXLE_IDS) {
      const axle = AXLES[id] as unknown as Json;
      const leaves = (node: unknown, path: string): string[] =>
        typeof node === 'object' && node !== null
          ? Object.entries(node).flatMap(([key, child]) =>
              leaves(child, path === '' ? key : `${path}.${key}`),
            )
          : [path];
      for (const path of leaves(axle, '')) {
        const found = problems(parseAxle(changed(axle, path, undefined)));
        expect(
          found.map((p) => p.field),
          `${id} ${path}`,
        ).toEqual([path]);
      }
    }
  });

  test.each([
    ['hand', 'left', /"standard-cut", "reverse-cut"/],
    ['pinionShim.place', 'somewhere', /"head-bearing", "behind-cup", "cartridge"/],
    ['limits.backlash.reads', 'dial', /"square", "tangential"/],
    ['limits.pinionTorque.seal', true, /"out", "in"/],
    ['sides.ringSide.kind', 'wedge', /"outboard-shims", "inboard-shims", "adjuster"/],
    ['sides.ringSide.pitch', 1.5, /no field of this name/],
    ['spacer.kind', 'none', /"crush-sleeve", "solid-spacer"/],
    ['film_mm', 12, /from 0.001 to 0.1 mm/],
    ['limits.backlash.min', 0.5, /not more than limits.backlash.max/],
    ['pinionShim.stock.thinnest', 9, /not more than pinionShim.stock.thickest/],
    ['fictional', 'yes', /true or false/],
    ['name', '', /text of 1 to 60 characters/],
    ['gearset.tooth.slotFactor', 2, /from 0.3 to 0.85/],
  ] as const)('%s: %j is refused', (path, value, allowed) => {
    const found = problems(parseAxle(changed(AXLES.borrin, path, value)));
    expect(found[0].field).toBe(path);
    expect(found[0].allowed).toMatch(allowed);
  });

  test('an adjuster beyond its thread is refused', () => {
    const found = problems(parseAxle(changed(AXLES.cavel, 'sides.ringSide.fitted', 500)));
    expect(found).toMatchObject([{ field: 'sides.ringSide.fitted', value: '500' }]);
  });
});

describe('files for the command line', () => {
  test('a bare gear set and an axle give the same kind of answer', () => {
    expect(parseGearSetFile(fixture('set-a'))).toMatchObject({ ok: true, value: { film: null, prefix: '' } });
    expect(parseGearSetFile(AXLES.dornet)).toMatchObject({
      ok: true,
      value: {
        gearset: AXLES.dornet.gearset,
        film: 0.011,
        hand: 'reverse-cut',
        name: 'Dornet',
        prefix: 'gearset',
      },
    });
    expect(parseGearSetFile({ name: 'part of an axle', gearset: fixture('set-b') }).ok).toBe(true);
  });

  test('what else is in an axle file must be right', () => {
    const gearset = fixture('set-a');
    expect(problems(parseGearSetFile({ gearset, film_mm: 'thin' }))[0].field).toBe('film_mm');
    expect(problems(parseGearSetFile({ gearset, flim_mm: 0.01 }))[0].field).toBe('flim_mm');
    expect(problems(parseGearSetFile({ gearset: changed(gearset, 'backlash', 9) }))[0].field).toBe(
      'gearset.backlash',
    );
    expect(problems(parseGearSetFile({ gearset: 7 }))[0].field).toBe('gearset');
  });
});
