import { FLANKS } from '../../../sim/gearset/definition.ts';
import { SHIPPED_SETS } from '../../support/namedSets.ts';
import { solverOf, solveWith } from '../solve.ts';
import { type Chart, span } from './chart.ts';

/** Length of the mark against the film. */
export const filmLengthChart = (): Chart => ({
  title: 'Length of the mark against the film of compound (dot: the axle’s own film)',
  description:
    'Length of the mark as a share of the face width against the thickness of marking compound, design position, five practice axles, drive and coast flank.',
  panels: FLANKS.map((flank) => ({
    title: `${flank} flank`,
    x: { title: 'film, µm', domain: [2, 20], ticks: 8, digits: 0 },
    y: { title: 'length, share of the face width', domain: [0.4, 0.85], ticks: 6, digits: 1 },
    series: SHIPPED_SETS.map((set, style) => {
      const length = (film: number) => solveWith(solverOf(set), {}, film)[flank].length;
      return {
        label: set.label,
        style,
        points: span(0.003, 0.02, 35).map((film) => [film * 1000, length(film)] as const),
        dots: [{ at: [set.film * 1000, length(set.film)] as const }],
      };
    }),
  })),
});
