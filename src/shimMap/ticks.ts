import { scaleLinear } from 'd3-scale';
import { type LengthUnit, mmFrom, mmTo } from '../units/length.ts';

export interface Tick {
  readonly mm: number;
  /** one with a number */
  readonly major: boolean;
}

export interface Ticks {
  readonly ticks: readonly Tick[];
  /** between two numbers, in the unit */
  readonly step: number;
}

/** Round lengths of the chosen unit between two of mm: numbers at about `wanted` of them, and fifths or so between. */
export function ticksBetween(low: number, high: number, unit: LengthUnit, wanted: number): Ticks {
  const scale = scaleLinear().domain([mmTo(unit, low), mmTo(unit, high)]);
  const named = scale.ticks(wanted);
  const step = named.length > 1 ? named[1] - named[0] : 1;
  const isNamed = (value: number) => Math.abs(value / step - Math.round(value / step)) < 1e-6;
  const ticks = scale
    .ticks(named.length * 5)
    .map((value) => ({ mm: mmFrom(unit, value), major: isNamed(value) }));
  return { ticks, step };
}

/** Decimals that show every multiple of `step`. */
export function decimalsOf(step: number): number {
  let decimals = 0;
  while (decimals < 6 && Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) > 1e-6)
    decimals++;
  return decimals;
}
