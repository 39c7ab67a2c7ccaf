import type { AxleHardware, SideDevice } from '../../../sim/assembly/hardware.ts';

/** A shim stack as drawn at the design position. */
export interface Drawn {
  /** how many times as thick as it is; a whole number */
  readonly factor: number;
  /** mm, drawn */
  readonly thickness: number;
}

export interface DrawnThickness {
  readonly pinionShim: Drawn;
  /** beside a solid spacer; null: there is none */
  readonly stack: Drawn | null;
  /** null: an adjuster is drawn as large as it is */
  readonly ringSide: Drawn | null;
  readonly oppositeSide: Drawn | null;
}

/** A shim is drawn about this share of the ring's radius thick, so that it is seen beside the gears … */
const SEEN = 0.05;
/** … and never more than this many times thicker than it is */
const MOST = 6;
/** mm drawn for a stack of next to nothing */
const LEAST = 0.5;

/** Factor and thickness for a stack that measures `mm` at the design position, beside a ring of radius `ring` mm. */
function drawnThickness(mm: number, ring: number): Drawn {
  const factor = mm > 0 ? Math.min(Math.max(Math.round((SEEN * ring) / mm), 1), MOST) : 1;
  return { factor, thickness: Math.max(factor * mm, LEAST) };
}

/** mm beside a solid spacer that goes with the pinion shim of the design position: behind a cup the two grow together. */
export const stackAtDesign = ({ pinionShim, spacer }: Pick<AxleHardware, 'pinionShim' | 'spacer'>): number =>
  spacer.kind === 'crush-sleeve'
    ? 0
    : pinionShim.place === 'behind-cup'
      ? spacer.fitted - (pinionShim.fitted - pinionShim.design)
      : spacer.fitted;

export function drawnThicknesses(hardware: AxleHardware, ring: number): DrawnThickness {
  const side = (device: SideDevice): Drawn | null =>
    device.kind === 'adjuster' ? null : drawnThickness(device.design, ring);
  return {
    pinionShim: drawnThickness(hardware.pinionShim.design, ring),
    stack: hardware.spacer.kind === 'solid-spacer' ? drawnThickness(stackAtDesign(hardware), ring) : null,
    ringSide: side(hardware.sides.ringSide),
    oppositeSide: side(hardware.sides.oppositeSide),
  };
}
