import type { SideExplanation, SidesExplanation } from '../../../../sim/assembly/explain.ts';
import type { AdviceAnswer, Cost, ShimChange } from '../../../../sim/worker/diagnoseProtocol.ts';
import type { Lengths } from '../../../app/ui/useLengths.ts';
import type { Translate } from '../../../text/translate.ts';

/** "a, b and c" */
export function listWords(parts: readonly string[], t: Translate): string {
  return parts.reduce((first, second, k) =>
    t(k === parts.length - 1 ? 'match.answer.list.pair' : 'match.answer.list.comma', { first, second }),
  );
}

/** "0.05 mm thicker under the head bearing: pinion moves in." Null when the pinion shim stays. */
export function pinionWords({ pinionShim }: ShimChange, lengths: Lengths, t: Translate): string | null {
  const { change, amount, place, pinionMoves } = pinionShim;
  if (change === 'same') return null;
  return t('match.answer.pinion', {
    amount: lengths.move(amount),
    change,
    place: t(`match.answer.place.${place}`),
    way: pinionMoves,
  });
}

/** Null when both sides stay. */
export function sidesWords({ sides }: ShimChange, lengths: Lengths, t: Translate): string | null {
  const { ringSide, oppositeSide, ringMoves, ringTravel } = sides;
  if (ringSide.change === 'same' && oppositeSide.change === 'same') return null;
  if (isTransfer(sides)) {
    return t('match.answer.sides.transfer', {
      amount: lengths.move(ringSide.amount),
      from: ringSide.change === 'thinner' ? 'ringSide' : 'oppositeSide',
      way: ringMoves,
    });
  }
  return t('match.answer.sides.each', {
    ring: sideWords(ringSide, lengths, t),
    opposite: sideWords(oppositeSide, lengths, t),
    way: ringMoves,
    travel: lengths.move(ringTravel),
  });
}

/** Shims both sides, and what one gives the other gets. */
function isTransfer({ ringSide, oppositeSide }: SidesExplanation): boolean {
  return (
    ringSide.kind !== 'adjuster' &&
    oppositeSide.kind !== 'adjuster' &&
    ringSide.change !== oppositeSide.change &&
    Math.abs(ringSide.amount - oppositeSide.amount) < 1e-6
  );
}

function sideWords({ kind, change, amount }: SideExplanation, lengths: Lengths, t: Translate): string {
  if (change === 'same') return t('match.answer.side.same');
  if (kind === 'adjuster') return t('match.answer.side.adjuster', { count: amount, change });
  return t('match.answer.side.shim', { amount: lengths.move(amount), change });
}

/** "Costs a pinion pull and a new crush sleeve." */
export function costWords(costs: readonly Cost[], t: Translate): string | null {
  if (costs.length === 0) return null;
  return t('match.answer.costs', {
    costs: listWords(
      costs.map((cost) => t(`match.answer.cost.${cost}`)),
      t,
    ),
  });
}

/** The first line of an answer: the first shim to change, or why there is none. */
export function headline(advice: AdviceAnswer, lengths: Lengths, t: Translate): string {
  if (advice.kind === 'refused') return t('match.answer.refused');
  if (advice.housingFirst) return t('match.answer.housing');
  const { change } = advice;
  return (
    (change && (pinionWords(change, lengths, t) ?? sidesWords(change, lengths, t))) ?? t('match.answer.leave')
  );
}
