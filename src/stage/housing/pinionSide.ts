import type { AxleHardware } from '../../../sim/assembly/hardware.ts';
import type { GearExtents } from './gearExtents.ts';
import type { Body, SectionPoint, Turned } from './parts.ts';
import {
  bearingPieces,
  CUP_START,
  coneFace,
  cupBack,
  cupBackInner,
  outerRadius,
  type TaperedBearing,
} from './taperedBearing.ts';
import type { DrawnThickness } from './thickness.ts';

/** Where things of the pinion's side begin and end along its axis, at the design position. mm. */
export interface PinionSide {
  readonly bodies: readonly Body[];
  readonly head: TaperedBearing;
  readonly tail: TaperedBearing;
  /** the pinion shim at the design position, in the direction of the axis */
  readonly shim: {
    readonly from: number;
    readonly to: number;
    readonly inner: number;
    readonly outer: number;
  };
  /** the piece between the cones, and the stack beside a solid one (null: none) */
  readonly spacer: { readonly from: number; readonly to: number };
  readonly stack: { readonly from: number; readonly to: number } | null;
  /** outside of the bore's boss: what the bowl leaves free */
  readonly boss: { readonly inner: number; readonly outer: number; readonly from: number };
  /** end of the shaft, and greatest radius of anything on this side */
  readonly end: number;
  /** the disc of the flange along the axis */
  readonly flangeFrom: number;
  readonly flangeTo: number;
  readonly flangeRadius: number;
  /** radius of the thread at its end */
  readonly endRadius: number;
  readonly widest: number;
}

/** mm by which turning parts clear what they must not touch, beyond any drawn move */
export const CLEAR = 3;

const turned = (section: readonly SectionPoint[], cut = false): Turned => ({ kind: 'turned', section, cut });

/** A plain ring with its edges broken. */
const ring = (from: number, to: number, inner: number, outer: number, cut = false): Turned =>
  turned(
    [
      [from, inner],
      [to, inner],
      [to, outer],
      [from, outer],
    ],
    cut,
  );

/** Shaft, bearings, spacer, shim and the bore round them, laid out from the head of the pinion outward. */
export function layOutPinionSide(
  gears: GearExtents,
  hardware: Pick<AxleHardware, 'pinionShim' | 'spacer'>,
  drawn: DrawnThickness,
): PinionSide {
  const { pinion } = gears;
  const { place } = hardware.pinionShim;
  const u = pinion.seat;
  const shimThickness = drawn.pinionShim.thickness;
  // the head goes on as a plain collar until the bearing is clear of the ring's rim
  const collarEnd = Math.max(pinion.shoulder + 0.05 * u, gears.ring.outer + CLEAR);
  const underCone = place === 'head-bearing' ? shimThickness : 0;
  const behindCup = place === 'behind-cup' ? shimThickness : 0;
  const bore = u + 0.1;
  const head: TaperedBearing = {
    from: collarEnd + underCone,
    way: 1,
    bore,
    height: 0.92 * u,
    width: 1.06 * u,
  };
  const tailBore = 0.88 * u;
  const tailWidth = 0.9 * u;
  const tailHeight = 0.76 * u;
  const stackThickness = drawn.stack?.thickness ?? 0;
  const web = Math.max(0.62 * u, pinion.seatEnd + 1 - (cupBack(head) + behindCup + 0.12 * tailWidth));
  const tail: TaperedBearing = {
    from: cupBack(head) + behindCup + web + stackThickness + tailWidth,
    way: -1,
    bore: tailBore,
    height: tailHeight,
    width: tailWidth,
  };
  const webFrom = cupBack(head) + behindCup;
  const webTo = cupBack(tail);
  const webInner = Math.max(cupBackInner(head), cupBackInner(tail)) + 0.04 * u;
  const headBore = outerRadius(head) + 0.05;
  const tailOuter = outerRadius(tail) + 0.05;

  // shaft
  const seatTo = Math.max(coneFace(head), pinion.seatEnd + 0.5);
  const threadRadius = Math.max(0.66 * u, pinion.shaft + 0.2);
  const hubTo = tail.from + 0.72 * u;
  const nutTo = hubTo + 0.42 * u;
  const end = Math.max(nutTo + 0.3 * u, pinion.end + 1);
  const shaft = turned([
    // the solids' own head and shaft lie inside
    [pinion.shoulder - 0.01, 0],
    [end, 0],
    [end, threadRadius - 0.06 * u],
    [end - 0.06 * u, threadRadius],
    [hubTo, threadRadius],
    [hubTo, tailBore - 0.1],
    [seatTo, tailBore - 0.1],
    [seatTo, u + 0.05],
    [collarEnd, u + 0.05],
    [collarEnd, 1.27 * u],
    [collarEnd - 0.04 * u, 1.3 * u],
    [pinion.shoulder - 0.01, 1.3 * u],
  ]);
  const disc = 1.95 * u;
  const flange: Turned = turned([
    [tail.from, tailBore],
    [hubTo, tailBore],
    [hubTo, 1.12 * u],
    [hubTo + 0.02 * u, 1.16 * u],
    [hubTo + 0.02 * u, disc - 0.05 * u],
    [hubTo - 0.03 * u, disc],
    [hubTo - 0.24 * u, disc],
    [hubTo - 0.29 * u, disc - 0.05 * u],
    [hubTo - 0.29 * u, 1.3 * u],
    [hubTo - 0.36 * u, 1.22 * u],
    [tail.from, 1.22 * u],
  ]);
  const nut: Turned = {
    ...turned([
      [hubTo, threadRadius],
      [nutTo, threadRadius],
      [nutTo, 1.02 * u],
      [nutTo - 0.07 * u, 1.1 * u],
      [hubTo, 1.1 * u],
    ]),
    sides: 6,
  };
  const washer = ring(hubTo, hubTo + 0.06 * u, threadRadius, 1.2 * u);

  // between the cones
  const spacerFrom = coneFace(head);
  const spacerTo = coneFace(tail) - stackThickness;
  const inside = u + 0.35;
  const wall = 0.15 * u;
  const crush: Turned = turned([
    [spacerFrom, inside],
    [spacerTo, inside],
    [spacerTo, inside + wall],
    [mix(spacerFrom, spacerTo, 0.72), inside + wall],
    [mix(spacerFrom, spacerTo, 0.6), inside + 1.9 * wall],
    [mix(spacerFrom, spacerTo, 0.5), inside + 2.2 * wall],
    [mix(spacerFrom, spacerTo, 0.4), inside + 1.9 * wall],
    [mix(spacerFrom, spacerTo, 0.28), inside + wall],
    [spacerFrom, inside + wall],
  ]);
  const solid = ring(spacerFrom, spacerTo, inside, inside + 1.1 * wall);
  const stack =
    drawn.stack === null ? null : { from: spacerTo, to: spacerTo + stackThickness, inside, wall: 1.1 * wall };

  // the bore
  const inCartridge = place === 'cartridge';
  const inner = head.from + (CUP_START - 0.04) * head.width;
  const outerEnd = tail.from + 0.34 * u;
  const skin = 0.4 * u;
  const sleeveOuter = inCartridge ? headBore + 0.24 * u : headBore + skin;
  const boreLine: readonly SectionPoint[] = [
    [inner, headBore],
    [webFrom, headBore],
    [webFrom, webInner],
    [webTo, webInner],
    [webTo, tailOuter],
    [outerEnd, tailOuter],
  ];
  const bodies: Body[] = [];
  let shim: PinionSide['shim'];
  let boss: PinionSide['boss'];
  let widest = disc;
  if (inCartridge) {
    const flangeFrom = mix(cupBack(head), webTo, 0.35);
    const flangeTo = flangeFrom + 0.34 * u;
    const flangeOuter = sleeveOuter + 0.78 * u;
    const neck = tailOuter + 0.3 * u;
    const faceAt = flangeFrom - shimThickness;
    const bossInner = sleeveOuter + 0.1;
    const bossFrom = inner + 0.3 * head.width;
    bodies.push({
      part: 'cartridge',
      tone: 'spacer',
      axis: 'pinion',
      rider: 'cartridge',
      pieces: [
        turned(
          [
            ...boreLine,
            [outerEnd, neck - 0.06 * u],
            [outerEnd - 0.06 * u, neck],
            [flangeTo + 0.16 * u, neck],
            [flangeTo, sleeveOuter],
            [flangeTo, flangeOuter],
            [flangeFrom, flangeOuter],
            [flangeFrom, sleeveOuter],
            [inner + 0.06 * u, sleeveOuter],
            [inner, sleeveOuter - 0.06 * u],
          ],
          true,
        ),
        {
          kind: 'pegs',
          cut: true,
          count: 9,
          circle: (sleeveOuter + flangeOuter) / 2,
          size: 0.17 * u,
          from: flangeTo,
          to: flangeTo + 0.2 * u,
        },
      ],
    });
    bodies.push({
      part: 'housing',
      tone: 'cast',
      axis: 'pinion',
      rider: 'housing',
      pieces: [
        turned(
          [
            [bossFrom, bossInner],
            [faceAt, bossInner],
            [faceAt, flangeOuter],
            [faceAt - 0.3 * u, flangeOuter],
            [faceAt - 0.62 * u, bossInner + 0.42 * u],
            [bossFrom, bossInner + 0.42 * u],
          ],
          true,
        ),
      ],
    });
    shim = { from: faceAt, to: flangeFrom, inner: sleeveOuter + 0.3, outer: flangeOuter };
    boss = { inner: bossInner, outer: bossInner + 0.42 * u, from: bossFrom };
    widest = Math.max(widest, flangeOuter);
  } else {
    const neck = tailOuter + 0.34 * u;
    bodies.push({
      part: 'housing',
      tone: 'cast',
      axis: 'pinion',
      rider: 'housing',
      pieces: [
        turned(
          [
            ...boreLine,
            [outerEnd, neck - 0.08 * u],
            [outerEnd - 0.08 * u, neck],
            [webTo, neck],
            [mix(webFrom, webTo, 0.2), sleeveOuter],
            [inner, sleeveOuter],
          ],
          true,
        ),
      ],
    });
    shim =
      place === 'head-bearing'
        ? { from: collarEnd, to: head.from, inner: bore, outer: 1.3 * u }
        : { from: cupBack(head), to: webFrom, inner: webInner, outer: headBore - 0.1 };
    boss = { inner: headBore, outer: sleeveOuter, from: inner };
  }

  bodies.push(
    { part: 'pinion', tone: 'steel', axis: 'pinion', rider: 'pinion', pieces: [shaft] },
    { part: 'flange', tone: 'carrier', axis: 'pinion', rider: 'tail', pieces: [flange, washer, nut] },
    { part: 'head-bearing', tone: 'bearing', axis: 'pinion', rider: 'head', pieces: bearingPieces(head) },
    { part: 'tail-bearing', tone: 'bearing', axis: 'pinion', rider: 'tail', pieces: bearingPieces(tail) },
    {
      part: 'spacer',
      tone: 'spacer',
      axis: 'pinion',
      rider: 'spacer',
      pieces: [hardware.spacer.kind === 'crush-sleeve' ? crush : solid],
    },
    {
      part: 'pinion-shim',
      tone: 'shim',
      axis: 'pinion',
      rider: 'pinion-shim',
      pieces: [ring(shim.from, shim.to, shim.inner, shim.outer, place !== 'head-bearing')],
    },
  );
  if (stack !== null) {
    bodies.push({
      part: 'spacer-stack',
      tone: 'shim',
      axis: 'pinion',
      rider: 'spacer-stack',
      pieces: [ring(stack.from, stack.to, stack.inside, stack.inside + stack.wall)],
    });
  }
  return {
    bodies,
    head,
    tail,
    shim,
    spacer: { from: spacerFrom, to: spacerTo },
    stack: stack === null ? null : { from: stack.from, to: stack.to },
    boss,
    end,
    flangeFrom: hubTo - 0.29 * u,
    flangeTo: hubTo,
    flangeRadius: disc,
    endRadius: threadRadius,
    widest,
  };
}

const mix = (a: number, b: number, t: number): number => a + (b - a) * t;
