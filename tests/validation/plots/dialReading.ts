import type { Pose } from '../../../sim/contact/pose.ts';
import { SHIPPED_SETS } from '../../support/namedSets.ts';
import { solverOf, solveWith } from '../solve.ts';
import { type Chart, type Panel, span } from './chart.ts';

const panel = (field: 'ringAway' | 'pinionIn', title: string, axisTitle: string): Panel => ({
  title,
  x: { title: axisTitle, domain: [-0.3, 0.3], ticks: 7, digits: 1 },
  y: { title: 'square dial reading, mm', domain: [-0.15, 0.45], ticks: 7, digits: 1 },
  level: { y: 0, text: 'binding below' },
  series: SHIPPED_SETS.map((set, style) => ({
    label: set.label,
    style,
    points: span(-0.3, 0.3, 25).map((amount) => {
      const pose: Partial<Pose> = { [field]: amount };
      return [amount, solveWith(solverOf(set), pose, set.film).backlash.normal ?? Number.NaN];
    }),
  })),
});

/** Backlash against either move. */
export const dialReadingChart = (): Chart => ({
  title: 'Dial reading against the move of ring and pinion',
  description:
    'Least backlash over a pitch, square to the drive flank at the heel, of the five practice axles, as the ring moves away from the pinion and as the pinion moves in.',
  panels: [
    panel('ringAway', 'Ring moved', 'ring in −  …  ring away +, mm'),
    panel('pinionIn', 'Pinion moved', 'pinion out −  …  pinion in +, mm'),
  ],
});
