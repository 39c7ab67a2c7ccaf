import type { AxleHardware, SideDevice } from '../../../sim/assembly/hardware.ts';
import type { GearExtents } from './gearExtents.ts';
import type { Body, PartName, Piece, Rider, SectionPoint, Turned } from './parts.ts';
import { CLEAR } from './pinionSide.ts';
import { bearingPieces, cupBack, outerRadius, type TaperedBearing } from './taperedBearing.ts';
import type { DrawnThickness } from './thickness.ts';

/** One side of the carrier along the ring's axis, at the design position. mm. */
export interface CarrierEnd {
  readonly bearing: TaperedBearing;
  /** the shim, or the adjuster, nearest to the middle first */
  readonly device: {
    readonly from: number;
    readonly to: number;
    readonly inner: number;
    readonly outer: number;
  };
  /** outer end of everything on this side */
  readonly end: number;
}

export interface CarrierSide {
  readonly bodies: readonly Body[];
  readonly ringSide: CarrierEnd;
  readonly oppositeSide: CarrierEnd;
  /** half-section of the shell round ring and carrier, and its outside radius */
  readonly bowl: Turned;
  readonly bowlOuter: number;
  /** ends of the shell along the axis */
  readonly low: number;
  readonly high: number;
  /** radius of the carrier's body on the tooth side, and where it ends */
  readonly body: number;
  readonly top: number;
}

const turned = (section: readonly SectionPoint[], cut = false): Turned => ({ kind: 'turned', section, cut });

const ADJUSTER_LUGS = 0.5;

/** Carrier on the ring, side bearings, what sets them, and the shell round it all. */
export function layOutCarrierSide(
  gears: GearExtents,
  hardware: Pick<AxleHardware, 'sides'>,
  drawn: DrawnThickness,
): CarrierSide {
  const { ring, pinion } = gears;
  const r = ring.outer;
  // the body passes the pinion's nose by what both may move and a little more
  const body = Math.min(0.93 * ring.bore, pinion.nearestToRingAxis - CLEAR - 2);
  const hub = 0.47 * body;
  const bearingHeight = 0.6 * hub;
  const bearingWidth = 0.72 * hub;
  const flangeFrom = ring.back - 0.09 * r;
  const flangeOuter = 0.45 * ring.bore + 0.5 * r;
  const top = 0.2 * r;
  const collar = 0.05 * r;
  const pilot = ring.bore - 0.1;
  const shoulderRing = flangeFrom - 0.06 * r - collar;
  const shoulderOpposite = top + collar;
  const hubLength = bearingWidth + 0.12 * r;

  const ends = {
    ringSide: layOutEnd('ringSide', -1, shoulderRing),
    oppositeSide: layOutEnd('oppositeSide', 1, shoulderOpposite),
  };

  function layOutEnd(side: 'ringSide' | 'oppositeSide', way: 1 | -1, shoulder: number) {
    const device = hardware.sides[side];
    const inboard = device.kind === 'inboard-shims';
    const thickness = drawn[side]?.thickness ?? 0.62 * bearingWidth;
    const bearing: TaperedBearing = {
      from: shoulder + way * (inboard ? thickness : 0),
      way,
      bore: hub + 0.05,
      height: bearingHeight,
      width: bearingWidth,
    };
    return { side, way, shoulder, device, inboard, thickness, bearing };
  }

  const bodies: Body[] = [
    {
      part: 'carrier',
      tone: 'carrier',
      axis: 'carrier',
      rider: 'carrier',
      pieces: [
        turned([
          [shoulderRing - hubLength, 0.55 * hub],
          [shoulderOpposite + hubLength, 0.55 * hub],
          [shoulderOpposite + hubLength, hub - 0.012 * r],
          [shoulderOpposite + hubLength - 0.012 * r, hub],
          [shoulderOpposite, hub],
          [shoulderOpposite, hub + 0.5 * bearingHeight],
          [top, hub + 0.56 * bearingHeight],
          [top, body - 0.09 * r],
          [top - 0.05 * r, body],
          [top - 0.16 * r, body],
          [top - 0.17 * r, body - 0.012 * r],
          [top - 0.2 * r, body - 0.012 * r],
          [top - 0.21 * r, body],
          [ring.toe + 0.02 * r, body],
          [ring.toe - 0.02 * r, pilot - 0.015 * r],
          [ring.toe - 0.035 * r, pilot],
          [ring.back, pilot],
          [ring.back, flangeOuter],
          [flangeFrom + 0.015 * r, flangeOuter],
          [flangeFrom, flangeOuter - 0.015 * r],
          [flangeFrom, body + 0.02 * r],
          [flangeFrom - 0.06 * r, 0.8 * body],
          [shoulderRing + collar, hub + 0.56 * bearingHeight],
          [shoulderRing, hub + 0.5 * bearingHeight],
          [shoulderRing, hub],
          [shoulderRing - hubLength + 0.012 * r, hub],
          [shoulderRing - hubLength, hub - 0.012 * r],
        ]),
        {
          kind: 'pegs',
          cut: false,
          count: 10,
          circle: (Math.max(body + 0.02 * r, ring.bore) + flangeOuter) / 2,
          size: 0.038 * r,
          from: flangeFrom - 0.045 * r,
          to: flangeFrom,
        },
      ],
    },
  ];

  const finish = (end: ReturnType<typeof layOutEnd>): CarrierEnd => {
    const { side, way, device, inboard, thickness, bearing, shoulder } = end;
    const outer = outerRadius(bearing) + 0.05;
    const open = hub + 0.3 * bearingHeight;
    const rider: Rider = side === 'ringSide' ? 'ring-side' : 'opposite-side';
    const seat: Rider = side === 'ringSide' ? 'ring-seat' : 'opposite-seat';
    const bearingRider: Rider = side === 'ringSide' ? 'ring-bearing' : 'opposite-bearing';
    const back = cupBack(bearing);
    const at = (from: number, along: number): number => from + way * along;
    const adjuster = device.kind === 'adjuster';
    const from = inboard ? shoulder : back;
    const to = at(from, thickness);
    const inner = inboard ? hub + 0.1 : open;
    const deviceOuter = inboard ? hub + 0.5 * bearingHeight : adjuster ? outer - 0.1 : outerRadius(bearing);
    bodies.push({
      part: bearingRider as PartName,
      tone: 'bearing',
      axis: 'carrier',
      rider: bearingRider,
      pieces: bearingPieces(bearing),
    });
    bodies.push({
      part: rider as PartName,
      tone: 'shim',
      axis: 'carrier',
      rider,
      pieces: adjuster
        ? adjusterPieces(device, from, to, inner, deviceOuter, way)
        : [
            turned(
              [
                [from, inner],
                [to, inner],
                [to, deviceOuter],
                [from, deviceOuter],
              ],
              !inboard,
            ),
          ],
    });
    // the seat: a half bore, closed behind the cup or the shim, or open where an adjuster is screwed in
    const wallAt = inboard ? back : to;
    const skin = 0.16 * body;
    const mouth = at(bearing.from, 0.3 * bearing.width);
    const saddleOuter = outer + skin;
    const wallEnd = adjuster ? at(to, 0.3 * bearingWidth) : at(wallAt, 0.075 * r);
    const stub = at(wallEnd, 0.16 * r);
    const tube = open + 0.11 * body;
    const section: SectionPoint[] = adjuster
      ? [
          [mouth, outer],
          [wallEnd, outer],
          [wallEnd, saddleOuter - 0.02 * r],
          [at(wallEnd, -0.02 * r), saddleOuter],
          [at(mouth, 0.02 * r), saddleOuter],
          [mouth, saddleOuter - 0.02 * r],
        ]
      : [
          [mouth, outer],
          [wallAt, outer],
          [wallAt, open],
          [stub, open],
          [stub, tube],
          [at(wallEnd, 0.03 * r), tube],
          [wallEnd, tube + 0.03 * r],
          [wallEnd, saddleOuter - 0.02 * r],
          [at(wallEnd, -0.02 * r), saddleOuter],
          [at(mouth, 0.02 * r), saddleOuter],
          [mouth, saddleOuter - 0.02 * r],
        ];
    bodies.push({
      part: 'housing',
      tone: 'cast',
      axis: 'carrier',
      rider: seat,
      pieces: [turned(section, true)],
    });
    return {
      bearing,
      device: { from, to, inner, outer: deviceOuter },
      end: adjuster ? wallEnd : stub,
    };
  };
  const ringSide = finish(ends.ringSide);
  const oppositeSide = finish(ends.oppositeSide);

  // the shell: from one seat round the ring to the other
  const wall = 0.05 * r;
  const inside = 1.06 * r + 2;
  const low = flangeFrom - 0.045 * r - CLEAR - 0.03 * r;
  const high = Math.max(pinion.tip * 0.86, top) + 0.05 * r;
  const saddle = outerRadius(ringSide.bearing) + 0.12 * body;
  const ringSeatAt = cupBack(ringSide.bearing) + 0.25 * bearingWidth;
  const oppositeSeatAt = cupBack(oppositeSide.bearing) - 0.25 * bearingWidth;
  const slope = 0.14 * r;
  const inner: SectionPoint[] = [
    [Math.min(ringSeatAt, low - 0.02 * r), saddle],
    [low - 0.01 * r, saddle + 0.35 * (inside - saddle)],
    [low + 0.02 * r, inside - slope],
    [low + slope, inside],
    [high - slope, inside],
    [high, inside - slope],
    [Math.max(high, oppositeSeatAt), saddle],
  ];
  const outer: SectionPoint[] = [
    [inner[6][0] + wall, saddle],
    [high + wall, inside - slope + 0.3 * wall],
    [high - slope + 0.3 * wall, inside + wall],
    [low + slope - 0.3 * wall, inside + wall],
    [low + 0.02 * r - wall, inside - slope + 0.3 * wall],
    [low - 0.01 * r - wall, saddle + 0.35 * (inside - saddle)],
    [inner[0][0] - wall, saddle],
  ];
  const bowl = turned([...inner, ...outer], true);
  bodies.push({ part: 'housing', tone: 'cast', axis: 'carrier', rider: 'housing', pieces: [bowl] });
  return { bodies, ringSide, oppositeSide, bowl, bowlOuter: inside + wall, low, high, body, top };
}

/** Ridges of a thread, a plain face to the cup, lugs to turn it by outside; as many lugs as it has notches. */
function adjusterPieces(
  device: Extract<SideDevice, { kind: 'adjuster' }>,
  from: number,
  to: number,
  inner: number,
  outer: number,
  way: 1 | -1,
): readonly Piece[] {
  const length = Math.abs(to - from);
  const depth = Math.min(0.05 * outer, 0.6 * device.pitch);
  const ridges = Math.min(Math.max(Math.floor((0.66 * length) / device.pitch), 3), 9);
  const start = 0.08 * length;
  const step = (0.62 * length) / ridges;
  const thread: SectionPoint[] = [];
  for (let i = 0; i < ridges; i++) {
    const at = start + i * step;
    thread.push([from + way * at, outer - depth], [from + way * (at + step / 2), outer]);
  }
  thread.push([from + way * (start + ridges * step), outer - depth]);
  const lugInner = inner + 0.1 * (outer - inner);
  const lugOuter = outer - depth - 0.06 * (outer - inner);
  const bodyEnd = from + way * 0.78 * length;
  return [
    {
      kind: 'turned',
      cut: false,
      section: [
        [from, inner],
        [bodyEnd, inner],
        [bodyEnd, outer - depth],
        ...thread.reverse(),
        [from, outer - depth],
      ],
    },
    {
      kind: 'turned',
      cut: false,
      section: [
        [bodyEnd - way * 0.01, lugInner],
        [to, lugInner],
        [to, lugOuter],
        [bodyEnd - way * 0.01, lugOuter],
      ],
      arcs: { count: device.notchesPerTurn, share: ADJUSTER_LUGS },
    },
  ];
}
