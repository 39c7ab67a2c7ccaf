/** mm in an inch, exactly. */
export const MM_PER_INCH = 25.4;

/** What lengths are shown and typed in. */
export type LengthUnit = 'mm' | 'in';

export const mmToInch = (mm: number): number => mm / MM_PER_INCH;
export const inchToMm = (inch: number): number => inch * MM_PER_INCH;

/** Thousandths of an inch, the workshop's "thou". */
export const mmToThou = (mm: number): number => (mm / MM_PER_INCH) * 1000;

export const mmTo = (unit: LengthUnit, mm: number): number => (unit === 'mm' ? mm : mmToInch(mm));
export const mmFrom = (unit: LengthUnit, length: number): number =>
  unit === 'mm' ? length : inchToMm(length);

export const mmToMicron = (mm: number): number => mm * 1000;

export const degToRad = (degrees: number): number => (degrees * Math.PI) / 180;
