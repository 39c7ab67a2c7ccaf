import { describe, expect, test } from 'vitest';
import type { AxleDefinition } from '../../models/axle.ts';
import { readAxleFile, writeAxleFile } from '../../models/axleFile.ts';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { problemLine } from '../../models/problem.ts';
import { type Random, seededRandom } from '../support/random.ts';

const SEED = 70425;
const MUTATIONS = 500;

type Json = Record<string, unknown>;

interface Mutation {
  readonly text: string;
  /** what was done, for the report of a failure */
  readonly what: string;
  /** dotted path of what was changed; null where the text itself was damaged */
  readonly path: string | null;
}

/** Every place of a JSON value: objects and leaves, as arrays of keys. */
function placesOf(json: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof json !== 'object' || json === null) return [path];
  const inside = Object.entries(json).flatMap(([key, child]) => placesOf(child, [...path, key]));
  return path.length === 0 ? inside : [path, ...inside];
}

const at = (json: unknown, path: readonly string[]): Json =>
  path.reduce<unknown>((node, key) => (node as Json)[key], json) as Json;

const ODD_VALUES: readonly unknown[] = [
  null,
  true,
  '',
  'x',
  '12',
  [],
  {},
  -1e9,
  1e9,
  0.123456,
  1e308,
  -0,
  'front\u2028loaded',
  { __proto__: null, method: 'face-milled' },
];

/** Changes one thing of a good file: a value, a key, or the text. */
function mutate(good: string, random: Random): Mutation {
  const json = JSON.parse(good) as Json;
  const path = random.pick(placesOf(json));
  const dotted = path.join('.');
  const parent = at(json, path.slice(0, -1));
  const key = path[path.length - 1];
  const written = (what: string): Mutation => ({ text: JSON.stringify(json), what, path: dotted });
  switch (random.whole(0, 7)) {
    case 0:
      delete parent[key];
      return written('removed');
    case 1: {
      parent[key] = random.pick(ODD_VALUES);
      return written(`set to ${JSON.stringify(parent[key])}`);
    }
    case 2: {
      const value = parent[key];
      parent[key] = typeof value === 'number' ? value * random.between(-3, 3) : [value];
      return written('scaled or wrapped');
    }
    case 3: {
      parent[`${key}2`] = parent[key];
      return { ...written('an extra field'), path: `${dotted}2` };
    }
    case 4: {
      parent[`${key}X`] = parent[key];
      delete parent[key];
      return written('renamed');
    }
    case 5: {
      const cut = random.whole(0, good.length - 3);
      return { text: good.slice(0, cut), what: `cut after ${cut} characters`, path: null };
    }
    case 6: {
      const place = random.whole(0, good.length - 1);
      const character = String.fromCharCode(random.whole(32, 126));
      const text = good.slice(0, place) + character + good.slice(place + 1);
      return { text, what: `character ${place} is ${character}`, path: null };
    }
    default: {
      const lines = good.split('\n');
      const place = random.whole(1, lines.length - 3);
      const text = lines.toSpliced(place, 0, lines[place]).join('\n');
      return { text, what: `line ${place + 1} twice: ${lines[place]}`, path: null };
    }
  }
}

/** Every field of the file is in what was read, and nothing else is: no default came in. */
const expectAsWritten = (read: AxleDefinition, text: string): void => {
  expect(read).toEqual((JSON.parse(text) as { axle: unknown }).axle);
};

describe('importing an axle file', () => {
  test.each(AXLE_IDS)('%s comes back as it was exported', (id) => {
    const file = { key: 'k3f9q2zz', axle: AXLES[id] };
    expect(readAxleFile(writeAxleFile(file))).toEqual({ ok: true, value: file });
  });

  test(`${MUTATIONS} mutations: no crash, no silent default, field named (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    let refused = 0;
    for (let i = 0; i < MUTATIONS; i++) {
      const id = AXLE_IDS[i % AXLE_IDS.length];
      const { text, what, path } = mutate(writeAxleFile({ key: 'k3f9q2zz', axle: AXLES[id] }), random);
      const context = `mutation ${i} of ${id}: ${path ?? 'text'} ${what}`;
      const parsed = readAxleFile(text);
      if (parsed.ok) {
        expectAsWritten(parsed.value.axle, text);
        continue;
      }
      refused += 1;
      expect(parsed.problems.length, context).toBeGreaterThan(0);
      for (const problem of parsed.problems) {
        expect(problem.allowed, context).not.toBe('');
        expect(problemLine(problem), context).not.toMatch(/[\n\r\u2028]/);
      }
      if (path === null) continue;
      // the field itself, a field in it, or the one it no longer agrees with
      const named = parsed.problems.some(
        ({ field, allowed }) => field === path || field.startsWith(`${path}.`) || agrees(allowed, path),
      );
      expect(named, `${context}: ${parsed.problems.map(problemLine).join('; ')}`).toBe(true);
    }
    // most mutations do harm; those that do not must have been compared above
    expect(refused).toBeGreaterThan(MUTATIONS * 0.6);
    expect(refused).toBeLessThan(MUTATIONS);
  });

  test.each([
    ['', 'file', /not JSON/],
    ['[]', 'file', /\[\]/],
    ['null', 'file', /null/],
    ['{"format":"axle","version":2,"key":"k3f9q2zz","axle":{}}', 'version', /2/],
    ['{"format":"axle","version":1,"key":"K3","axle":{}}', 'key', /K3/],
    ['{"format":"picture","version":1,"key":"k3f9q2zz","axle":{}}', 'format', /picture/],
    ['{"format":"axle","version":1,"version":1,"key":"k3f9q2zz","axle":{}}', 'version', /twice/],
    ['{"format":"axle","version":1,"key":"k3f9q2zz","axle":{},"__proto__":{}}', '__proto__', /\{\}/],
    ['{"format":"axle","version":1,"key":"k3f9q2zz"}', 'axle', /missing/],
    [`"${'x'.repeat(100_001)}"`, 'file', /characters/],
  ])('%.60s is refused by name', (text, field, value) => {
    const parsed = readAxleFile(text);
    if (parsed.ok) throw new Error('was read');
    const lines = parsed.problems.map(problemLine);
    expect(
      lines.some((line) => line.startsWith(`${field}:`) && value.test(line)),
      lines.join('\n'),
    ).toBe(true);
  });
});

/** A problem between two fields names one and mentions the other. */
const agrees = (allowed: string, path: string): boolean => allowed.includes(path.replace(/^axle\./, ''));
