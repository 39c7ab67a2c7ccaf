import { readFileSync, statSync } from 'node:fs';
import { valueWords } from '../../models/problem.ts';
import { refuse } from './refusal.ts';

/** Far beyond any gear set; keeps a slip like a device or a disk image from filling the memory. */
const MOST_BYTES = 1_000_000;

const CAUSES: Readonly<Record<string, string>> = {
  ENOENT: 'there is none of this name',
  EACCES: 'reading it is not permitted',
  EPERM: 'reading it is not permitted',
  EISDIR: 'this is a folder',
  ENOTDIR: 'part of the path is not a folder',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
};

/** Why the system refused a file, in words. */
export const causeWords = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return CAUSES[code] ?? (code === '' ? 'the system refused it' : `the system says ${code}`);
};

/**
 * The text of a file that somebody named; `allowed` says what it should be.
 * @throws Refusal naming `option` when it cannot be read, is no text, or holds nothing
 */
export function readText(option: string, path: string, allowed: string, mostBytes: number): string {
  const bytes = (() => {
    try {
      const { size } = statSync(path);
      if (size > mostBytes) return null;
      return readFileSync(path);
    } catch (error) {
      return refuse(option, valueWords(path), `${allowed}; ${causeWords(error)}`);
    }
  })();
  if (bytes === null) return refuse(option, valueWords(path), `${allowed} of at most ${mostBytes} bytes`);
  const text = (() => {
    try {
      // removes a byte order mark, as some editors write one
      return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } catch {
      return refuse(option, valueWords(path), `${allowed}; this is not UTF-8 text`);
    }
  })();
  if (text.trim() === '') return refuse(option, valueWords(path), `${allowed}; this one is empty`);
  return text;
}

/** @throws Refusal naming `option` when the text is not JSON */
export function parseJson(option: string, path: string, text: string, allowed: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return refuse(option, valueWords(path), `${allowed}; this one is damaged ${placeOf(error, text)}`);
  }
}

/** @throws Refusal naming `option` when the file cannot be read or is not JSON */
export function readJson(option: string, path: string): unknown {
  const allowed = 'a readable JSON file with a gear set';
  return parseJson(option, path, readText(option, path, allowed, MOST_BYTES), allowed);
}

/** Where the engine stopped reading, as line and column; "at its end" when it ran out of text. */
function placeOf(error: unknown, text: string): string {
  const match = /position (\d+)/.exec(error instanceof Error ? error.message : '');
  if (match === null) return 'or cut short';
  const before = text.slice(0, Number(match[1])).split('\n');
  return `at line ${before.length}, column ${(before.at(-1) ?? '').length + 1}`;
}
