/** A place in a half-section: along the part's axis and out from it. mm. */
export type SectionPoint = readonly [axial: number, radius: number];

/** What a piece moves with. Everything that rides together has one place. */
const RIDERS = [
  'housing',
  'ring-seat',
  'opposite-seat',
  'pinion',
  'head',
  'tail',
  'cartridge',
  'spacer',
  'spacer-stack',
  'pinion-shim',
  'carrier',
  'ring-bearing',
  'opposite-bearing',
  'ring-side',
  'opposite-side',
] as const;
export type Rider = (typeof RIDERS)[number];

/** A closed half-section turned about the axis; `cut`: only the half behind the plane of the section is there. */
export interface Turned {
  readonly kind: 'turned';
  readonly section: readonly SectionPoint[];
  readonly cut: boolean;
  /** only `count` equal arcs of it, each this share of its pitch */
  readonly arcs?: { readonly count: number; readonly share: number };
  /** corners round the axis; left out: round */
  readonly sides?: number;
}

/** Straight pegs along the axis, on a circle about it: bolt heads. */
export interface Pegs {
  readonly kind: 'pegs';
  readonly count: number;
  readonly circle: number;
  /** only those behind the plane of the section */
  readonly cut: boolean;
  readonly size: number;
  readonly from: number;
  readonly to: number;
}

/** Tapered rollers round the axis, each by the two ends of its middle line. */
export interface Rollers {
  readonly kind: 'rollers';
  readonly count: number;
  readonly big: { readonly at: SectionPoint; readonly size: number };
  readonly small: { readonly at: SectionPoint; readonly size: number };
}

export type Piece = Turned | Pegs | Rollers;

export const PART_NAMES = [
  'pinion-shim',
  'ring-side',
  'opposite-side',
  'pinion',
  'ring',
  'carrier',
  'head-bearing',
  'tail-bearing',
  'spacer',
  'spacer-stack',
  'cartridge',
  'ring-bearing',
  'opposite-bearing',
  'flange',
  'housing',
] as const;
export type PartName = (typeof PART_NAMES)[number];

/** What a part is made of, for its colour. */
export type Tone = 'cast' | 'steel' | 'bearing' | 'carrier' | 'spacer' | 'shim' | 'mark';

/** An arrow in line with an axis: the way a thicker shim, or an adjuster turned in, pushes. mm along the axis. */
export interface PushArrow {
  readonly part: 'pinion-shim' | 'ring-side' | 'opposite-side';
  readonly axis: Body['axis'];
  readonly from: number;
  readonly to: number;
  /** radius of its head */
  readonly size: number;
}

/** A group of pieces of one part that ride together. */
export interface Body {
  readonly part: PartName;
  readonly tone: Tone;
  readonly axis: 'pinion' | 'carrier';
  readonly rider: Rider;
  readonly pieces: readonly Piece[];
}

/** Where a rider is along its axis: axial' = shift + scale · axial, mm; `turn` rad about the axis. */
export interface Place {
  readonly shift: number;
  readonly scale: number;
  readonly turn: number;
}
