import type { AxleDefinition } from '../../models/axle.ts';
import { fineness, pinionShimSign } from '../../sim/worker/assembly.ts';
import type { PoseStep } from '../../sim/worker/longProtocol.ts';
import { stepOf } from './moves.ts';
import type { Setup } from './setup.ts';

/** What can be adjusted, in the order the controls stand in. */
const ADJUSTMENTS = ['pinion', 'ring', 'offset', 'angle'] as const;
export type AdjustmentName = (typeof ADJUSTMENTS)[number];

/** One press of + (or → for the ring): what it does to the hardware and to the pose. */
export interface Adjustment {
  readonly name: AdjustmentName;
  /** mm of pinion shim, of ring travel toward the pinion, of offset; degrees of shaft angle */
  readonly amount: number;
  readonly step: PoseStep;
}

/** `fineStep` mm, or null where the stock decides. A housing error counts once it is set. */
export function adjustmentsOf(
  axle: AxleDefinition,
  { offsetError, shaftAngleError }: Pick<Setup, 'offsetError' | 'shaftAngleError'>,
  fineStep: number | null,
): readonly Adjustment[] {
  const { pinionShim, sides } = axle;
  const thicker = fineStep ?? pinionShim.stock.step;
  const inward = fineStep ?? Math.max(fineness(sides.ringSide), fineness(sides.oppositeSide));
  const fine = fineStep !== null;
  const found: Adjustment[] = [
    {
      name: 'pinion',
      amount: thicker,
      step: { pinionIn: pinionShimSign(pinionShim.place) * thicker },
    },
    { name: 'ring', amount: inward, step: { ringAway: -inward } },
  ];
  if (offsetError !== 0) {
    const amount = stepOf('offsetError', fine);
    found.push({ name: 'offset', amount, step: { offsetError: amount } });
  }
  if (shaftAngleError !== 0) {
    const amount = stepOf('shaftAngleError', fine);
    found.push({ name: 'angle', amount, step: { shaftAngleError: amount } });
  }
  return found;
}
