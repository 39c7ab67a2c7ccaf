import { type LengthUnit, mmTo, mmToMicron } from './length.ts';

/** A true minus sign, as wide as a digit: a hyphen is easily overlooked on a shim. */
export const MINUS = '−';
/** Between number and unit, so that a line never breaks there. */
export const NARROW_SPACE = '\u202f';

export interface FormatOptions {
  /** digits after the mark; each formatter has its own usual number */
  readonly decimals?: number;
  /** default '.' */
  readonly decimalMark?: '.' | ',';
}

/** Fixed decimals, never "−0.00", never an exponent. Not a number reads as a dash. */
export function formatNumber(value: number, decimals: number, decimalMark: '.' | ',' = '.'): string {
  if (!Number.isFinite(value)) return '–';
  // Beyond 1e21 toFixed turns to exponents; no quantity here comes near.
  const magnitude = Math.abs(value).toFixed(decimals);
  const sign = value < 0 && /[1-9]/.test(magnitude) ? MINUS : '';
  return sign + (decimalMark === ',' ? magnitude.replace('.', ',') : magnitude);
}

const withUnit = (value: number, unit: string, decimals: number, options: FormatOptions): string => {
  const number = formatNumber(value, options.decimals ?? decimals, options.decimalMark);
  return `${number}${unit === '°' ? '' : NARROW_SPACE}${unit}`;
};

/** Workshop lengths: hundredths of a millimetre, or ten-thousandths of an inch. */
const lengthDecimals = (unit: LengthUnit): number => (unit === 'mm' ? 2 : 4);

export const formatLength = (mm: number, unit: LengthUnit, options: FormatOptions = {}): string =>
  withUnit(mmTo(unit, mm), unit, lengthDecimals(unit), options);

/** A thickness or travel without its sign: the words beside it say which way. */
export const formatAmount = (mm: number, unit: LengthUnit, options: FormatOptions = {}): string =>
  formatLength(Math.abs(mm), unit, options);

/** Film thickness and other lengths too small for hundredths. */
export const formatMicron = (mm: number, options: FormatOptions = {}): string =>
  withUnit(mmToMicron(mm), 'µm', 1, options);

export const formatDegrees = (degrees: number, options: FormatOptions = {}): string =>
  withUnit(degrees, '°', 2, options);

export const formatMicrorad = (microrad: number, options: FormatOptions = {}): string =>
  withUnit(microrad, 'µrad', 0, options);
