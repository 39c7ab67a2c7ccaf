import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, it } from 'vitest';
import { ENGLISH, type TextKey } from '../../src/text/catalogue.ts';
import { app } from '../../src/text/en/app.ts';
import { dial } from '../../src/text/en/dial.ts';
import { explore } from '../../src/text/en/explore.ts';
import { flank } from '../../src/text/en/flank.ts';
import { ownAxle } from '../../src/text/en/ownAxle.ts';
import { spread } from '../../src/text/en/spread.ts';
import { stage } from '../../src/text/en/stage.ts';
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

/** Those of parts that are loaded when needed, too. */
const entries = Object.entries({ ...ENGLISH, ...dial, ...ownAxle, ...spread }) as [TextKey, string][];

describe('the text catalogue', () => {
  it('gives each area its own keys: none is written twice', () => {
    for (const [area, texts] of Object.entries({ app, dial, explore, flank, ownAxle, spread, stage })) {
      for (const key of Object.keys(texts)) expect(key.startsWith(`${area}.`), key).toBe(true);
    }
    const together = [app, dial, explore, flank, ownAxle, spread, stage].flatMap((texts) =>
      Object.keys(texts),
    );
    expect(new Set(together).size).toBe(together.length);
  });

  it('holds well-formed messages only', () => {
    for (const [key, message] of entries) {
      expect(message.trim(), key).not.toBe('');
      expect(() => parse(message), key).not.toThrow();
    }
  });

  it('uses no bare plus-minus sign, and a true minus', () => {
    for (const [key, message] of entries) {
      expect(message, key).not.toMatch(/±/);
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
