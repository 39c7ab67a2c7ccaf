import { type Range, within } from '../../state/ranges.ts';
import type { Translate } from '../../text/translate.ts';
import { parseNumber } from '../../units/parse.ts';
import type { Measured } from './MeasureField.tsx';
import { numberMessage } from './useLengths.ts';

/** Fine steps land between notches: two digits are enough to tell them apart. */
const shown = (notches: number): number => Number(notches.toFixed(2)) + 0;

export const sayNotches = (notches: number, t: Translate): string =>
  t('explore.notches', { count: shown(notches) });

/** A notch count as typed; whole lock positions only, unless steps are fine. */
export function readNotches(typed: string, range: Range, fine: boolean, t: Translate): Measured {
  const parsed = parseNumber(typed.replace(/\s*notch(es)?\s*$/i, ''));
  if (!parsed.ok) return { ok: false, message: numberMessage(parsed.reason, typed, t) };
  const { value } = parsed;
  if (!within(range, value)) {
    return {
      ok: false,
      message: t('explore.number.range', {
        typed: sayNotches(value, t),
        least: String(shown(range.least)),
        most: sayNotches(range.most, t),
      }),
    };
  }
  if (!fine && !Number.isInteger(value)) {
    return { ok: false, message: t('explore.number.whole', { typed: sayNotches(value, t) }) };
  }
  return { ok: true, value };
}
