import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FlankOutline } from '../../sim/worker/protocol.ts';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { layOutMap } from '../../src/flank/mapLayout.ts';
import { ringsPath, toothPaths } from '../../src/flank/mapPaths.ts';
import { traceRegion } from '../../src/flank/patchOutline.ts';
import { pathPoints } from './outlineMeasures.ts';
import { solvedSet } from './solved.ts';

const TAPERED: FlankOutline = {
  faceWidth: 34,
  face: { d0: 1.2, slope: 0.01 },
  workingRoot: { d0: -6.4, slope: -0.05 },
  root: { d0: -7.4, slope: -0.06 },
  heelOnRight: { drive: true, coast: false },
};

describe('developed flank', () => {
  it('puts toe, heel, face and working root where the outline says', () => {
    const drive = projectFlank(TAPERED, 'drive', 'standard-cut');
    expect(drive.mapX(-1)).toBe(-17);
    expect(drive.mapX(1)).toBe(17);
    // y runs downward: the face is above the working root, the root line below it
    expect(drive.mapY(1, 1)).toBeCloseTo(-(1.2 + 0.01 * 17), 12);
    expect(drive.mapY(-1, -1)).toBeCloseTo(6.4 - 0.05 * 17, 12);
    expect(drive.mapY(0, 0)).toBeCloseTo((6.4 - 1.2) / 2, 12);
    expect(drive.lineY('root', 1)).toBeCloseTo(7.4 + 0.06 * 17, 12);
    expect(drive.bounds).toEqual({
      x: -17,
      y: drive.lineY('face', 1),
      width: 34,
      height: drive.lineY('root', 1) - drive.lineY('face', 1),
    });
  });

  it('mirrors lengthwise, never in height, for the other flank and for a reverse-cut set', () => {
    const drive = projectFlank(TAPERED, 'drive', 'standard-cut');
    const coast = projectFlank(TAPERED, 'coast', 'standard-cut');
    const reverse = projectFlank(TAPERED, 'drive', 'reverse-cut');
    for (const mirrored of [coast, reverse]) {
      expect(mirrored.heelOnRight).toBe(false);
      expect(mirrored.mapX(0.4)).toBe(-drive.mapX(0.4));
      expect(mirrored.mapY(0.4, -0.7)).toBe(drive.mapY(0.4, -0.7));
    }
    expect(projectFlank(TAPERED, 'coast', 'reverse-cut').heelOnRight).toBe(true);
  });

  it('goes to the map and back, and the scale is the same both ways (seed 7)', () => {
    const coordinate = fc.double({ min: -1.2, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(coordinate, coordinate, fc.boolean(), fc.boolean(), (u, v, drive, standard) => {
        const projection = projectFlank(
          TAPERED,
          drive ? 'drive' : 'coast',
          standard ? 'standard-cut' : 'reverse-cut',
        );
        const [u2, v2] = projection.toFlank(projection.mapX(u), projection.mapY(u, v));
        expect(u2).toBeCloseTo(u, 9);
        expect(v2).toBeCloseTo(v, 9);
      }),
      { seed: 7 },
    );
    const layout = layOutMap(projectFlank(TAPERED, 'drive', 'standard-cut'), 348);
    expect(layout.scale * TAPERED.faceWidth).toBeLessThan(348);
    expect(layout.height).toBeGreaterThan(layout.scale * (8.42 + 1.37));
    expect(layout.height).toBeLessThan(layout.scale * (8.42 + 1.37) + 20);
  });

  it('draws the tooth of a real set closed, in its own millimetres, mirrored point by point for reverse-cut', () => {
    const { loaded } = solvedSet('a');
    const standard = toothPaths(projectFlank(loaded.outline, 'drive', 'standard-cut'));
    const reverse = toothPaths(projectFlank(loaded.outline, 'drive', 'reverse-cut'));
    const [whole] = pathPoints(standard.whole);
    const [mirrored] = pathPoints(reverse.whole);
    expect(whole.closed).toBe(true);
    expect(Math.max(...whole.x) - Math.min(...whole.x)).toBeCloseTo(loaded.outline.faceWidth, 2);
    const depthAtHeel = -whole.y[1] + whole.y[2];
    const { face, root } = loaded.outline;
    const l = loaded.outline.faceWidth / 2;
    expect(depthAtHeel).toBeCloseTo(face.d0 - root.d0 + (face.slope - root.slope) * l, 2);
    expect(mirrored.x).toEqual(whole.x.map((x) => -x));
    expect(mirrored.y).toEqual(whole.y);
    // working flank and the part below it make up the whole tooth
    const [working] = pathPoints(standard.working);
    const [below] = pathPoints(standard.belowWorking);
    expect(working.y[3]).toBe(below.y[0]);
    expect(below.y[3]).toBe(whole.y[3]);
  });

  it('a mark over the whole flank is drawn as the working flank', () => {
    const projection = projectFlank(TAPERED, 'drive', 'standard-cut');
    const grid = { columns: 3, rows: 3 };
    const rings = traceRegion(
      { separation: new Float32Array(9), tipClearance: new Float32Array(9).fill(1) },
      grid,
      0.006,
    );
    const [patch] = pathPoints(ringsPath(rings, projection));
    expect(patch.closed).toBe(true);
    expect(Math.min(...patch.x)).toBe(-17);
    expect(Math.max(...patch.x)).toBe(17);
    expect(Math.min(...patch.y)).toBeCloseTo(projection.mapY(1, 1), 3);
    expect(Math.max(...patch.y)).toBeCloseTo(projection.mapY(1, -1), 3);
  });
});
