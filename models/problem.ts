/** One thing wrong with a file or a form: which field, what was found, what would do. All plain words on one line. */
export interface Problem {
  /** dotted path as in the file; empty for the file as a whole */
  readonly field: string;
  readonly value: string;
  readonly allowed: string;
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const LONGEST = 48;

/** Any text on one line, cut short: keys and values of a file may hold anything. */
export function oneLine(text: string, longest: number = LONGEST): string {
  const flat = text.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, '?');
  return flat.length <= longest ? flat : `${flat.slice(0, longest - 1)}…`;
}

/** A found value on one line, cut short; "missing" for nothing. */
export function valueWords(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'number') return String(value);
  return oneLine(JSON.stringify(value) ?? typeof value);
}

/** The whole problem on one line. */
export const problemLine = ({ field, value, allowed }: Problem): string =>
  `${field === '' ? 'file' : oneLine(field, 120)}: ${oneLine(value, 120)}; allowed: ${oneLine(allowed, 400)}`;
