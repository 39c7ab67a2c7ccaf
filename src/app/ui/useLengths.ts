import { useMemo } from 'react';
import { usePreferences } from '../../state/preferences.ts';
import { clamp, type Range, within } from '../../state/ranges.ts';
import type { Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { formatLength, formatNumber } from '../../units/format.ts';
import { type LengthUnit, mmFrom, mmTo } from '../../units/length.ts';
import { type NumberTextReason, parseNumber } from '../../units/parse.ts';
import type { Measured } from './MeasureField.tsx';

/** mm and inch digits of one kind of length: a shim in 0.025 mm steps needs a third decimal, backlash does not. */
export interface Digits {
  readonly mm: number;
  readonly in: number;
}

export const SHIM_DIGITS: Digits = { mm: 3, in: 4 };
export const COARSE_DIGITS: Digits = { mm: 2, in: 4 };

/** Digits that show every multiple of `step` mm. */
export function digitsFor(step: number): Digits {
  return Math.abs(step * 100 - Math.round(step * 100)) < 1e-6 ? COARSE_DIGITS : SHIM_DIGITS;
}

/** Digits for a shim that was measured, not stocked: as many as it has, up to a tenth of a µm. */
export function digitsToShow(digits: Digits, mm: number, most = 4): Digits {
  let shown = digits.mm;
  while (shown < most && Math.abs(mm - Number(mm.toFixed(shown))) > 1e-7) shown += 1;
  return { mm: shown, in: digits.in };
}

export interface Lengths {
  readonly unit: LengthUnit;
  readonly unitText: string;
  /** with unit */
  say(mm: number, digits: Digits): string;
  /** without sign, with unit */
  amount(mm: number, digits: Digits): string;
  /** how far something moved or grew: no sign, as many digits as it needs, with unit */
  move(mm: number): string;
  /** without unit */
  number(mm: number, digits: Digits): string;
  /** what was typed, in mm; a unit typed with it counts, whatever is shown */
  read(typed: string, range: Range, digits: Digits): Measured;
}

export function lengthsIn(unit: LengthUnit, t: Translate): Lengths {
  const say = (mm: number, digits: Digits) => formatLength(mm, unit, { decimals: digits[unit] });
  return {
    unit,
    unitText: unit,
    say,
    amount: (mm, digits) => say(Math.abs(mm), digits),
    move: (mm) => say(Math.abs(mm), digitsToShow(COARSE_DIGITS, Math.abs(mm), 3)),
    number: (mm, digits) => formatNumber(mmTo(unit, mm), digits[unit]),
    read: (typed, range, digits) => {
      const { text, unit: typedUnit } = splitUnit(typed);
      const parsed = parseNumber(text);
      if (!parsed.ok) return { ok: false, message: numberMessage(parsed.reason, typed, t) };
      const mm = mmFrom(typedUnit ?? unit, parsed.value);
      if (within(widened(range), mm)) return { ok: true, value: clamp(range, roundTo(mm, 4)) };
      return {
        ok: false,
        message: t('explore.number.range', {
          typed: formatLength(mm, unit, { decimals: digits[unit] }),
          least: say(range.least, digits),
          most: say(range.most, digits),
        }),
      };
    },
  };
}

export function numberMessage(reason: NumberTextReason, typed: string, t: Translate): string {
  return reason === 'empty' || reason === 'too-long'
    ? t(`explore.number.${reason}`)
    : t(`explore.number.${reason}`, { typed: typed.trim() });
}

/** Lengths in the unit that is chosen. */
export function useLengths(): Lengths {
  const t = useText();
  const unit = usePreferences((state) => state.units);
  return useMemo(() => lengthsIn(unit, t), [unit, t]);
}

/** The ends as shown are rounded: typing what is shown must be allowed. */
const widened = (range: Range): Range => ({ least: range.least - 5e-4, most: range.most + 5e-4 });

const roundTo = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;

function splitUnit(typed: string): { text: string; unit: LengthUnit | null } {
  const match = /^(.*?)\s*(mm|in|inch|")\s*$/i.exec(typed);
  if (match === null) return { text: typed, unit: null };
  return { text: match[1], unit: match[2].toLowerCase() === 'mm' ? 'mm' : 'in' };
}
