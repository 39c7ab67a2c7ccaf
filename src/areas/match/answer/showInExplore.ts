import { fittedAtDesign, pinionShimSign, sidesForRingAway } from '../../../../sim/worker/assembly.ts';
import type { MatchAnswer } from '../../../../sim/worker/diagnoseProtocol.ts';
import { axleOf } from '../../../state/axles.ts';
import type { Look } from '../../../state/look.ts';
import { stepOf } from '../../../state/moves.ts';
import { useSetup } from '../../../state/setup.ts';

/**
 * Puts Explore into the nearest simulated state, as it is now or after the advised change. The state is written as shims
 * of an axle that is exactly as drawn: what an axle's own bearings and bores add is in the thickness.
 */
export function showInExplore(look: Look, answer: MatchAnswer, state: 'now' | 'then'): void {
  const { axle } = axleOf(look.axleId);
  const { pose, film } = (state === 'then' ? answer.next : null) ?? answer.nearest;
  const tidy = (value: number) => Number(value.toFixed(4));
  const pinionShim = tidy(axle.pinionShim.design + pinionShimSign(axle.pinionShim.place) * pose.pinionIn);
  // less than the finest step is no error of the housing that anyone could set, or see
  const housing = (quantity: 'offsetError' | 'shaftAngleError') =>
    Math.abs(pose[quantity]) < stepOf(quantity, true) ? 0 : tidy(pose[quantity]);
  useSetup.getState().apply({
    axleId: look.axleId,
    fitment: { ...fittedAtDesign(axle), pinionShim, ...sidesForRingAway(axle.sides, tidy(pose.ringAway), 0) },
    offsetError: housing('offsetError'),
    shaftAngleError: housing('shaftAngleError'),
    film,
  });
}
