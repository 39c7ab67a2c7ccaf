import type { Piece, SectionPoint } from './parts.ts';

/**
 * A tapered roller bearing of our own proportions. Along the axis it runs from the back of its cone at `from` to the
 * back of its cup, `width` further on in the direction `way`. mm.
 */
export interface TaperedBearing {
  readonly from: number;
  readonly way: 1 | -1;
  readonly bore: number;
  /** bore to outside, one side */
  readonly height: number;
  readonly width: number;
}

/** Slope of cone and cup raceway: their lines meet far outside, the rollers taper between them. */
const CONE_SLOPE = 0.19;
const CUP_SLOPE = 0.25;
/** In shares of the width: where the rollers run, where cone ends and cup begins. */
const ROLLERS_FROM = 0.15;
const ROLLERS_TO = 0.8;
const CONE_END = 0.88;
export const CUP_START = 0.12;
/** In shares of the height. */
const RACEWAY = 0.36;
const ROLLER = 0.36;
const RIB = 0.15;
/** mm of air on either side of a roller, in shares of the height */
const AIR = 0.015;

/** Rollers stand this many of their diameters apart, as a cage would hold them. */
const APART = 1.22;

/** Place and radius of the small face of the cone, where a spacer bears. */
export const coneFace = ({ from, way, width }: TaperedBearing): number => from + way * CONE_END * width;

export const cupBack = ({ from, way, width }: TaperedBearing): number => from + way * width;

export const outerRadius = ({ bore, height }: TaperedBearing): number => bore + height;

/** Inner radius of the cup at its back: what lies behind it must leave this free for nothing, and support what is outside. */
export const cupBackInner = ({ bore, height, width }: TaperedBearing): number =>
  bore + (RACEWAY + ROLLER + 2 * AIR) * height - CUP_SLOPE * (1 - ROLLERS_FROM) * width;

/** Cone and rollers whole, the cup cut. */
export function bearingPieces(bearing: TaperedBearing): readonly Piece[] {
  const { from, way, bore, height, width } = bearing;
  const at = (share: number, radius: number): SectionPoint => [from + way * share * width, radius];
  const cone = (share: number): number =>
    bore + RACEWAY * height - CONE_SLOPE * (share - ROLLERS_FROM) * width;
  const cup = (share: number): number =>
    bore + (RACEWAY + ROLLER + 2 * AIR) * height - CUP_SLOPE * (share - ROLLERS_FROM) * width;
  const roller = (share: number) => {
    const low = cone(share) + AIR * height;
    const high = cup(share) - AIR * height;
    return { at: at(share, (low + high) / 2), size: ((high - low) / 2) * Math.cos(Math.atan(CUP_SLOPE)) };
  };
  const big = roller(ROLLERS_FROM);
  const small = roller(ROLLERS_TO);
  const count = Math.floor((Math.PI * small.at[1]) / (APART * small.size));
  const outer = bore + height;
  const edge = 0.035 * height;
  return [
    {
      kind: 'turned',
      cut: false,
      section: [
        at(0, bore),
        at(CONE_END, bore),
        at(CONE_END, cone(ROLLERS_TO) + 0.07 * height),
        at(ROLLERS_TO + 0.015, cone(ROLLERS_TO) + 0.07 * height),
        at(ROLLERS_TO + 0.015, cone(ROLLERS_TO + 0.015)),
        at(ROLLERS_FROM - 0.015, cone(ROLLERS_FROM - 0.015)),
        at(ROLLERS_FROM - 0.015, cone(ROLLERS_FROM) + RIB * height),
        at(0.02, cone(ROLLERS_FROM) + RIB * height),
        at(0, cone(ROLLERS_FROM) + RIB * height - edge),
      ],
    },
    { kind: 'rollers', count, big, small },
    {
      kind: 'turned',
      cut: true,
      section: [
        at(CUP_START, cup(CUP_START)),
        at(1, cup(1)),
        at(1, outer - edge),
        at(1 - edge / width, outer),
        at(CUP_START, outer),
      ],
    },
  ];
}
