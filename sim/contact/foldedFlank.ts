import type { Partner } from '../gearset/pinionFlank.ts';
import { wrapAngle } from '../math/angles.ts';
import type { Neighbour } from './chart.ts';
import { CUBIC_TERMS, cubicAt, cubicSlopeP, cubicSlopeQ, fitCubic } from './cubicFit.ts';

/**
 * Near a fold of the pinion flank (close to undercut) ψ(x, ρ) bends too sharply for a cubic, while x, q and ψ stay
 * smooth in (u, v). Such nodes keep three cubics in (Δu, Δv) and are looked up by Newton (docs/model.md §6).
 */
export const FOLD_STRIDE = 3 * CUBIC_TERMS;

/** Fits the three cubics of one node into `out`; false when they are not determined. */
export const fitFold = (center: Partner, near: readonly Neighbour[], out: Float64Array): boolean => {
  const cubicOf = (read: (partner: Partner) => number, at: number): boolean =>
    fitCubic(
      near.map(({ partner, du, dv }) => ({ p: du, q: dv, value: read(partner) })),
      out,
      at,
    );
  return (
    cubicOf((partner) => partner.axial - center.axial, 0) &&
    cubicOf((partner) => (partner.radius ** 2 - center.radius ** 2) / (2 * center.radius), CUBIC_TERMS) &&
    cubicOf((partner) => wrapAngle(partner.flankPolar - center.flankPolar), 2 * CUBIC_TERMS)
  );
};

const STEPS = 12;
/** mm; well below what moves the gap by a nanometre */
const CLOSE = 1e-7;

/**
 * Δψ of the pinion flank at (dx, dq) from a node near a fold; NaN when no pinion surface passes there.
 * `at` is the node's place in the fold table.
 */
export const lookUpFold = (data: Float64Array, at: number, dx: number, dq: number): number => {
  let a = 0;
  let b = 0;
  for (let i = 0; i < STEPS; i++) {
    const missX = dx - cubicAt(data, at, a, b);
    const missQ = dq - cubicAt(data, at + CUBIC_TERMS, a, b);
    if (Math.abs(missX) + Math.abs(missQ) < CLOSE) return cubicAt(data, at + 2 * CUBIC_TERMS, a, b);
    const xa = cubicSlopeP(data, at, a, b);
    const xb = cubicSlopeQ(data, at, a, b);
    const qa = cubicSlopeP(data, at + CUBIC_TERMS, a, b);
    const qb = cubicSlopeQ(data, at + CUBIC_TERMS, a, b);
    const determinant = xa * qb - xb * qa;
    a += (missX * qb - missQ * xb) / determinant;
    b += (missQ * xa - missX * qa) / determinant;
    if (!(Math.abs(a) < 1 && Math.abs(b) < 2)) return Number.NaN;
  }
  return Number.NaN;
};
