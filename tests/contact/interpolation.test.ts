import { describe, expect, it } from 'vitest';
import { DISPLAY_GRID, type GridSize, SEARCH_GRID } from '../../sim/contact/grid.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import { drawWidePose, interpolationErrors } from '../support/interpolationErrors.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';

const METHODS: ReadonlyArray<GearSetDefinition['cut']['method']> = ['face-milled', 'face-hobbed'];
const GRIDS: ReadonlyArray<readonly [string, GridSize]> = [
  ['display grid', DISPLAY_GRID],
  ['search grid', SEARCH_GRID],
];

/** Errors of the tabulated gap against the exact pinion flank over random sets, µm of normal gap. */
const errorsOver = (seed: number, method: GearSetDefinition['cut']['method'], size: GridSize): number[] => {
  const random = seededRandom(seed);
  return Array.from({ length: 4 }, () => {
    const mesh = drawMakeableMesh(random, method);
    const poses = Array.from({ length: 6 }, () => drawWidePose(random));
    return interpolationErrors(mesh, size, poses, random);
  }).flat();
};

describe.each(METHODS)('tabulated pinion flank, %s', (method) => {
  it.each(GRIDS)('is within 0.5 µm of the exact one on the %s (seed 2301)', (_, size) => {
    const errors = errorsOver(2301, method, size);
    expect(errors.length).toBeGreaterThan(800);
    expect(Math.max(...errors)).toBeLessThan(0.5);
  });
});
