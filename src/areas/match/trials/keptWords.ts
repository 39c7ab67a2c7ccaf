import type { Problem } from '../../../../models/problem.ts';
import type { Kept } from '../../../state/trials.ts';
import type { Translate } from '../../../text/translate.ts';

/** What became of a look that was to be kept. */
export function keptWords(outcome: Kept, axle: string, t: Translate): string {
  if (outcome.kind === 'full') {
    return t('match.trial.said.full', { count: outcome.count, most: outcome.most });
  }
  if (outcome.kind === 'refused') return refusedWords(outcome.problem, t);
  const { number } = outcome.trial;
  const words =
    outcome.kind === 'new'
      ? t('match.trial.said.new', { number, axle })
      : t(outcome.noteChanged ? 'match.trial.said.note' : 'match.trial.said.already', { number, axle });
  return outcome.durable ? words : `${words} ${t('match.trial.said.fleeting')}`;
}

export const refusedWords = ({ field, value, allowed }: Problem, t: Translate): string =>
  t('match.trial.said.refused', { field, value, allowed });
