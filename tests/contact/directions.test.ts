import { describe, expect, it } from 'vitest';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { agrees, DIRECTION_TABLE, findDirections, MOVES, type MoveName } from '../support/directions.ts';
import { NAMED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';

describe.each(NAMED_SETS)('directions of $label', ({ definition }) => {
  const directions = findDirections(buildGearMesh(definition));
  const table = DIRECTION_TABLE[definition.cut.method];

  for (const name of Object.keys(MOVES) as MoveName[]) {
    it.each(FLANKS)(`${name}: the %s patch goes where docs/model.md §8 says`, (flank) => {
      const move = directions.moves[name][flank];
      expect(agrees(move, table[name][flank]), JSON.stringify(move)).toBe(true);
    });
  }

  it('reads on the dial what §8 says', () => {
    expect(directions.dialPerRingAway).toBeGreaterThan(0.58);
    expect(directions.dialPerRingAway).toBeLessThan(0.9);
    expect(directions.dialPerPinionOut).toBeGreaterThan(0.2);
    expect(directions.dialPerPinionOut).toBeLessThan(0.45);
  });
});

describe.each(['face-milled', 'face-hobbed'] as const)(
  'directions over random %s sets (seed 640)',
  (method) => {
    it('depth goes to the face with the pinion out and opens the dial, without a rule that says so', () => {
      const random = seededRandom(640);
      for (let i = 0; i < 8; i++) {
        const directions = findDirections(drawMakeableMesh(random, method));
        expect(directions.moves['pinion out'].drive.rootFace).toBeGreaterThan(0);
        expect(directions.moves['pinion out'].coast.rootFace).toBeGreaterThan(0);
        expect(directions.moves['ring in'].drive.toeHeel).toBeLessThan(0);
        expect(directions.dialPerRingAway).toBeGreaterThan(0.5);
        expect(directions.dialPerPinionOut).toBeGreaterThan(0.15);
      }
    });
  },
);
