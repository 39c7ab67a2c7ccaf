import type { AxleHardware, Fitment, SideDevice } from './hardware.ts';
import { pinionPreloadEffect } from './pinionDepth.ts';

/** Work and parts that a change of shims takes. */
const COSTS = [
  'pinion-pull',
  'crush-sleeve',
  'spacer-shim',
  'carrier-out',
  'bearing-pull-ring-side',
  'bearing-pull-opposite-side',
  'adjusters',
] as const;
export type Cost = (typeof COSTS)[number];

/** In units of the score: what an improvement must be worth before the work is worth it (docs/model.md §13). */
const WEIGHT: Readonly<Record<Cost, number>> = {
  'pinion-pull': 0.2,
  'crush-sleeve': 0.05,
  'spacer-shim': 0.03,
  'carrier-out': 0.05,
  'bearing-pull-ring-side': 0.05,
  'bearing-pull-opposite-side': 0.05,
  adjusters: 0.03,
};

/** mm below which nothing was changed */
const NOTHING = 1e-9;

const changed = (from: number, to: number): boolean => Math.abs(to - from) > NOTHING;

export const costsOf = (hardware: AxleHardware, from: Fitment, to: Fitment): readonly Cost[] => {
  const found = new Set<Cost>();
  if (changed(from.pinionShim, to.pinionShim)) {
    const { place } = hardware.pinionShim;
    const effect = pinionPreloadEffect(place, hardware.spacer, to.pinionShim - from.pinionShim);
    found.add('pinion-pull');
    // The pinion's head is inside the ring: the carrier comes out first, but for a bolted cartridge.
    if (place !== 'cartridge') found.add('carrier-out');
    if (effect.newCrushSleeve) found.add('crush-sleeve');
    if (effect.spacerChange !== 0) found.add('spacer-shim');
  }
  const side = (device: SideDevice, pull: Cost): void => {
    if (device.kind === 'adjuster') found.add('adjusters');
    else found.add('carrier-out');
    if (device.kind === 'inboard-shims') found.add(pull);
  };
  if (changed(from.ringSide, to.ringSide)) side(hardware.sides.ringSide, 'bearing-pull-ring-side');
  if (changed(from.oppositeSide, to.oppositeSide)) {
    side(hardware.sides.oppositeSide, 'bearing-pull-opposite-side');
  }
  return COSTS.filter((cost) => found.has(cost));
};

export const costWeight = (costs: readonly Cost[]): number =>
  costs.reduce((sum, cost) => sum + WEIGHT[cost], 0);
