import { readdirSync } from 'node:fs';
import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, it } from 'vitest';
import type { TextKey } from '../../src/text/catalogue.ts';
import { stretchMessage } from '../../src/text/pseudo.ts';
import { createTranslate } from '../../src/text/translate.ts';

type Elements = ReturnType<IntlMessageFormat['getAst']>;

const parse = (message: string): Elements =>
  new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true }).getAst();

/** Literal text; every other element with a `value` names an argument. */
const LITERAL = 0;

/** Names of arguments in a message, of every depth. */
function argumentsOf(elements: Elements): Set<string> {
  const names = new Set<string>();
  for (const element of elements) {
    if (element.type !== LITERAL && 'value' in element) names.add(element.value);
    if ('options' in element) {
      for (const option of Object.values(element.options)) {
        for (const name of argumentsOf(option.value)) names.add(name);
      }
    }
  }
  return names;
}

const FOLDER = new URL('../../src/text/en/', import.meta.url);

/** Every file of strings, those of parts that are loaded when needed too. */
const files = await Promise.all(
  readdirSync(FOLDER).map(async (file) => {
    const texts: Record<string, string>[] = Object.values(await import(new URL(file, FOLDER).href));
    return { name: file.replace('.ts', ''), texts: Object.assign({}, ...texts) as Record<string, string> };
  }),
);
const entries = files.flatMap(({ texts }) => Object.entries(texts)) as [TextKey, string][];

describe('the text catalogue', () => {
  it('gives each area its own keys: none is written twice', () => {
    for (const { name, texts } of files) {
      const areas = new Set(Object.keys(texts).map((key) => key.split('.')[0]));
      expect([...areas], name).toHaveLength(1);
    }
    expect(new Set(entries.map(([key]) => key)).size).toBe(entries.length);
  });

  it('holds well-formed messages only', () => {
    for (const [key, message] of entries) {
      expect(message.trim(), key).not.toBe('');
      expect(() => parse(message), key).not.toThrow();
    }
  });

  it('uses no bare plus-minus sign, and a true minus', () => {
    for (const [key, message] of entries) {
      // a mean and its spread may be written so, a sign may not
      expect(message, key).not.toMatch(/(^|[^}\s])\s*±/);
      expect(message, key).not.toMatch(/(^|\s)-\d/);
    }
  });

  it('stretches every message by a third, arguments untouched, for finding what would be cut', () => {
    for (const [key, message] of entries) {
      const stretched = stretchMessage(message);
      expect(stretched.length, key).toBeGreaterThan(message.length);
      expect(argumentsOf(parse(stretched)), key).toEqual(argumentsOf(parse(message)));
    }
  });

  it('fills in arguments, plurals and choices', () => {
    const t = createTranslate('en');
    expect(t('explore.notches', { count: 1 })).toBe('1 notch');
    expect(t('explore.notches', { count: 2.5 })).toBe('2.5 notches');
    expect(t('explore.pinion.changed', { amount: '0.05 mm', change: 'thicker', way: 'in' })).toBe(
      '0.05 mm thicker than found: pinion moves in.',
    );
    expect(createTranslate('pseudo')('app.undo')).toMatch(/^⟦Ûndö·+⟧$/);
  });

  it('refuses unknown keys and missing arguments at compile time', () => {
    const t = createTranslate('en');
    // @ts-expect-error no such key
    expect(() => t('app.nosuch')).toThrow();
    // @ts-expect-error the argument is missing
    expect(() => t('explore.notches')).toThrow();
    // @ts-expect-error the argument has another name
    expect(() => t('explore.notches', { number: 2 })).toThrow();
  });
});
