import { AXLE_IDS, AXLES, type AxleId } from '../../../models/index.ts';
import { CHANGES, type LoopResult, PAINTINGS, runLoop } from '../../support/closedLoop.ts';
import { workbench } from '../../support/diagnoseStudy.ts';
import { seededRandom } from '../../support/random.ts';
import { blocks, fixed, table } from '../text.ts';

export const LOOP_AXLES = 200;
const SEED = 4300;

export const runLoops = (id: AxleId, count: number, seed: number): readonly LoopResult[] => {
  const random = seededRandom(seed);
  const bench = workbench(id);
  return Array.from({ length: count }, () => runLoop(bench, random));
};

const share = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${fixed((100 * part) / whole, 0)} %`;

/** One row of the table. */
export const loopRow = (id: AxleId, all: readonly LoopResult[]): readonly string[] => {
  const reachable = all.filter((one) => one.reachable);
  const toSpare = all.filter((one) => one.toSpare);
  const done = (some: readonly LoopResult[]) => some.filter((one) => one.done).length;
  const changes = all.reduce((sum, one) => sum + one.changes, 0);
  const worse = all.reduce((sum, one) => sum + one.worse, 0);
  return [
    AXLES[id].name,
    share(done(all), all.length),
    String(reachable.length),
    share(done(reachable), reachable.length),
    String(toSpare.length),
    share(done(toSpare), toSpare.length),
    share(all.filter((one) => one.turns).length, all.length),
    fixed(changes / all.length, 2),
    fixed(all.reduce((sum, one) => sum + one.further, 0) / all.length, 2),
    `${fixed((100 * worse) / Math.max(1, changes), 1)} %`,
    String(all.filter((one) => one.refused).length),
  ];
};

/** The row of an axle, worked out here and now. */
export const loopRowOf = (id: AxleId): readonly string[] =>
  loopRow(id, runLoops(id, LOOP_AXLES, SEED + AXLE_IDS.indexOf(id)));

/** The advice followed to the letter on virtual axles unlike their model. */
export const diagnoseClosedLoopSection = (rows: ReadonlyArray<readonly string[]>): string =>
  blocks([
    '## Following the advice',
    `${LOOP_AXLES} seeded virtual axles per model. Each set differs from its model: ease-off centres by up to ±0.15, lengthwise crowning ±25 %, the dial ±0.03 mm; pinion and ring stand off by 0.15 and 0.12 mm (standard deviations), the housing by 0.02 mm and 0.02°. The ring runs out by ±0.01 mm at the dial; every painting and every dial reading has a noise of 0.05 and 0.01 mm, the coat of compound varies by 10 %, and each look is the mean of ${PAINTINGS} paintings, with the borders the marks reach told. The advice for an unknown set is followed to the letter with stock shims, at most ${CHANGES} changes, each followed by a new look; where it asks for another look at the same shims first, that is taken (three times at most, then it no longer asks). 'Done': it turns freely, backlash is inside its limits at all four places, neither mark reaches a border, the drive mark is within ±0.2 of its target and the coast mark within ±0.3, judged by the real solver with the usual coat. Reachable: some shims of the stock would give all of that. To spare: so would one pinion step more and one less; without it the target is a single lucky shim. Worse: the stated score of [model.md §13](model.md#13-advice) rose.`,
    table(
      [
        'Axle',
        'done',
        'reachable',
        'done of reachable',
        'to spare',
        'done of those to spare',
        'backlash right',
        'changes per axle',
        'further looks',
        'changes for the worse',
        'refused',
      ],
      rows,
    ),
  ]);
