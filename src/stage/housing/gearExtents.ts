import type { GearSolids, TriangleMesh } from '../../../sim/gearset/solids.ts';

/** What a housing must know of the gears it holds, read off their drawn shapes. mm, design position. */
export interface GearExtents {
  /** a, magnitude of the pinion offset */
  readonly offset: number;
  readonly ring: {
    /** greatest radius, teeth included */
    readonly outer: number;
    readonly bore: number;
    /** places along the ring's axis: back face, and the end of the plain bore at the toe */
    readonly back: number;
    readonly toe: number;
    /** highest point of the teeth, and of the outer edge */
    readonly top: number;
    readonly rim: number;
  };
  readonly pinion: {
    /** greatest radius of the teeth, and where they begin with what radius */
    readonly tip: number;
    readonly toe: number;
    readonly toeTip: number;
    /** back face of the head, along the pinion's axis */
    readonly shoulder: number;
    /** radius of the seat behind it, and where the seat ends */
    readonly seat: number;
    readonly seatEnd: number;
    /** radius of the shaft as the solids have it, and where it ends */
    readonly shaft: number;
    readonly end: number;
    /** least distance of any point of the teeth from the ring's axis */
    readonly nearestToRingAxis: number;
  };
}

const CLOSE = 1e-3;

interface Reach {
  readonly radius: number;
  readonly axial: number;
}

function reaches({ positions }: TriangleMesh, axis: 0 | 2): Reach[] {
  const [p, q] = axis === 2 ? [0, 1] : [1, 2];
  const out: Reach[] = [];
  for (let i = 0; i < positions.length; i += 3) {
    out.push({ radius: Math.hypot(positions[i + p], positions[i + q]), axial: positions[i + axis] });
  }
  return out;
}

const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b));

/** Reads a gear set's solids once; `offset` mm as defined, its sign does not matter. */
export function readExtents(solids: GearSolids, offset: number): GearExtents {
  const distance = Math.abs(offset);
  const ringTeeth = reaches(solids.ring.sector, 2);
  const ringBody = reaches(solids.ring.body, 2);
  const pinionTeeth = reaches(solids.pinion.sector, 0);
  const pinionBody = reaches(solids.pinion.body, 0);

  // behind the heel the body is turned in steps: shoulder, seat, its chamfer, shaft, its chamfer
  const heel = pinionBody.reduce((a, b) => (b.radius > a.radius + CLOSE ? b : a));
  const steps: number[] = [];
  for (const { axial } of pinionBody) {
    if (axial > heel.axial + CLOSE && !steps.some((step) => Math.abs(step - axial) < CLOSE))
      steps.push(axial);
  }
  steps.sort((a, b) => a - b);
  const [shoulder, seatEnd, , shaftEnd, end] = steps;
  if (steps.length !== 5) throw new Error(`pinion solid: ${steps.length} steps behind the heel, 5 expected`);
  const radiusAt = (axial: number): number =>
    most(pinionBody.filter((point) => Math.abs(point.axial - axial) < CLOSE).map((point) => point.radius));

  const outer = most([...ringTeeth, ...ringBody].map((point) => point.radius));
  const toe = least(pinionTeeth.map((point) => point.axial));
  const length = heel.axial - toe;

  return {
    offset: distance,
    ring: {
      outer,
      bore: least(ringBody.map((point) => point.radius)),
      back: least(ringBody.map((point) => point.axial)),
      toe: most(ringBody.map((point) => point.axial)),
      top: most(ringTeeth.map((point) => point.axial)),
      rim: most(ringTeeth.filter(({ radius }) => radius > outer - 1).map((point) => point.axial)),
    },
    pinion: {
      tip: most(pinionTeeth.map((point) => point.radius)),
      toe,
      toeTip: most(
        pinionTeeth.filter(({ axial }) => axial < toe + 0.08 * length).map((point) => point.radius),
      ),
      shoulder,
      seat: radiusAt(seatEnd),
      seatEnd,
      shaft: radiusAt(shaftEnd),
      end,
      // whatever way it is turned, the nearest point of a circle about the pinion's axis
      nearestToRingAxis: least(
        pinionTeeth.map(({ radius, axial }) => Math.hypot(axial, Math.max(0, distance - radius))),
      ),
    },
  };
}
