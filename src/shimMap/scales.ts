import type { PinionShim } from '../../sim/assembly/hardware.ts';
import { pinionInFromShim, pinionShimSign } from '../../sim/worker/assembly.ts';
import type { ShimMapPlane } from '../../sim/worker/longProtocol.ts';
import type { PlanePoint } from './plane.ts';

/** px of the drawing: the plot and the room round it. */
export interface PlotBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

/** Plane to drawing and back. To the right the pinion shim grows thicker, upward the ring goes out. */
export interface Scales {
  readonly box: PlotBox;
  toScreen(point: PlanePoint): ScreenPoint;
  toPlane(point: ScreenPoint): PlanePoint;
  /** px of a place in columns and rows, for outlines */
  column(place: number): number;
  row(place: number): number;
  /** px of a pinion shim */
  shim(thickness: number): number;
}

export function scalesOf(
  plane: Pick<ShimMapPlane, 'pinionIn' | 'ringAway'>,
  pinionShim: PinionShim,
  box: PlotBox,
): Scales {
  const { pinionIn, ringAway } = plane;
  // where a thicker shim moves the pinion out, the plane's columns run from right to left
  const thickerIsIn = pinionShimSign(pinionShim.place) === 1;
  const across = (share: number) => box.left + box.width * (thickerIsIn ? share : 1 - share);
  const up = (share: number) => box.top + box.height * (1 - share);
  const x = (mm: number) => across((mm - pinionIn.low) / (pinionIn.high - pinionIn.low));
  const y = (mm: number) => up((mm - ringAway.low) / (ringAway.high - ringAway.low));
  return {
    box,
    toScreen: (point) => ({ x: x(point.pinionIn), y: y(point.ringAway) }),
    toPlane: (point) => {
      const share = (point.x - box.left) / box.width;
      const fromLow = thickerIsIn ? share : 1 - share;
      const upShare = 1 - (point.y - box.top) / box.height;
      return {
        pinionIn: pinionIn.low + fromLow * (pinionIn.high - pinionIn.low),
        ringAway: ringAway.low + upShare * (ringAway.high - ringAway.low),
      };
    },
    column: (place) => across(place / (pinionIn.count - 1)),
    row: (place) => up(place / (ringAway.count - 1)),
    shim: (thickness) => x(pinionInFromShim(pinionShim, thickness)),
  };
}
