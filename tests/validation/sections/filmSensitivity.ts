import { FLANKS } from '../../../sim/gearset/definition.ts';
import { SHIPPED_SETS } from '../../support/namedSets.ts';
import { solverOf, solveWith } from '../solve.ts';
import { blocks, fixed, table } from '../text.ts';

/** mm */
export const FILMS = [0.003, 0.005, 0.00635, 0.008, 0.01, 0.012, 0.015, 0.02] as const;

/** The mark of each axle in the design position against the film. */
export const filmSensitivitySection = (): string =>
  blocks([
    '## Film sensitivity',
    'The mark ends where the flanks part by more than the film of compound. How thick that film is depends on compound, brush and load, and it is the least certain number in the whole model: judge a mark by its centre and shape before its size. Design position; each axle carries the film of its own workshop in its model.',
    ...SHIPPED_SETS.map((set) =>
      blocks([
        `### ${set.label}, ${set.definition.cut.method}, own film ${fixed(set.film * 1000, 0)} µm`,
        table(
          [
            'Film, µm',
            ...FLANKS.flatMap((flank) => ['length', 'height', 'area', 'edges'].map((w) => `${flank} ${w}`)),
          ],
          FILMS.map((film) => {
            const solved = solveWith(solverOf(set), {}, film);
            return [
              fixed(film * 1000, film === 0.00635 ? 2 : 0),
              ...FLANKS.flatMap((flank) => {
                const { length, height, area, edges } = solved[flank];
                return [fixed(length, 3), fixed(height, 3), fixed(area, 3), edges.join(' ') || 'none'];
              }),
            ];
          }),
        ),
      ]),
    ),
    '![Length of the mark against the film, both flanks of the practice axles](images/validation/film-length.svg)',
  ]);
