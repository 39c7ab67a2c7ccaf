/**
 * The parts of an axle that set where pinion and ring stand (docs/model.md §2 for the pose they give).
 * Lengths mm. `design` is the thickness or notch count at the design position of the mesh, `fitted` what is in the axle now.
 */

export type Hand = 'standard-cut' | 'reverse-cut';

/** head-bearing: between the pinion head and the head bearing's cone; behind-cup: behind the head bearing's cup; cartridge: under a bolted pinion cartridge. */
export type PinionShimPlace = 'head-bearing' | 'behind-cup' | 'cartridge';

/** Shims to be had: every thickness thinnest, thinnest + step, … up to thickest, of which up to `mostStacked` are laid together. */
export interface ShimStock {
  /** mm */
  readonly thinnest: number;
  /** mm */
  readonly thickest: number;
  /** mm */
  readonly step: number;
  readonly mostStacked: number;
}

export interface PinionShim {
  readonly place: PinionShimPlace;
  /** mm */
  readonly design: number;
  /** mm */
  readonly fitted: number;
  readonly stock: ShimStock;
}

/** outboard-shims: between cup and housing, changed without pulling bearings; inboard-shims: under the cone, a bearing pull each time. */
export type SideShimKind = 'outboard-shims' | 'inboard-shims';

export interface SideShims {
  readonly kind: SideShimKind;
  /** mm */
  readonly design: number;
  /** mm */
  readonly fitted: number;
  readonly stock: ShimStock;
}

/** A threaded adjuster. Notches count from the free end of the thread; more notches push the carrier toward the other side. */
export interface SideAdjuster {
  readonly kind: 'adjuster';
  /** mm of travel per turn */
  readonly pitch: number;
  readonly notchesPerTurn: number;
  /** notches */
  readonly design: number;
  /** notches */
  readonly fitted: number;
  /** notches to the end of the thread */
  readonly mostNotches: number;
}

export type SideDevice = SideShims | SideAdjuster;

export interface CrushSleeve {
  readonly kind: 'crush-sleeve';
}
export interface SolidSpacer {
  readonly kind: 'solid-spacer';
  /** mm, shims laid beside the spacer */
  readonly fitted: number;
  readonly stock: ShimStock;
}
export type Spacer = CrushSleeve | SolidSpacer;

/** Ring side: the bearing behind the ring's back; opposite side: the other one. Thickness on the ring side pushes the ring toward the pinion. */
export interface Sides {
  readonly ringSide: SideDevice;
  readonly oppositeSide: SideDevice;
}

export interface AxleHardware {
  readonly hand: Hand;
  readonly pinionShim: PinionShim;
  readonly sides: Sides;
  readonly spacer: Spacer;
}

/** What is, or would be, in the axle. A side is in its own measure: mm of shim, or notches of an adjuster. */
export interface Fitment {
  /** mm */
  readonly pinionShim: number;
  readonly ringSide: number;
  readonly oppositeSide: number;
}

export const fittedNow = (hardware: AxleHardware): Fitment => ({
  pinionShim: hardware.pinionShim.fitted,
  ringSide: hardware.sides.ringSide.fitted,
  oppositeSide: hardware.sides.oppositeSide.fitted,
});

export const fittedAtDesign = (hardware: AxleHardware): Fitment => ({
  pinionShim: hardware.pinionShim.design,
  ringSide: hardware.sides.ringSide.design,
  oppositeSide: hardware.sides.oppositeSide.design,
});
