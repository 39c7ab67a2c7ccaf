import type { AxleDefinition } from '../../../models/axle.ts';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import { sayNotches } from '../../app/ui/notches.ts';
import { digitsFor, digitsToShow, type Lengths } from '../../app/ui/useLengths.ts';
import type { Translate } from '../../text/translate.ts';

/** What is fitted, in one line. */
export function shimsWords(
  fitment: Fitment,
  { pinionShim, sides }: AxleDefinition,
  lengths: Lengths,
  t: Translate,
): string {
  const say = (mm: number, step: number) => lengths.say(mm, digitsToShow(digitsFor(step), mm));
  const side = (name: 'ringSide' | 'oppositeSide'): string => {
    const device = sides[name];
    return device.kind === 'adjuster' ? sayNotches(fitment[name], t) : say(fitment[name], device.stock.step);
  };
  return t('match.answer.map.shims', {
    pinion: say(fitment.pinionShim, pinionShim.stock.step),
    ring: side('ringSide'),
    opposite: side('oppositeSide'),
  });
}
