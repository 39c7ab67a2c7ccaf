import type { NumberField } from '../../../../models/field.ts';
import { numberMessage } from '../../../app/ui/useLengths.ts';
import type { Entry, Typed } from '../../../state/axleDraft.ts';
import type { Translate } from '../../../text/translate.ts';
import { formatNumber, NARROW_SPACE } from '../../../units/format.ts';
import { type LengthUnit, MM_PER_INCH } from '../../../units/length.ts';
import { parseNumber } from '../../../units/parse.ts';

/** How a number of a file is shown and typed. */
export interface Scale {
  /** text after the number; empty for counts and ratios */
  readonly unit: string;
  /** shown = value × factor */
  readonly factor: number;
  readonly mostDecimals: number;
}

export function scaleOf(field: NumberField, units: LengthUnit, t: Translate): Scale {
  switch (field.unit) {
    case 'mm':
      return units === 'mm'
        ? { unit: 'mm', factor: 1, mostDecimals: 4 }
        : { unit: 'in', factor: 1 / MM_PER_INCH, mostDecimals: field.max <= 0.5 ? 5 : 4 };
    case 'µm':
      return units === 'mm'
        ? { unit: 'µm', factor: 1, mostDecimals: 2 }
        : { unit: t('explore.unit.thou.short'), factor: 1 / MM_PER_INCH, mostDecimals: 3 };
    case 'degrees':
      return { unit: '°', factor: 1, mostDecimals: 3 };
    case 'N·m':
      return { unit: 'N·m', factor: 1, mostDecimals: 2 };
    case 'none':
      return { unit: '', factor: 1, mostDecimals: field.integer ? 0 : 4 };
  }
}

/** As few decimals as the number needs. */
export function numberText(value: number, scale: Scale): string {
  const shown = value * scale.factor;
  let decimals = 0;
  while (decimals < scale.mostDecimals && !isWhole(shown * 10 ** decimals)) decimals += 1;
  return formatNumber(shown, decimals);
}

const isWhole = (value: number): boolean =>
  Math.abs(value - Math.round(value)) < 1e-6 * Math.max(1, Math.abs(value));

export function sayNumber(value: number, scale: Scale): string {
  const space = scale.unit === '' || scale.unit === '°' ? '' : NARROW_SPACE;
  return `${numberText(value, scale)}${space}${scale.unit}`;
}

/** What stands in the field: the value in words of the unit shown, or the typing as it was left. */
export function entryText(entry: Entry, scale: Scale): string {
  if (typeof entry === 'number') return numberText(entry, scale);
  if (typeof entry === 'object' && entry !== null) return entry.typed;
  return '';
}

/** Typing with a unit of its own counts by that unit, whatever is shown. */
const UNITS: readonly {
  readonly ending: RegExp;
  readonly of: NumberField['unit'];
  readonly factor: number;
}[] = [
  { ending: /\s*mm$/i, of: 'mm', factor: 1 },
  { ending: /\s*(in|inch|inches|")$/i, of: 'mm', factor: 1 / MM_PER_INCH },
  { ending: /\s*(µm|μm|um)$/i, of: 'µm', factor: 1 },
  { ending: /\s*thou$/i, of: 'µm', factor: 1 / MM_PER_INCH },
  { ending: /\s*(°|deg|degrees)$/i, of: 'degrees', factor: 1 },
  { ending: /\s*N[·.*]?m$/i, of: 'N·m', factor: 1 },
];

export type ReadEntry =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly message: string };

/** A number in the file's unit out of what was typed, or why not; null for an optional field that is empty. */
export function readNumber(typed: string, field: NumberField, units: LengthUnit, t: Translate): ReadEntry {
  if (field.optional && typed.trim() === '') return { ok: true, value: null };
  const shown = scaleOf(field, units, t);
  const said = UNITS.find(({ ending, of }) => of === field.unit && ending.test(typed.trim()));
  const text = said === undefined ? typed : typed.trim().replace(said.ending, '');
  const factor = said?.factor ?? shown.factor;
  const parsed = parseNumber(text);
  if (!parsed.ok) return { ok: false, message: numberMessage(parsed.reason, typed, t) };
  // a ten-thousandth of a mm, a hundredth of a µm: finer than anything that is measured
  const value = Number((parsed.value / factor).toFixed(4)) + 0;
  // the ends as shown are rounded: typing what is shown must be allowed
  const slack = factor === 1 ? 0 : (0.6 * 10 ** -shown.mostDecimals) / factor;
  const held = Math.min(Math.max(value, field.min), field.max);
  if (Math.abs(held - value) > slack) {
    const [least, most] = [sayNumber(field.min, shown), sayNumber(field.max, shown)];
    return { ok: false, message: t('explore.number.range', { typed: sayNumber(value, shown), least, most }) };
  }
  if (field.integer && !Number.isInteger(held)) {
    return { ok: false, message: t('ownAxle.number.whole', { typed: typed.trim() }) };
  }
  const { leastMagnitude = 0 } = field;
  if (Math.abs(held) < leastMagnitude) {
    return { ok: false, message: t('ownAxle.number.magnitude', { least: sayNumber(leastMagnitude, shown) }) };
  }
  return { ok: true, value: held };
}

/** The entry that typing makes: a value where it is one, else the typing itself. */
export function entryOf(typed: string, field: NumberField, units: LengthUnit, t: Translate): Entry {
  const read = readNumber(typed, field, units, t);
  return read.ok ? read.value : ({ typed, unit: units } satisfies Typed);
}
