import { describe, expect, it } from 'vitest';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { referenceSet, workedNumbers } from '../support/referenceSets.ts';
import { type Compared, compareGeometry, comparePoses, deviation } from '../support/workedComparison.ts';

const expectWithin = (label: string, compared: readonly Compared[]): void => {
  for (const item of compared) {
    expect(deviation(item), `${label} ${item.field}`).toBeLessThan(item.tolerance);
  }
};

describe.each(['a', 'b'] as const)('worked numbers of set %s', (name) => {
  const mesh = buildGearMesh(referenceSet(name));
  const worked = workedNumbers(name);

  it('has the geometry', () => {
    const compared = compareGeometry(mesh, worked);
    expect(compared.length).toBe(18);
    expectWithin('geometry', compared);
  });

  const poses = comparePoses(mesh, worked);
  it('has nine poses', () => {
    expect(poses.length).toBe(9);
  });
  it.each(poses.map((entry) => [JSON.stringify(entry.pose), entry] as const))('pose %s', (_, entry) => {
    for (const flank of FLANKS) {
      expectWithin(flank, entry.flanks[flank]);
      expect(entry.edges[flank].computed, `${flank}.edges`).toBe(entry.edges[flank].worked);
    }
    expectWithin('backlash', entry.backlash);
  });
});
