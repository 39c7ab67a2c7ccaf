import { describe, expect, it } from 'vitest';
import { dialScale, needleTurn, numberAt } from '../../src/units/dialScale.ts';

const TURN = 2 * Math.PI;

describe('the face of the dial', () => {
  it('turns back one line for each division the plunger comes out, clockwise when it is pushed in', () => {
    for (const [unit, mm] of [
      ['mm', 0.01],
      ['in', 0.0005 * 25.4],
    ] as const) {
      const scale = dialScale(unit);
      expect(needleTurn(scale, mm)).toBeCloseTo(-TURN / scale.lines, 12);
      expect(needleTurn(scale, -3 * mm)).toBeCloseTo((3 * TURN) / scale.lines, 12);
    }
    expect(needleTurn(dialScale('mm'), 1)).toBeCloseTo(-TURN, 12);
    expect(needleTurn(dialScale('in'), 0.04 * 25.4)).toBeCloseTo(-TURN, 12);
  });

  it('numbers rise both ways from the top, in hundredths of a mm or thousandths of an inch', () => {
    const numbers = (unit: 'mm' | 'in') => {
      const scale = dialScale(unit);
      return Array.from({ length: scale.lines }, (_, line) => numberAt(scale, line)).filter(
        (number) => number !== null,
      );
    };
    expect(numbers('mm')).toEqual(['0', '10', '20', '30', '40', '50', '40', '30', '20', '10']);
    expect(numbers('in')).toEqual(['0', '5', '10', '15', '20', '15', '10', '5']);
  });

  it('a number stands where the needle points at that reading', () => {
    for (const unit of ['mm', 'in'] as const) {
      const scale = dialScale(unit);
      const line = scale.numberEvery;
      const reading = line * scale.division * (unit === 'mm' ? 1 : 25.4);
      // back from the top by as many lines: the same number as that many lines forward
      const pointed = Math.round(((needleTurn(scale, reading) + TURN) / TURN) * scale.lines);
      expect(numberAt(scale, pointed)).toBe(numberAt(scale, line));
      expect(Number(numberAt(scale, line))).toBeCloseTo(
        (unit === 'mm' ? 100 : 1000) * line * scale.division,
        9,
      );
    }
  });
});
