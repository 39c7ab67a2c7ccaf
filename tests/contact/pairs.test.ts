import { describe, expect, it } from 'vitest';
import { PHASES_PER_PITCH } from '../../sim/contact/grid.ts';
import { carryingPair, followPair, pairNumbers, pairSeparation } from '../../sim/contact/pairs.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import { NAMED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

const SEED = 20261125;
/** mm: the lowest point of a contact line lies between the places where the grid cuts it */
const GRID_ERROR = 0.001;

describe.each(NAMED_SETS)(`the pairs in contact of $label (seed ${SEED})`, ({ definition, film }) => {
  const core = new MeshCore();
  core.load('set', definition);
  const random = seededRandom(SEED);
  const poses = Array.from({ length: 6 }, () => ({
    pinionIn: random.between(-0.25, 0.25),
    ringAway: random.between(-0.1, 0.25),
    offsetError: random.between(-0.1, 0.1),
    shaftAngleError: random.between(-0.05, 0.05),
  }));
  const phases = Array.from({ length: PHASES_PER_PITCH }, (_, k) => k);

  it.each(poses)(
    'span the contact ratio, and one of them carries wherever there is contact: $pinionIn',
    (pose) => {
      const solved = core.solve('set', pose, film);
      if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
      for (const flank of FLANKS) {
        const report = solved.value[flank];
        const passage = followPair(report, solved.value.grid, definition.ringTeeth);
        expect(passage.end - passage.start).toBeCloseTo(report.contactRatio, 4);

        const met = phases.filter((k) => carryingPair(passage, k) !== null);
        expect(1 - met.length / PHASES_PER_PITCH).toBeCloseTo(report.gapShare, 9);
        const carried = new Set<number>();
        for (const k of met) {
          const pair = carryingPair(passage, k) ?? Number.NaN;
          carried.add(pair);
          expect(Math.abs(pairSeparation(passage, pair, k))).toBeLessThan(GRID_ERROR);
          // what the solver tabulates there is a contact of this pair
          expect(report.transmissionErrorCurve[k]).not.toBeNaN();
          for (const other of pairNumbers(passage)) {
            expect(pairSeparation(passage, other, k)).toBeGreaterThanOrEqual(
              pairSeparation(passage, pair, k),
            );
          }
        }
        // pairs follow each other: over a whole pitch the load passes on
        expect(carried.size).toBeGreaterThan(1);
      }
    },
  );
});

it('a flank that meets nowhere has no pair', () => {
  const never = {
    phase: [1e6, 1e6, 1e6, 1e6],
    separation: [1e6, 1e6, 1e6, 1e6],
    tipClearance: [-1e6, -1e6, -1e6, -1e6],
  };
  const passage = followPair(never, { columns: 2, rows: 2 }, 41);
  expect(pairNumbers(passage)).toEqual([]);
  expect(carryingPair(passage, 0)).toBeNull();
});
