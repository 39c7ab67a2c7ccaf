import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { FlankMap } from '../../src/flank/FlankMap.tsx';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { GhostLayer } from '../../src/flank/GhostLayer.tsx';
import { keptPatchScene, patchScene } from '../../src/flank/patchScene.ts';
import { trailPaths } from '../../src/flank/trailPaths.ts';
import { solvedSet } from './solved.ts';

const { loaded, solve } = solvedSet('b');

describe('the former mark', () => {
  it('is drawn with the outline it had, over the present one', () => {
    const former = solve({});
    const markup = renderToStaticMarkup(
      <FlankMap
        flank="coast"
        outline={loaded.outline}
        hand="standard-cut"
        result={solve({ pinionIn: 0.1 })}
        compoundColour="#2f66b5"
      >
        {(frame) => <GhostLayer frame={frame} former={former} />}
      </FlankMap>,
    );
    const projection = projectFlank(loaded.outline, 'coast', 'standard-cut');
    const { patch } = patchScene(former.coast, former.grid, former.film, projection);
    expect(patch.length).toBeGreaterThan(500);
    expect(markup).toContain(`d="${patch}" data-part="former"`);
    expect(markup.indexOf('data-layer="former"')).toBeGreaterThan(markup.indexOf('data-layer="patch"'));
  });

  it('costs nothing to show again: a result is traced once per map', () => {
    const result = solve({});
    const projection = projectFlank(loaded.outline, 'drive', 'standard-cut');
    const scene = keptPatchScene(result, 'drive', projection);
    expect(scene).toEqual(patchScene(result.drive, result.grid, result.film, projection));
    expect(keptPatchScene(result, 'drive', projection)).toBe(scene);
    const mirrored = projectFlank(loaded.outline, 'drive', 'reverse-cut');
    expect(keptPatchScene(result, 'drive', mirrored)).not.toBe(scene);
  });
});

describe('the trail', () => {
  const place = (u: number, v: number) => [100 * u, -100 * v] as const;
  const at = (toeHeel: number, rootFace: number) => ({ toeHeel, rootFace });
  const dotCount = (path: string) => (path.match(/h0/g) ?? []).length;

  it('leads from where the change began to where the mark is now', () => {
    const { line } = trailPaths([at(0, 0), at(0.1, 0.1), at(0.3, -0.2)], place);
    expect(line).toBe('M0.0 0.0L10.0 -10.0L30.0 20.0');
  });

  it('dots fade with age: each in one of three groups, oldest first; none on the mark’s own cross', () => {
    const points = Array.from({ length: 10 }, (_, i) => at(i / 10, 0));
    const { dots } = trailPaths(points, place);
    expect(dots.map(dotCount)).toEqual([3, 3, 3]);
    expect(dots[0].startsWith('M0.0 0.0h0')).toBe(true);
    expect(dots[2]).not.toContain('M90.0');
  });

  it('dots that would run together are left out, the end never', () => {
    const points = Array.from({ length: 101 }, (_, i) => at(i / 1000, 0));
    const { line, dots } = trailPaths(points, place);
    expect(dots.map(dotCount).reduce((sum, one) => sum + one)).toBeLessThanOrEqual(3);
    expect(line.endsWith('L10.0 0.0')).toBe(true);
  });

  it('is broken where there was no mark, and empty without points', () => {
    expect(trailPaths([at(0, 0), null, at(0.2, 0)], place).line).toBe('M0.0 0.0M20.0 0.0');
    expect(trailPaths([], place)).toEqual({ line: '', dots: ['', '', ''] });
    expect(trailPaths([null], place)).toEqual({ line: '', dots: ['', '', ''] });
  });
});
