import type { Partner } from '../gearset/pinionFlank.ts';
import { wrapAngle } from '../math/angles.ts';
import type { Neighbour } from './chart.ts';
import { CUBIC_TERMS, fitCubic } from './cubicFit.ts';

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
/** mm; a Newton step from so near ends well below what moves the gap by a nanometre, and need not be checked */
const CLOSE = 1e-4;

/**
 * Δψ of the pinion flank at a step from a node near a fold: `probe` holds dx and dq and receives Δψ, NaN when no
 * pinion surface passes there. `at` is the node's place in the fold table.
 */
export const lookUpFold = (data: Float64Array, at: number, probe: Float64Array): void => {
  const atQ = at + CUBIC_TERMS;
  let a = 0;
  let b = 0;
  for (let i = 0; i < STEPS; i++) {
    const aa = a * a;
    const ab = a * b;
    const bb = b * b;
    // The cubics and their slopes, written out: as calls they would put each number on the heap.
    const missX =
      probe[0] -
      a * (data[at] + a * data[at + 2] + aa * data[at + 5]) -
      b * (data[at + 1] + b * data[at + 4] + bb * data[at + 8]) -
      ab * (data[at + 3] + a * data[at + 6] + b * data[at + 7]);
    const missQ =
      probe[1] -
      a * (data[atQ] + a * data[atQ + 2] + aa * data[atQ + 5]) -
      b * (data[atQ + 1] + b * data[atQ + 4] + bb * data[atQ + 8]) -
      ab * (data[atQ + 3] + a * data[atQ + 6] + b * data[atQ + 7]);
    const xa =
      data[at] +
      2 * a * data[at + 2] +
      b * data[at + 3] +
      3 * aa * data[at + 5] +
      2 * ab * data[at + 6] +
      bb * data[at + 7];
    const xb =
      data[at + 1] +
      a * data[at + 3] +
      2 * b * data[at + 4] +
      aa * data[at + 6] +
      2 * ab * data[at + 7] +
      3 * bb * data[at + 8];
    const qa =
      data[atQ] +
      2 * a * data[atQ + 2] +
      b * data[atQ + 3] +
      3 * aa * data[atQ + 5] +
      2 * ab * data[atQ + 6] +
      bb * data[atQ + 7];
    const qb =
      data[atQ + 1] +
      a * data[atQ + 3] +
      2 * b * data[atQ + 4] +
      aa * data[atQ + 6] +
      2 * ab * data[atQ + 7] +
      3 * bb * data[atQ + 8];
    const determinant = xa * qb - xb * qa;
    a += (missX * qb - missQ * xb) / determinant;
    b += (missQ * xa - missX * qa) / determinant;
    if (Math.abs(missX) + Math.abs(missQ) < CLOSE) {
      const atPsi = at + 2 * CUBIC_TERMS;
      probe[2] =
        a * (data[atPsi] + a * data[atPsi + 2] + a * a * data[atPsi + 5]) +
        b * (data[atPsi + 1] + b * data[atPsi + 4] + b * b * data[atPsi + 8]) +
        a * b * (data[atPsi + 3] + a * data[atPsi + 6] + b * data[atPsi + 7]);
      return;
    }
    if (!(Math.abs(a) < 1 && Math.abs(b) < 2)) break;
  }
  probe[2] = Number.NaN;
};
