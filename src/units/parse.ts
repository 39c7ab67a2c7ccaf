/** Why a typed text is no number; the screen words it. */
export type NumberTextReason =
  | 'empty'
  | 'two-decimal-marks'
  | 'exponent'
  | 'digits-missing'
  | 'space-inside'
  | 'other-characters'
  | 'too-long';

export type ParsedNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly reason: NumberTextReason };

const LONGEST = 24;

/**
 * A number as a person types it: an optional sign, digits, at most one decimal mark (. or ,), spaces around it.
 * A mark is always a decimal mark, never a group mark: "1,250" is one and a quarter, and a screen echoes it as such.
 * Everything else is refused with a reason, never guessed at.
 */
export function parseNumber(text: string): ParsedNumber {
  const trimmed = text.trim();
  if (trimmed === '') return refuse('empty');
  if (trimmed.length > LONGEST) return refuse('too-long');
  const match = /^([+\-−]?)(\d*)(?:[.,](\d*))?$/u.exec(trimmed);
  if (match === null) return refuse(reasonFor(trimmed));
  const [, sign, whole, fraction = ''] = match;
  if (whole === '' && fraction === '') return refuse('digits-missing');
  const magnitude = Number(`${whole === '' ? '0' : whole}.${fraction === '' ? '0' : fraction}`);
  return { ok: true, value: sign === '-' || sign === '−' ? 0 - magnitude : magnitude };
}

const refuse = (reason: NumberTextReason): ParsedNumber => ({ ok: false, reason });

function reasonFor(text: string): NumberTextReason {
  if (/^[+\-−]?[\d.,]*$/u.test(text)) return 'two-decimal-marks';
  if (/^[+\-−]?[\d.,]+e[+-]?\d*$/iu.test(text)) return 'exponent';
  if (/^[+\-−]?[\d.,\s]+$/u.test(text)) return 'space-inside';
  return 'other-characters';
}
