/** Plain markdown from computed numbers; rounding hides what differs from machine to machine. */

const MINUS = '−';

/** `digits` decimals; never "−0.00"; an en dash for what does not exist. */
export const fixed = (value: number | null, digits: number): string => {
  if (value === null || !Number.isFinite(value)) return '–';
  const text = value.toFixed(digits);
  return Number(text) === 0 ? Math.abs(value).toFixed(digits) : text.replace('-', MINUS);
};

/** With its sign spelled out. */
export const signed = (value: number, digits: number): string => {
  const text = fixed(value, digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
};

/** For numbers that ought to be zero: the power of ten they stay under, since the rest is round-off. */
export const below = (value: number, floor = 1e-9): string => {
  if (!Number.isFinite(value)) return '–';
  const bound = Math.max(floor, 10 ** Math.ceil(Math.log10(Math.max(Math.abs(value), Number.MIN_VALUE))));
  const power = Math.round(Math.log10(bound));
  return `< 10${[...String(power)].map((sign) => SUPERSCRIPTS[sign]).join('')}`;
};

const SUPERSCRIPTS: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
};

/** One row of a table. */
export const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

/** The head of a table; first column to the left, the others to the right unless told. */
export const head = (titles: readonly string[], numeric = true): string =>
  `${row(titles)}\n${row(titles.map((_, i) => (i === 0 || !numeric ? '---' : '---:')))}`;

export const table = (
  titles: readonly string[],
  rows: ReadonlyArray<readonly string[]>,
  numeric = true,
): string => [head(titles, numeric), ...rows.map(row)].join('\n');

/** Blocks with an empty line between. */
export const blocks = (parts: readonly string[]): string => parts.join('\n\n');

export const largest = (values: readonly number[]): number =>
  values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);

export const smallest = (values: readonly number[]): number => -largest(values.map((value) => -value));

/** The value at a share of the way through the sorted list (nearest rank). */
export const quantile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
};
