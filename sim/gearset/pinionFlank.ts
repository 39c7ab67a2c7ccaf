import { wrapAngle } from '../math/angles.ts';
import { type ConjugateContact, conjugateContact, designAxis, type PinionAxis } from './conjugate.ts';
import type { EaseOffDefinition } from './definition.ts';
import { easeOffAt } from './easeOff.ts';
import type { RingFlank } from './ringFlank.ts';

/** Design partner of a ring point together with the ease-off there (docs/model.md §6). mm, rad. */
export interface Partner extends ConjugateContact {
  /** e, mm */
  readonly easeOff: number;
  /** polar angle of the pinion flank itself: conjugate ψ plus e/λ */
  readonly flankPolar: number;
}

/** Outcome of looking up the exact pinion flank at (x, ρ). */
export interface PinionLookUp {
  readonly converged: boolean;
  readonly u: number;
  readonly v: number;
  /** rad */
  readonly polar: number;
}

/**
 * The pinion flank as the ring's conjugate in the design pose less the ease-off, on the chart of ring
 * flank coordinates (docs/model.md §6).
 */
export class PinionFlank {
  readonly ring: RingFlank;
  readonly ratio: number;
  private readonly axis: PinionAxis;
  private readonly easeOff: EaseOffDefinition;

  constructor(ring: RingFlank, ratio: number, offset: number, easeOff: EaseOffDefinition) {
    this.ring = ring;
    this.ratio = ratio;
    this.axis = designAxis(offset);
    this.easeOff = easeOff;
  }

  /** Design partner of ring point (u, v); null when that point never meets. */
  partner(u: number, v: number): Partner | null {
    const ringPoint = this.ring.tryAt(u, v);
    const contact = ringPoint && conjugateContact(ringPoint, this.ratio, this.axis);
    if (!contact) return null;
    const easeOff = easeOffAt(this.easeOff, u, v);
    return { ...contact, easeOff, flankPolar: contact.polar + easeOff / contact.lever };
  }

  /** ∂(x, ρ)/∂(u, v) by central differences, mm² per unit square; null next to points that never meet. */
  jacobian(u: number, v: number): number | null {
    const h = 1e-4;
    const east = this.partner(u + h, v);
    const west = this.partner(u - h, v);
    const north = this.partner(u, v + h);
    const south = this.partner(u, v - h);
    if (!east || !west || !north || !south) return null;
    return (
      ((east.axial - west.axial) * (north.radius - south.radius) -
        (north.axial - south.axial) * (east.radius - west.radius)) /
      (4 * h * h)
    );
  }

  /**
   * Exact pinion flank ψ(x, ρ) by Newton on (u, v) from a starting guess; mm in, rad out.
   * The slow, interpolation-free way: for building, drawing and checking, not for solving.
   */
  lookUp(axial: number, radius: number, startU = 0, startV = 0): PinionLookUp {
    let u = startU;
    let v = startV;
    const h = 1e-5;
    for (let i = 0; i < 30; i++) {
      const here = this.partner(u, v);
      const east = this.partner(u + h, v);
      const north = this.partner(u, v + h);
      if (!here || !east || !north) break;
      const missX = axial - here.axial;
      const missR = radius - here.radius;
      if (Math.abs(missX) + Math.abs(missR) < 1e-9) {
        return { converged: true, u, v, polar: here.flankPolar };
      }
      const xu = (east.axial - here.axial) / h;
      const ru = (east.radius - here.radius) / h;
      const xv = (north.axial - here.axial) / h;
      const rv = (north.radius - here.radius) / h;
      const determinant = xu * rv - xv * ru;
      const stepU = (missX * rv - missR * xv) / determinant;
      const stepV = (missR * xu - missX * ru) / determinant;
      const limit = Math.max(1, Math.abs(stepU) / 0.5, Math.abs(stepV) / 0.5);
      u += stepU / limit;
      v += stepV / limit;
      if (!(Math.abs(u) < 2.5 && Math.abs(v) < 2.5)) break;
    }
    return { converged: false, u, v, polar: Number.NaN };
  }
}

/** Angle of the pinion tooth between its drive and coast flanks, rad, positive for a real tooth. */
export const toothAngle = (
  drive: Partner | PinionLookUp,
  coast: PinionLookUp | Partner,
  driveLever: number,
): number => {
  const polarOf = (x: Partner | PinionLookUp) => ('flankPolar' in x ? x.flankPolar : x.polar);
  return -Math.sign(driveLever) * wrapAngle(polarOf(drive) - polarOf(coast));
};
