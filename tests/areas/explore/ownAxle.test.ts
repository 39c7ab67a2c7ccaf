import { beforeEach, describe, expect, it } from 'vitest';
import { writeAxleFile } from '../../../models/axleFile.ts';
import type { NumberField } from '../../../models/field.ts';
import { AXLES } from '../../../models/index.ts';
import { entryOf, entryText, readNumber, scaleOf } from '../../../src/areas/explore/ownAxle/fieldText.ts';
import { FORM_NAMES } from '../../../src/areas/explore/ownAxle/formLayout.ts';
import { copyName, importAxle } from '../../../src/areas/explore/ownAxle/importAxle.ts';
import { judgeDraft } from '../../../src/areas/explore/ownAxle/judgeDraft.ts';
import { problemText, withFieldNames } from '../../../src/areas/explore/ownAxle/problemText.ts';
import {
  draggedTo,
  HANDLES,
  ovalOf,
  placeOfHandle,
  pressed,
} from '../../../src/areas/explore/ownAxle/wantedPatch.ts';
import { DRAFT_FIELDS, draftField, draftOf, newDraft, withEntry } from '../../../src/state/axleDraft.ts';
import { useOwnAxles } from '../../../src/state/ownAxles.ts';
import { ownAxle } from '../../../src/text/en/ownAxle.ts';
import { addTexts, createTranslate } from '../../../src/text/translate.ts';
import { seededRandom } from '../../support/random.ts';

addTexts(ownAxle);
const t = createTranslate('en');
const number = (name: string) => draftField(name).field as NumberField;
const WIDTH = number('gearset.faceWidth');
const CROWN = number('gearset.easeOff.drive.lengthwise');

describe('the form', () => {
  it('has a place for every field of an axle, each once, with a text for every choice', () => {
    expect([...FORM_NAMES].sort()).toEqual(DRAFT_FIELDS.map(({ name }) => name).sort());
    for (const { field } of DRAFT_FIELDS) {
      for (const choice of field.kind === 'choice' ? field.choices : []) {
        expect(ownAxle).toHaveProperty([`ownAxle.c.${choice}`]);
      }
    }
  });

  it.each([
    ['31.5', 'mm', 31.5],
    ['31,5', 'mm', 31.5],
    ['31.5 mm', 'in', 31.5],
    ['1.25', 'in', 31.75],
    ['1.25"', 'mm', 31.75],
    ['5', 'mm', 5],
    ['0.1968', 'in', 5],
  ] as const)('reads %s typed while %s is shown as %s mm', (typed, units, mm) => {
    expect(readNumber(typed, WIDTH, units, t)).toEqual({ ok: true, value: mm });
  });

  it.each([
    ['', WIDTH, /Type a number/],
    ['thirty', WIDTH, /not a number/],
    ['4.99', WIDTH, /outside 5 mm to 200 mm/],
    ['900', number('gearset.ringTeeth'), /outside 15 to 100/],
    ['44.5', number('gearset.ringTeeth'), /not a whole number/],
    ['0.2', number('gearset.offset'), /At least 0.5 mm/],
  ])('says why %j is no value', (typed, field, why) => {
    const read = readNumber(typed, field, 'mm', t);
    expect(read.ok ? '' : read.message.replaceAll('\u202f', ' ')).toMatch(why);
    expect(entryOf(typed, field, 'mm', t)).toEqual({ typed, unit: 'mm' });
  });

  it('lets an optional field be empty', () => {
    const optional = number('gearset.cut.ringPitchAngle@face-milled');
    expect(entryOf(' ', optional, 'mm', t)).toBeNull();
  });

  it('shows micrometres as thousandths of an inch where inches are wanted', () => {
    expect(entryText(25.4, scaleOf(CROWN, 'in', t))).toBe('1');
    expect(readNumber('1', CROWN, 'in', t)).toEqual({ ok: true, value: 25.4 });
    expect(readNumber('12 µm', CROWN, 'in', t)).toEqual({ ok: true, value: 12 });
  });

  it('shows back what it reads, in both units, for every number field (seed 3)', () => {
    const random = seededRandom(3);
    for (const { name, field } of DRAFT_FIELDS) {
      if (field.kind !== 'number') continue;
      for (const units of ['mm', 'in'] as const) {
        const between = random.between(field.min, field.max);
        const value = field.integer ? Math.round(between) : Number(between.toFixed(3));
        if (Math.abs(value) < (field.leastMagnitude ?? 0)) continue;
        const scale = scaleOf(field, units, t);
        const read = readNumber(entryText(value, scale), field, units, t);
        const fineness = 10 ** -scale.mostDecimals / scale.factor;
        expect(read.ok && read.value !== null && Math.abs(read.value - value) < fineness, name).toBe(true);
      }
    }
  });
});

describe('judging a draft', () => {
  const judge = (...changes: [string, string | number][]) => {
    const draft = changes.reduce((next, [name, entry]) => withEntry(next, name, entry), newDraft('k'));
    return { ...judgeDraft(draft.entries), entries: draft.entries };
  };
  const why = (name: string, ...changes: [string, string | number][]) => {
    const { problems, entries } = judge(...changes);
    const problem = problems.get(name);
    return problem === undefined
      ? ''
      : problemText(name, problem, entries, 'mm', t).replaceAll('\u202f', ' ');
  };

  it('finds nothing against the defaults', () => {
    expect(judge().axle).not.toBeNull();
    expect(judge().problems.size).toBe(0);
  });

  it('names the field, in the words of the form', () => {
    expect(why('name', ['name', ''])).toBe('One to 60 characters.');
    expect(why('limits.backlash.min', ['limits.backlash.min', 0.5])).toBe(
      'Not above “Most backlash”, 0.2 mm.',
    );
    expect(
      why(
        'gearset.tooth.depthTaper',
        ['gearset.tooth.depthTaper', 0.8],
        ['gearset.cut.method', 'face-hobbed'],
      ),
    ).toBe('A face-hobbed set has uniform depth: 0.');
    expect(why('gearset.pinionTeeth', ['gearset.pinionTeeth', 3])).toBe('Allowed: 4 to 30.');
  });

  it('says what the core says with the names of the form', () => {
    const { entries } = newDraft('k');
    expect(withFieldNames('use a smaller tooth.depthFactor or more pinionTeeth', entries, t)).toBe(
      'use a smaller “Working depth” or more “Pinion teeth”',
    );
  });
});

describe('importing', () => {
  beforeEach(() => useOwnAxles.getState().reset());
  const file = { key: 'k3f9q2zz', axle: AXLES.cavel };

  it('overwrites nothing that is here', () => {
    expect(importAxle(writeAxleFile(file), t)).toMatchObject({ kind: 'imported', axle: { key: file.key } });
    expect(importAxle(writeAxleFile(file), t)).toMatchObject({ kind: 'same' });
    const other = { ...file, axle: { ...file.axle, film_mm: 0.013 } };
    expect(importAxle(writeAxleFile(other), t)).toMatchObject({
      kind: 'copy',
      axle: { axle: { name: 'Cavel, copy', film_mm: 0.013 } },
    });
    expect(useOwnAxles.getState().axles.map(({ axle }) => axle.film_mm)).toEqual([
      AXLES.cavel.film_mm,
      0.013,
    ]);
  });

  it('refuses by field and changes nothing', () => {
    const broken = writeAxleFile(file).replace('"film_mm": ', '"film_mm": 9');
    expect(importAxle(broken, t)).toMatchObject({ kind: 'refused', problems: [{ field: 'axle.film_mm' }] });
    expect(useOwnAxles.getState().axles).toEqual([]);
  });

  it('keeps the name of a copy within its length', () => {
    const name = copyName('x'.repeat(60), t);
    expect(name).toHaveLength(60);
    expect(name).toMatch(/^x+, copy$/);
  });
});

describe('a wanted pattern', () => {
  const shape = { toeHeel: -0.1, rootFace: 0.1, length: 0.5, height: 0.6, tilt: 0.3 };

  it('is where its handles were taken to', () => {
    expect(draggedTo(shape, 'centre', [0.2, -0.15])).toMatchObject({ toeHeel: 0.2, rootFace: -0.15 });
    expect(draggedTo(shape, 'end', [0.3, 0.2])).toMatchObject({ length: 0.4, tilt: expect.closeTo(0.25, 9) });
    expect(draggedTo(shape, 'top', [0.9, 0.5])).toMatchObject({ height: 0.4, length: 0.5 });
    for (const handle of HANDLES) {
      const place = placeOfHandle(shape, handle);
      const stayed = draggedTo(shape, handle, place);
      for (const part of Object.keys(shape) as (keyof typeof shape)[]) {
        expect(stayed[part], `${handle} ${part}`).toBeCloseTo(shape[part], 9);
      }
    }
  });

  it('stays on the flank wherever a handle is taken (seed 5)', () => {
    const random = seededRandom(5);
    let now = shape;
    for (let i = 0; i < 300; i++) {
      now = draggedTo(now, random.pick(HANDLES), [random.between(-3, 3), random.between(-3, 3)]);
      expect(Math.abs(now.toeHeel)).toBeLessThanOrEqual(0.8);
      expect(now.length).toBeGreaterThanOrEqual(0.08);
      expect(now.height).toBeLessThanOrEqual(1);
      for (const handle of HANDLES) {
        for (const part of placeOfHandle(now, handle)) expect(Math.abs(part)).toBeLessThanOrEqual(1);
      }
    }
  });

  it('goes the way of the key on the map, whichever side the heel is', () => {
    expect(pressed(shape, 'centre', 'ArrowRight', 0.02, true)?.toeHeel).toBeCloseTo(-0.08, 9);
    expect(pressed(shape, 'centre', 'ArrowRight', 0.02, false)?.toeHeel).toBeCloseTo(-0.12, 9);
    expect(pressed(shape, 'end', 'ArrowUp', 0.02, true)?.tilt).toBeCloseTo(0.34, 9);
    expect(pressed(shape, 'top', 'ArrowUp', 0.02, true)?.height).toBeCloseTo(0.62, 9);
    expect(pressed(shape, 'top', 'ArrowLeft', 0.02, true)).toBeNull();
    expect(pressed(shape, 'centre', 'Enter', 0.02, true)).toBeNull();
  });

  it('is drawn as an oval with its extents and its lean', () => {
    const oval = ovalOf(shape);
    const us = oval.map(([u]) => u - shape.toeHeel);
    const vs = oval.map(([, v]) => v - shape.rootFace);
    expect(Math.max(...us)).toBeCloseTo(shape.length, 2);
    expect(Math.max(...vs)).toBeCloseTo(shape.height, 2);
    // slope of the regression line over the corners of the affine image of a circle
    const uv = us.reduce((sum, u, i) => sum + u * vs[i], 0);
    const uu = us.reduce((sum, u) => sum + u * u, 0);
    expect(uv / uu).toBeCloseTo(shape.tilt, 6);
  });
});

describe('a copied axle', () => {
  it('is given in every field', () => {
    const draft = draftOf(AXLES.dornet, { key: 'k', changes: false, source: 'Dornet' });
    const counted = DRAFT_FIELDS.filter(
      ({ when }) => when === null || draft.entries[when.path] === when.value,
    );
    expect(counted.filter(({ name }) => !draft.given.includes(name))).toEqual([]);
  });
});
