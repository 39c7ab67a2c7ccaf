import type { SidesExplanation } from '../../../../sim/assembly/explain.ts';
import type { AxleHardware, Fitment, SideDevice } from '../../../../sim/assembly/hardware.ts';
import { explainPinionShim, explainSides, pinionPreloadEffect } from '../../../../sim/worker/assembly.ts';

/** How the sides are changed: what it costs depends on it. */
export type SideWork = SideDevice['kind'] | 'mixed';

export interface PinionLeg {
  /** mm, magnitude */
  readonly amount: number;
  readonly change: 'thicker' | 'thinner';
  readonly pinionMoves: 'in' | 'out';
  readonly place: AxleHardware['pinionShim']['place'];
  readonly newCrushSleeve: boolean;
  /** mm to add beside a solid spacer, negative = take out; 0 when none is needed */
  readonly spacerChange: number;
}

export interface SidesLeg {
  readonly explanation: SidesExplanation;
  readonly work: SideWork;
}

/** The way from one fitment to another: first the pinion shim, then the sides. A leg that is not needed is null. */
export interface Route {
  readonly pinion: PinionLeg | null;
  readonly sides: SidesLeg | null;
}

export function routeBetween(hardware: AxleHardware, from: Fitment, to: Fitment): Route {
  return { pinion: pinionLeg(hardware, from, to), sides: sidesLeg(hardware, from, to) };
}

function pinionLeg({ pinionShim, spacer }: AxleHardware, from: Fitment, to: Fitment): PinionLeg | null {
  const { place } = pinionShim;
  const { change, amount, pinionMoves } = explainPinionShim(place, from.pinionShim, to.pinionShim);
  if (change === 'same' || pinionMoves === 'none') return null;
  const { newCrushSleeve, spacerChange } = pinionPreloadEffect(
    place,
    spacer,
    to.pinionShim - from.pinionShim,
  );
  return { amount, change, pinionMoves, place, newCrushSleeve, spacerChange };
}

function sidesLeg(hardware: AxleHardware, from: Fitment, to: Fitment): SidesLeg | null {
  const explanation = explainSides(hardware, from, to);
  if (explanation.ringSide.change === 'same' && explanation.oppositeSide.change === 'same') return null;
  return { explanation, work: sideWork(hardware.sides) };
}

/** An inboard shim on either side means a bearing to pull, whatever the other side has. */
function sideWork({ ringSide, oppositeSide }: AxleHardware['sides']): SideWork {
  const kinds = [ringSide.kind, oppositeSide.kind];
  if (kinds.includes('inboard-shims')) return 'inboard-shims';
  return ringSide.kind === oppositeSide.kind ? ringSide.kind : 'mixed';
}
