import { type AXLE_IDS, AXLES } from '../../models/index.ts';
import type { AxleHardware, PinionShim, SideDevice, Spacer } from '../../sim/assembly/hardware.ts';
import type { GearSolids, SolidDetail } from '../../sim/gearset/solids.ts';
import { layOutHousing } from '../../src/stage/housing/layout.ts';
import type { Body, Piece, Place, Rider } from '../../src/stage/housing/parts.ts';
import { loadSet } from './meshSet.ts';

export type AxleId = (typeof AXLE_IDS)[number];

const solidsOf = new Map<string, GearSolids>();

export function axleSolids(id: AxleId, detail: SolidDetail = 'reduced'): GearSolids {
  const key = `${id} ${detail}`;
  const made = solidsOf.get(key) ?? loadSet(AXLES[id].gearset, detail).solids;
  solidsOf.set(key, made);
  return made;
}

/** Every combination of what an axle may have, on each practice gear set. */
export function everyHardware(id: AxleId): { label: string; hardware: AxleHardware }[] {
  const own = AXLES[id];
  const stock = { thinnest: 0.2, thickest: 2, step: 0.05, mostStacked: 3 };
  const out = [{ label: `${id} as it is`, hardware: own as AxleHardware }];
  const shims: PinionShim[] = (['head-bearing', 'behind-cup', 'cartridge'] as const).map((place) => ({
    place,
    design: 1.2,
    fitted: 1.25,
    stock,
  }));
  const devices: SideDevice[] = [
    { kind: 'outboard-shims', design: 3.1, fitted: 3.1, stock },
    { kind: 'inboard-shims', design: 1.4, fitted: 1.4, stock },
    { kind: 'adjuster', pitch: 1.5, notchesPerTurn: 24, design: 60, fitted: 60, mostNotches: 140 },
  ];
  const spacers: Spacer[] = [{ kind: 'crush-sleeve' }, { kind: 'solid-spacer', fitted: 0.9, stock }];
  shims.forEach((pinionShim, i) => {
    devices.forEach((ringSide, j) => {
      const oppositeSide = devices[(i + j) % devices.length];
      const spacer = spacers[(i + j) % 2];
      out.push({
        label: `${id} with ${pinionShim.place}, ${ringSide.kind}, ${oppositeSide.kind}, ${spacer.kind}`,
        hardware: { hand: own.hand, pinionShim, sides: { ringSide, oppositeSide }, spacer },
      });
    });
  });
  return out;
}

export const layoutOf = (id: AxleId, hardware: AxleHardware = AXLES[id]) =>
  layOutHousing(axleSolids(id), AXLES[id].gearset.offset, hardware);

export type Polygon = readonly (readonly [axial: number, radius: number])[];

/** A solid of revolution as it stands: its half-section, moved to its place. */
export interface Standing {
  readonly body: Body;
  readonly cut: boolean;
  readonly polygon: Polygon;
  /** least and greatest axial place, least and greatest radius */
  readonly box: readonly [number, number, number, number];
}

/** Whether a point is more than `depth` mm inside. */
export const liesIn = ({ polygon, box }: Standing, axial: number, radius: number, depth: number): boolean =>
  axial > box[0] + depth &&
  axial < box[1] - depth &&
  radius > box[2] + depth &&
  radius < box[3] - depth &&
  depthInside(polygon, axial, radius) > depth;

export function standing(bodies: readonly Body[], places: Readonly<Record<Rider, Place>>): Standing[] {
  return bodies.flatMap((body) => {
    const { shift, scale } = places[body.rider];
    const section = (piece: Piece): Polygon => {
      if (piece.kind === 'turned') return piece.section;
      if (piece.kind === 'pegs') {
        const { circle, size, from, to } = piece;
        return [
          [from, circle - size],
          [to, circle - size],
          [to, circle + size],
          [from, circle + size],
        ];
      }
      const { big, small } = piece;
      return [
        [big.at[0], big.at[1] - big.size],
        [small.at[0], small.at[1] - small.size],
        [small.at[0], small.at[1] + small.size],
        [big.at[0], big.at[1] + big.size],
      ];
    };
    return body.pieces.map((piece) => {
      const polygon = section(piece).map(([axial, radius]) => [shift + scale * axial, radius] as const);
      const axials = polygon.map(([axial]) => axial);
      const radii = polygon.map(([, radius]) => radius);
      return {
        body,
        cut: piece.kind !== 'rollers' && piece.cut,
        polygon,
        box: [Math.min(...axials), Math.max(...axials), Math.min(...radii), Math.max(...radii)] as const,
      };
    });
  });
}

/** Signed distance of a point from a polygon's border, positive inside. */
export function depthInside(polygon: Polygon, axial: number, radius: number): number {
  let inside = false;
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [ax, ay] = polygon[i];
    const [bx, by] = polygon[j];
    if (ay > radius !== by > radius && axial < ((bx - ax) * (radius - ay)) / (by - ay) + ax) inside = !inside;
    const length = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = length === 0 ? 0 : ((axial - ax) * (bx - ax) + (radius - ay) * (by - ay)) / length;
    const s = Math.min(Math.max(t, 0), 1);
    nearest = Math.min(nearest, Math.hypot(axial - ax - s * (bx - ax), radius - ay - s * (by - ay)));
  }
  return inside ? nearest : -nearest;
}

/** Points along a polygon's border, no farther than `step` apart. */
export function borderPoints(polygon: Polygon, step: number): (readonly [number, number])[] {
  return polygon.flatMap(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    const pieces = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / step));
    return Array.from({ length: pieces }, (_, k) => {
      const t = k / pieces;
      return [ax + t * (bx - ax), ay + t * (by - ay)] as const;
    });
  });
}
