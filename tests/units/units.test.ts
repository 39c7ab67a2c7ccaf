import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatAmount,
  formatDegrees,
  formatLength,
  formatMicron,
  formatMicrorad,
  formatNumber,
} from '../../src/units/format.ts';
import { inchToMm, mmFrom, mmTo, mmToInch, mmToMicron, mmToThou } from '../../src/units/length.ts';
import { parseNumber } from '../../src/units/parse.ts';

const SEED = 20261;

describe('lengths', () => {
  test('an inch is 25.4 mm, a thou 0.0254 mm', () => {
    expect(inchToMm(1)).toBe(25.4);
    expect(mmToThou(0.0254)).toBeCloseTo(1, 12);
    expect(mmToMicron(0.012)).toBeCloseTo(12, 12);
  });

  test(`there and back changes nothing (seed ${SEED})`, () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.constantFrom('mm', 'in'),
        (mm, unit) => {
          expect(mmFrom(unit, mmTo(unit, mm))).toBeCloseTo(mm, 9);
          expect(inchToMm(mmToInch(mm))).toBeCloseTo(mm, 9);
        },
      ),
      { seed: SEED },
    );
  });
});

describe('formatting', () => {
  test.each([
    [0.05, 2, '0.05'],
    [-0.05, 2, '−0.05'],
    [-0.004, 2, '0.00'],
    [-0.006, 2, '−0.01'],
    [1234.5, 1, '1234.5'],
    [Number.NaN, 2, '–'],
    [Number.POSITIVE_INFINITY, 2, '–'],
  ])('%d with %d decimals is %s', (value, decimals, text) => {
    expect(formatNumber(value, decimals)).toBe(text);
  });

  test('the unit stands beside the number', () => {
    expect(formatLength(0.254, 'mm')).toBe('0.25\u202fmm');
    expect(formatLength(0.254, 'in')).toBe('0.0100\u202fin');
    expect(formatLength(-0.254, 'mm', { decimals: 3, decimalMark: ',' })).toBe('−0,254\u202fmm');
    expect(formatAmount(-0.05, 'mm')).toBe('0.05\u202fmm');
    expect(formatMicron(0.0125)).toBe('12.5\u202fµm');
    expect(formatDegrees(-0.051)).toBe('−0.05°');
    expect(formatMicrorad(61.4)).toBe('61\u202fµrad');
  });
});

describe('typed numbers', () => {
  test.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    [' -5 ', -5],
    ['−5', -5],
    ['+.25', 0.25],
    ['3.', 3],
    ['007', 7],
    ['1,250', 1.25],
    ['-0', 0],
  ])('%j is %d', (text, value) => {
    expect(parseNumber(text)).toEqual({ ok: true, value });
  });

  test.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['1.2.3', 'two-decimal-marks'],
    ['1,234.5', 'two-decimal-marks'],
    ['1e3', 'exponent'],
    ['1E-3', 'exponent'],
    ['.', 'digits-missing'],
    ['-', 'digits-missing'],
    ['1 250', 'space-inside'],
    ['- 5', 'space-inside'],
    ['5mm', 'other-characters'],
    ['0x10', 'other-characters'],
    ['Infinity', 'other-characters'],
    ['NaN', 'other-characters'],
    ['--5', 'other-characters'],
    ['٣', 'other-characters'],
    ['1'.repeat(25), 'too-long'],
  ])('%j is refused: %s', (text, reason) => {
    expect(parseNumber(text)).toEqual({ ok: false, reason });
  });

  test(`what is shown can be typed back, with either mark (seed ${SEED})`, () => {
    fc.assert(
      fc.property(
        fc.double({ min: -9999, max: 9999, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        fc.constantFrom('.' as const, ',' as const),
        (value, decimals, mark) => {
          const parsed = parseNumber(formatNumber(value, decimals, mark));
          expect(parsed.ok && Math.abs(parsed.value - value)).toBeLessThanOrEqual(0.5001 * 10 ** -decimals);
        },
      ),
      { seed: SEED },
    );
  });

  test(`any text gives a finite number or a reason (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[-+.,\de ]{0,12}$/)), (text) => {
        const parsed = parseNumber(text);
        if (!parsed.ok) return;
        expect(Number.isFinite(parsed.value)).toBe(true);
        expect(text.trim()).toMatch(/^[+\-−]?\d*[.,]?\d*$/);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});
