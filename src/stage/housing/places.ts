import type { AxleHardware, Fitment } from '../../../sim/assembly/hardware.ts';
import type { SolidDetail } from '../../../sim/gearset/solids.ts';
import {
  pinionInFromShim,
  preloadChange,
  ringAwayFromSides,
  sidePush,
} from '../../../sim/worker/assembly.ts';
import type { HousingLayout } from './layout.ts';
import type { Place, Rider } from './parts.ts';

/** What moves by how much, true to size. mm from the design position. */
export interface Moves {
  readonly pinionIn: number;
  readonly ringAway: number;
  /** what each side pushes over design, and both together */
  readonly ringPush: number;
  readonly oppositePush: number;
  readonly squeeze: number;
}

export function movesOf(hardware: AxleHardware, fitment: Fitment): Moves {
  const { sides } = hardware;
  return {
    pinionIn: pinionInFromShim(hardware.pinionShim, fitment.pinionShim),
    ringAway: ringAwayFromSides(sides, fitment),
    ringPush: sidePush(sides.ringSide, fitment.ringSide),
    oppositePush: sidePush(sides.oppositeSide, fitment.oppositeSide),
    squeeze: preloadChange(sides, fitment),
  };
}

/** mm that anything is ever drawn away from its design position */
export const REACH = 2;
/** mm of free play left between drawn teeth: flat triangles stand off the flanks they are drawn for. */
export const SPARE: Readonly<Record<SolidDetail, number>> = { full: 0.02, reduced: 0.08 };
/** Never drawn more times larger than this. */
const MOST_TIMES = 20;
/** A drawn stack keeps at least this share of its design thickness. */
const KEPT = 0.25;

/** The largest factor at which every drawn shim keeps some thickness and nothing leaves its place in the housing. */
export function mostLarger(layout: HousingLayout, moves: Moves): number {
  const { drawn, hardware } = layout;
  let most = MOST_TIMES;
  const within = (reach: number, move: number): void => {
    if (Math.abs(move) > 0) most = Math.min(most, reach / Math.abs(move));
  };
  const stack = (thickness: number | undefined, change: number): void => {
    if (thickness !== undefined && change < 0) within((1 - KEPT) * thickness, change);
  };
  const thicker = hardware.pinionShim.place === 'cartridge' ? -moves.pinionIn : moves.pinionIn;
  for (const move of [moves.pinionIn, moves.ringAway, moves.squeeze / 2]) within(REACH, move);
  stack(drawn.pinionShim.thickness, thicker);
  if (hardware.pinionShim.place === 'behind-cup') stack(drawn.stack?.thickness, moves.pinionIn);
  stack(drawn.ringSide?.thickness, moves.ringPush);
  stack(drawn.oppositeSide?.thickness, moves.oppositePush);
  return most;
}

const STILL: Place = { shift: 0, scale: 1, turn: 0 };

const shifted = (shift: number, turn = 0): Place => ({ shift: shift + 0, scale: 1, turn });

/** The piece that lay from `from` to `to` now lies from `newFrom` to `newTo`. */
const stretched = (from: number, to: number, newFrom: number, newTo: number): Place => {
  const scale = (newTo - newFrom) / (to - from);
  return { shift: newFrom - scale * from, scale, turn: 0 };
};

/**
 * Where every rider stands with all moves drawn `factor` times as large (docs/model.md §2). Bearings, shims and seats
 * keep touching by construction: a shim grows by `factor` times its change, and what it pushes moves by as much. A
 * change of the squeeze, which in truth bearings and housing give way to, moves the two seats apart by half of it each.
 */
export function placesOf(
  layout: HousingLayout,
  moves: Moves,
  factor: number,
  notches: Pick<Fitment, 'ringSide' | 'oppositeSide'>,
): Readonly<Record<Rider, Place>> {
  const { hardware, pinionSide, carrierSide } = layout;
  const { place } = hardware.pinionShim;
  const pinion = -factor * moves.pinionIn;
  const carrier = -factor * moves.ringAway;
  const spread = (factor * moves.squeeze) / 2;
  const seats = { ringSide: -spread, oppositeSide: spread };

  const { shim, spacer, stack } = pinionSide;
  const head = place === 'head-bearing' ? 0 : pinion;
  const tail = place === 'cartridge' ? pinion : 0;
  // the shim lies between what moves and what stays
  const pinionShim =
    place === 'cartridge'
      ? stretched(shim.from, shim.to, shim.from, shim.to + pinion)
      : stretched(shim.from, shim.to, shim.from + pinion, shim.to);
  const spacerEnd = stack === null ? tail : head;

  const side = (name: 'ringSide' | 'oppositeSide'): { bearing: Place; device: Place } => {
    const device = hardware.sides[name];
    const { from, to } = carrierSide[name].device;
    const seat = seats[name];
    switch (device.kind) {
      case 'inboard-shims':
        return { bearing: shifted(seat), device: stretched(from, to, from + carrier, to + seat) };
      case 'outboard-shims':
        return { bearing: shifted(carrier), device: stretched(from, to, from + carrier, to + seat) };
      case 'adjuster': {
        // a right-hand thread, turned in from outside
        const turns = (notches[name] - device.design) / device.notchesPerTurn;
        const turn = (name === 'ringSide' ? 1 : -1) * 2 * Math.PI * turns;
        return { bearing: shifted(carrier), device: shifted(carrier, turn) };
      }
    }
  };
  const ringSide = side('ringSide');
  const oppositeSide = side('oppositeSide');
  return {
    housing: STILL,
    'ring-seat': shifted(seats.ringSide),
    'opposite-seat': shifted(seats.oppositeSide),
    pinion: shifted(pinion),
    head: shifted(head),
    tail: shifted(tail),
    cartridge: shifted(place === 'cartridge' ? pinion : 0),
    spacer: stretched(spacer.from, spacer.to, spacer.from + head, spacer.to + spacerEnd),
    'spacer-stack':
      stack === null ? STILL : stretched(stack.from, stack.to, stack.from + spacerEnd, stack.to + tail),
    'pinion-shim': pinionShim,
    carrier: shifted(carrier),
    'ring-bearing': ringSide.bearing,
    'opposite-bearing': oppositeSide.bearing,
    'ring-side': ringSide.device,
    'opposite-side': oppositeSide.device,
  };
}
