import { describe, expect, it } from 'vitest';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { compareWithOracle, drawPose, type Misses } from '../support/oracleAgreement.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import { referenceSet } from '../support/referenceSets.ts';

const SETS: ReadonlyArray<readonly [string, GearSetDefinition]> = [
  ['set a, face-milled', referenceSet('a')],
  ['set b, face-hobbed', referenceSet('b')],
  ['a random face-milled set', drawMakeableMesh(seededRandom(72), 'face-milled').definition],
  ['a random face-hobbed set', drawMakeableMesh(seededRandom(73), 'face-hobbed').definition],
];
const POSES = 8;

/** A sample of the table that `npm run validate` prints in full. */
describe.each(SETS)('against the brute-force contact search: %s (seed 1207)', (_, definition) => {
  const random = seededRandom(1207);
  const poses = Array.from({ length: POSES }, () => drawPose(random));
  let found: Misses;
  it('separation agrees within 1 µm', () => {
    found = compareWithOracle(definition, poses, random, { points: { u: 121, v: 49 }, nodes: 8 });
    expect(found.separation.length).toBeGreaterThan(POSES * 8);
    expect(Math.max(...found.separation)).toBeLessThan(1);
  });

  it('rocking the ring at the same pinion angles gives the same play within 1 µm', () => {
    expect(found.backlash.length).toBeGreaterThan(POSES * 8);
    expect(Math.max(...found.backlash)).toBeLessThan(1);
  });
});
