import type { AxleHardware } from '../../../sim/assembly/hardware.ts';
import type { GearSolids } from '../../../sim/gearset/solids.ts';
import { type CarrierSide, layOutCarrierSide } from './carrierSide.ts';
import { type GearExtents, readExtents } from './gearExtents.ts';
import type { Body, PushArrow, Turned } from './parts.ts';
import { layOutPinionSide, type PinionSide } from './pinionSide.ts';
import { type DrawnThickness, drawnThicknesses } from './thickness.ts';

/** A plain housing of our own round a gear set, at the design position; everything drawn is made from it. mm. */
export interface HousingLayout {
  readonly gears: GearExtents;
  /** mm, with its sign */
  readonly definedOffset: number;
  /** drawn as the mirror image: everything at −y instead of +y */
  readonly mirrored: boolean;
  readonly hardware: AxleHardware;
  readonly drawn: DrawnThickness;
  readonly pinionSide: PinionSide;
  readonly carrierSide: CarrierSide;
  readonly bodies: readonly Body[];
  readonly arrows: readonly PushArrow[];
}

export function layOutHousing(solids: GearSolids, offset: number, hardware: AxleHardware): HousingLayout {
  const gears = readExtents(solids, offset);
  const drawn = drawnThicknesses(hardware, gears.ring.outer);
  const pinionSide = layOutPinionSide(gears, hardware, drawn);
  const carrierSide = layOutCarrierSide(gears, hardware, drawn);
  const arrows = pushArrows(gears, hardware, pinionSide, carrierSide);
  const arrowBodies = arrows.map(
    (arrow): Body => ({
      part: arrow.part,
      tone: 'shim',
      axis: arrow.axis,
      rider: arrow.part === 'pinion-shim' ? 'pinion' : 'carrier',
      pieces: [arrowPiece(arrow)],
    }),
  );
  return {
    gears,
    definedOffset: offset,
    mirrored: (hardware.hand === 'reverse-cut') !== offset < 0,
    hardware,
    drawn,
    pinionSide,
    carrierSide,
    bodies: [...pinionSide.bodies, ...carrierSide.bodies, ...arrowBodies, ...designMarks(gears, pinionSide)],
    arrows,
  };
}

/** mm, width of a mark */
const MARK = 0.6;

/**
 * Thin rings that stay where the end of the pinion shaft and the back of the ring stand at the design position: what has
 * moved stands before or behind its mark.
 */
function designMarks({ ring }: GearExtents, pinionSide: PinionSide): readonly Body[] {
  const mark = (at: number, inner: number, outer: number): Turned => ({
    kind: 'turned',
    cut: false,
    section: [
      [at - MARK, inner],
      [at, inner],
      [at, outer],
      [at - MARK, outer],
    ],
  });
  const { end, endRadius } = pinionSide;
  return [
    {
      part: 'pinion',
      tone: 'mark',
      axis: 'pinion',
      rider: 'housing',
      pieces: [mark(end, endRadius + 0.5, endRadius + 2)],
    },
    {
      part: 'ring',
      tone: 'mark',
      axis: 'carrier',
      rider: 'housing',
      pieces: [mark(ring.back + MARK, ring.outer + 0.5, ring.outer + 2)],
    },
  ];
}

/** In line with the shafts, off their ends, where nothing hides them. */
function pushArrows(
  gears: GearExtents,
  hardware: AxleHardware,
  pinionSide: PinionSide,
  { ringSide, oppositeSide, body }: CarrierSide,
): readonly PushArrow[] {
  const u = gears.pinion.seat;
  const near = pinionSide.end + 0.45 * u;
  const far = near + 1.9 * u;
  const out = hardware.pinionShim.place === 'cartridge';
  const size = 0.52 * u;
  const gap = 0.16 * body;
  const length = 0.62 * body;
  return [
    { part: 'pinion-shim', axis: 'pinion', from: out ? near : far, to: out ? far : near, size },
    { part: 'ring-side', axis: 'carrier', from: ringSide.end - gap - length, to: ringSide.end - gap, size },
    {
      part: 'opposite-side',
      axis: 'carrier',
      from: oppositeSide.end + gap + length,
      to: oppositeSide.end + gap,
      size,
    },
  ];
}

/** Half-section of an arrow. */
function arrowPiece({ from, to, size }: PushArrow): Turned {
  const way = Math.sign(to - from);
  const neck = to - way * Math.min(1.5 * size, 0.62 * Math.abs(to - from));
  const shaft = 0.42 * size;
  return {
    kind: 'turned',
    cut: false,
    section: [
      [from, 0],
      [to, 0],
      [neck, size],
      [neck, shaft],
      [from, shaft],
    ],
  };
}
