import { type LengthUnit, mmTo } from './length.ts';

/** The divided face of a dial indicator. */
export interface DialScale {
  readonly unit: LengthUnit;
  /** of `unit` between two lines */
  readonly division: number;
  /** lines round the face */
  readonly lines: number;
  /** every so many lines a number stands */
  readonly numberEvery: number;
  /** a long line without a number between */
  readonly longEvery: number;
  /** digits of `division` */
  readonly decimals: number;
}

/** One turn is 1 mm, or 0.040 in: the same play turns the needle about as far in either unit. */
const SCALES: Readonly<Record<LengthUnit, DialScale>> = {
  mm: { unit: 'mm', division: 0.01, lines: 100, numberEvery: 10, longEvery: 5, decimals: 2 },
  in: { unit: 'in', division: 0.0005, lines: 80, numberEvery: 10, longEvery: 2, decimals: 4 },
};

export const dialScale = (unit: LengthUnit): DialScale => SCALES[unit];

/**
 * Turn of the needle, rad clockwise from the top, for a plunger that went `out` mm from zero. A plunger pushed in turns
 * the needle clockwise, one that comes out turns it back.
 */
export const needleTurn = (scale: DialScale, out: number): number =>
  (-2 * Math.PI * mmTo(scale.unit, out)) / (scale.division * scale.lines);

/** What stands at line `line` (0 at the top, clockwise): numbers rise both ways, in hundredths of a mm or thousandths of an inch. */
export function numberAt(scale: DialScale, line: number): string | null {
  if (line % scale.numberEvery !== 0) return null;
  const fromZero = Math.min(line, scale.lines - line);
  const parts = scale.unit === 'mm' ? 100 : 1000;
  return String(Math.round(fromZero * scale.division * parts));
}
