import type {
  AxleHardware,
  PinionShimPlace,
  ShimStock,
  SideAdjuster,
  SideShims,
} from '../../sim/assembly/hardware.ts';

export const STOCK: ShimStock = { thinnest: 0.9, thickest: 2.7, step: 0.04, mostStacked: 2 };

export const sideShims = (design: number): SideShims => ({
  kind: 'outboard-shims',
  design,
  fitted: design,
  stock: STOCK,
});

export const adjuster = (pitch: number, notchesPerTurn: number): SideAdjuster => ({
  kind: 'adjuster',
  pitch,
  notchesPerTurn,
  design: 60,
  fitted: 60,
  mostNotches: 120,
});

export const hardware = (
  place: PinionShimPlace,
  ringSide: SideShims | SideAdjuster = sideShims(1.7),
  oppositeSide: SideShims | SideAdjuster = sideShims(2.06),
): AxleHardware => ({
  hand: 'standard-cut',
  pinionShim: {
    place,
    design: 1.1,
    fitted: 1.1,
    stock: { thinnest: 0.6, thickest: 1.6, step: 0.025, mostStacked: 1 },
  },
  sides: { ringSide, oppositeSide },
  spacer: { kind: 'solid-spacer', fitted: 0.8, stock: STOCK },
});
