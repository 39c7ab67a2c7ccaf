import { describe, expect, it } from 'vitest';
import { nodeAt } from '../../models/field.ts';
import { GEAR_SET_FIELDS } from '../../models/gearSetFields.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { UnmakeableError } from '../../sim/gearset/errors.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { findNearestMakeable, type MendableField, withNumberAt } from '../../sim/gearset/nearestMakeable.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

const [{ definition }] = SHIPPED_SETS;

const refusalOf = (of: GearSetDefinition): UnmakeableError | null => {
  try {
    buildGearMesh(of);
    return null;
  } catch (error) {
    if (error instanceof UnmakeableError) return error;
    throw error;
  }
};

const fieldAt = (path: string, of: GearSetDefinition): MendableField => {
  const node = nodeAt(GEAR_SET_FIELDS, path.split('.'), of);
  if (node?.kind !== 'number') throw new Error(`${path} is no number`);
  const { min, max, step, integer } = node;
  return { path, min, max, step, integer };
};

describe('the nearest makeable value', () => {
  it.each([
    ['point-width', 'tooth.slotFactor', 0.4],
    ['top-land-pinion', 'tooth.depthFactor', 2.2],
    ['blade-angle', 'tooth.pressureAngle', 34.5],
    ['no-pitch-angle-for-cutter', 'cut.cutterRadius', 20],
    ['ease-off-not-a-hill', 'easeOff.drive.bias', 60],
    ['ease-off-not-a-hill', 'easeOff.coast.profile', 0],
    ['bad-value', 'tooth.slotFactor', 4],
  ])('%s: %s %d is brought back to the nearest that can be made', (code, path, value) => {
    const bad = withNumberAt(definition, path, value);
    const refusal = refusalOf(bad);
    expect(refusal).toMatchObject({ code, field: path });
    const field = fieldAt(path, bad);
    const mend = findNearestMakeable(bad, field);
    if (!mend) throw new Error('nothing found');
    expect(mend).toMatchObject({ path, from: value });
    expect(refusalOf(withNumberAt(bad, path, mend.to))).toBeNull();
    expect(mend.to).toBeGreaterThanOrEqual(field.min);
    expect(mend.to).toBeLessThanOrEqual(field.max);
    // one whole step nearer cannot be made, unless that is outside the range
    const nearer = mend.to - Math.sign(mend.to - value) * field.step * 1.001;
    if (nearer >= field.min && nearer <= field.max && (nearer - value) * (mend.to - value) > 0) {
      expect(refusalOf(withNumberAt(bad, path, nearer))).not.toBeNull();
    }
  });

  it('against a plain walk in both directions, with predicates of every kind (seed 55)', () => {
    const random = seededRandom(55);
    for (let i = 0; i < 300; i++) {
      const low = random.between(10, 30);
      const gap = random.between(0.5, 12);
      const value = low + random.between(0.05, 0.95) * gap;
      const [up, down] = [random.whole(0, 1) === 1, random.whole(0, 1) === 1];
      const works = (x: number) => (up && x >= low + gap) || (down && x <= low);
      const field = { path: 'tooth.pressureAngle', min: 8, max: 50, step: 0.5 };
      const bad = withNumberAt(definition, field.path, value);
      const mend = findNearestMakeable(bad, field, (of) => works(of.tooth.pressureAngle));
      const ways = [...(up ? [low + gap - value] : []), ...(down ? [value - low] : [])];
      if (ways.length === 0) {
        expect(mend).toBeNull();
        continue;
      }
      expect(mend && works(mend.to)).toBe(true);
      // the walk looks both ways with growing strides: it may take a side that is farther by at most one stride
      const away = Math.abs((mend?.to ?? Number.NaN) - value);
      expect(away).toBeLessThan(1.5 * Math.min(...ways) + 2 * field.step);
    }
  });

  it('whole numbers stay whole; nothing found is an answer; a field that is not there too', () => {
    const teeth = { path: 'pinionTeeth', min: 4, max: 30, step: 1, integer: true };
    const mend = findNearestMakeable(definition, teeth, (of) => of.pinionTeeth >= 19);
    expect(mend).toEqual({ path: 'pinionTeeth', from: definition.pinionTeeth, to: 19 });
    expect(findNearestMakeable(definition, teeth, () => false)).toBeNull();
    expect(findNearestMakeable(definition, { ...teeth, path: 'cut.bladeGroups' }, () => true)).toBeNull();
    expect(withNumberAt(definition, 'tooth.nothing.here', 3)).toEqual(definition);
  });
});
