import type { AxleHardware, Fitment, PinionShimPlace, SideDevice } from './hardware.ts';
import { pinionShimSign } from './pinionDepth.ts';
import { sidePush } from './sides.ts';

/** Below this many mm nothing moved: adding decimal thicknesses leaves binary dust. */
const NOTHING = 1e-9;

export type Move = 'in' | 'out' | 'none';
export type ThicknessChange = 'thicker' | 'thinner' | 'same';

/** "0.05 mm thicker, pinion moves in": amounts are magnitudes, the words carry the sign. */
export interface PinionShimExplanation {
  readonly place: PinionShimPlace;
  readonly change: ThicknessChange;
  /** mm, magnitude */
  readonly amount: number;
  readonly pinionMoves: Move;
  /** what this place does with a thicker shim, whatever the present change */
  readonly thickerMovesPinion: 'in' | 'out';
}

const changeOf = (mm: number): ThicknessChange =>
  mm > NOTHING ? 'thicker' : mm < -NOTHING ? 'thinner' : 'same';

export function explainPinionShim(place: PinionShimPlace, from: number, to: number): PinionShimExplanation {
  const change = changeOf(to - from);
  const thickerMovesPinion = pinionShimSign(place) === 1 ? 'in' : 'out';
  const thinnerMovesPinion = thickerMovesPinion === 'in' ? 'out' : 'in';
  return {
    place,
    change,
    amount: change === 'same' ? 0 : Math.abs(to - from),
    pinionMoves: change === 'same' ? 'none' : change === 'thicker' ? thickerMovesPinion : thinnerMovesPinion,
    thickerMovesPinion,
  };
}

export interface SideExplanation {
  readonly kind: SideDevice['kind'];
  /** thicker = shim added, or adjuster turned in */
  readonly change: ThicknessChange;
  /** mm of shim or notches, magnitude */
  readonly amount: number;
  /** mm of push, magnitude */
  readonly travel: number;
}

export interface SidesExplanation {
  readonly ringSide: SideExplanation;
  readonly oppositeSide: SideExplanation;
  /** in = toward the pinion (less backlash), out = away from it (more backlash) */
  readonly ringMoves: Move;
  /** mm, magnitude */
  readonly ringTravel: number;
  readonly preload: 'more' | 'less' | 'same';
  /** mm of total squeeze, magnitude */
  readonly preloadAmount: number;
}

function explainSide(device: SideDevice, from: number, to: number): SideExplanation {
  const push = sidePush(device, to) - sidePush(device, from);
  const change = changeOf(push);
  return {
    kind: device.kind,
    change,
    amount: change === 'same' ? 0 : Math.abs(to - from),
    travel: change === 'same' ? 0 : Math.abs(push),
  };
}

export function explainSides(
  hardware: Pick<AxleHardware, 'sides'>,
  from: Fitment,
  to: Fitment,
): SidesExplanation {
  const { sides } = hardware;
  const ringPush = sidePush(sides.ringSide, to.ringSide) - sidePush(sides.ringSide, from.ringSide);
  const oppositePush =
    sidePush(sides.oppositeSide, to.oppositeSide) - sidePush(sides.oppositeSide, from.oppositeSide);
  const toward = (ringPush - oppositePush) / 2;
  const squeeze = ringPush + oppositePush;
  const moved = Math.abs(toward) > NOTHING;
  const squeezed = Math.abs(squeeze) > NOTHING;
  return {
    ringSide: explainSide(sides.ringSide, from.ringSide, to.ringSide),
    oppositeSide: explainSide(sides.oppositeSide, from.oppositeSide, to.oppositeSide),
    ringMoves: moved ? (toward > 0 ? 'in' : 'out') : 'none',
    ringTravel: moved ? Math.abs(toward) : 0,
    preload: squeezed ? (squeeze > 0 ? 'more' : 'less') : 'same',
    preloadAmount: squeezed ? Math.abs(squeeze) : 0,
  };
}
