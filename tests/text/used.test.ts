import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../../src');
const TEXTS = join(SRC, 'text/en');

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

const HOLE = '\0';

/** The template strings of `source`, those inside others too, each with a HOLE for every `${…}`. */
function templatesIn(source: string): string[] {
  const found: string[] = [];
  const skip = (from: number, quote: string): number => {
    let at = from;
    while (at < source.length && source[at] !== quote && source[at] !== '\n')
      at += source[at] === '\\' ? 2 : 1;
    return at + 1;
  };
  /** Code up to the brace that closes it; the place after that. */
  const code = (from: number): number => {
    let depth = 0;
    let at = from;
    while (at < source.length) {
      const sign = source[at];
      if (sign === '`') at = template(at + 1);
      else if (sign === "'") at = skip(at + 1, sign);
      else if (sign === '}' && depth-- === 0) return at + 1;
      else {
        if (sign === '{') depth++;
        at++;
      }
    }
    return at;
  };
  const template = (from: number): number => {
    let text = '';
    let at = from;
    while (at < source.length && source[at] !== '`') {
      if (source.startsWith('${', at)) {
        text += HOLE;
        at = code(at + 2);
      } else text += source[at++];
    }
    found.push(text);
    return at + 1;
  };
  let at = 0;
  for (let next = source.indexOf('`'); next >= 0; next = source.indexOf('`', at)) at = template(next + 1);
  return found;
}

/** Whether a key is written somewhere in `source`: whole, or as a template whose holes are parts of a key. */
function usesIn(source: string): (key: string) => boolean {
  const whole = new Set([...source.matchAll(/'([a-zA-Z]\w*(?:\.[\w-]+)+)'/g)].map(([, key]) => key));
  const patterns = templatesIn(source)
    .filter((template) => template.includes(HOLE) && /^[a-zA-Z]\w*\./.test(template))
    .map((template) => new RegExp(`^${template.split(HOLE).map(escaped).join('[\\w-]+')}$`));
  return (key) => whole.has(key) || patterns.some((pattern) => pattern.test(key));
}

it('every string has a place where it is shown', async () => {
  const source = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .map((file) => join(SRC, file))
    .filter((file) => /\.tsx?$/.test(file) && !file.startsWith(TEXTS))
    .map((file) => readFileSync(file, 'utf8'))
    .join('\n');
  const isUsed = usesIn(source);
  const keys: string[] = [];
  for (const file of readdirSync(TEXTS)) {
    for (const texts of Object.values(await import(join(TEXTS, file))))
      keys.push(...Object.keys(texts as object));
  }
  expect(keys.length).toBeGreaterThan(1000);
  expect(keys.filter((key) => !isUsed(key))).toEqual([]);
});

it('finds strings that are shown nowhere', () => {
  // biome-ignore lint/suspicious/noTemplateCurlyInString: it is source to be read
  const isUsed = usesIn("t('a.b'); t(`c.${way}.d`); text(`${t('e.title')}, ${t(`e.hand.${hand}`)}`, 1);");
  expect(['a.b', 'c.in.d', 'e.title', 'e.hand.left'].filter((key) => !isUsed(key))).toEqual([]);
  expect(['a.b.c', 'a', 'c.in', 'c.in.out.d', 'e.hand'].filter(isUsed)).toEqual([]);
});
