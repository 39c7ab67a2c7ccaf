import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { CONTOUR_LEVELS } from '../../src/flank/contourLevels.ts';
import { FlankMap, type FlankMapProps } from '../../src/flank/FlankMap.tsx';
import { FlankMapKey } from '../../src/flank/FlankMapKey.tsx';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { patchScene } from '../../src/flank/patchScene.ts';
import { rubbedSteel } from '../../src/theme/steel.ts';
import { solvedSet } from './solved.ts';

const { loaded, solve } = solvedSet('b');

function draw(props: Partial<FlankMapProps>): string {
  return renderToStaticMarkup(
    <FlankMap
      flank="drive"
      outline={loaded.outline}
      hand="standard-cut"
      result={solve({})}
      compoundColour="#2f66b5"
      {...props}
    />,
  );
}

/** Visible words in reading order. */
const words = (markup: string): string =>
  markup
    .replace(/<svg[\s\S]*?<\/svg>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

const endsInOrder = (markup: string): string[] =>
  [...markup.matchAll(/data-edge="(\w+)"/g)].map(([, edge]) => edge);

describe('flank map', () => {
  it('draws the patch of the solve as steel in a coat of the compound, under its name and numbers', () => {
    const result = solve({ pinionIn: 0.05 });
    const markup = draw({ result });
    const scene = patchScene(
      result.drive,
      result.grid,
      result.film,
      projectFlank(loaded.outline, 'drive', 'standard-cut'),
    );
    expect(scene.patch.length).toBeGreaterThan(500);
    expect(markup).toContain(`d="${scene.patch}" fill="${rubbedSteel('#2f66b5')}"`);
    expect(markup).toContain('fill="#2f66b5" data-part="coat"');
    expect(markup).toContain('aria-label="Drive flank, map of the mark"');
    expect(words(markup)).toMatch(
      /^Drive flank convex side of the ring tooth Centre \d+ % toe, \d+ % (root|face) Covers \d+ % of length, \d+ % of height face toe root heel$/,
    );
    expect(markup).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('changes nothing but the patch layer when the pose changes', () => {
    const tooth = (markup: string) => /<g [^>]*data-layer="tooth">.*?<\/g>/s.exec(markup)?.[0];
    const patch = (markup: string) => /data-layer="patch".*<\/svg>/s.exec(markup)?.[0];
    const [one, other] = [draw({}), draw({ result: solve({ ringAway: 0.1 }) })];
    expect(tooth(one)).toBeDefined();
    expect(tooth(other)).toBe(tooth(one));
    expect(patch(other)).not.toBe(patch(one));
  });

  it('swaps toe and heel for the coast flank and for a reverse-cut set', () => {
    const toeFirst = ['face', 'toe', 'root', 'heel'];
    const heelFirst = ['face', 'heel', 'root', 'toe'];
    const onRight = loaded.outline.heelOnRight;
    expect(onRight.drive).not.toBe(onRight.coast);
    for (const flank of ['drive', 'coast'] as const) {
      expect(endsInOrder(draw({ flank }))).toEqual(onRight[flank] ? toeFirst : heelFirst);
      expect(endsInOrder(draw({ flank, hand: 'reverse-cut' }))).toEqual(
        onRight[flank] ? heelFirst : toeFirst,
      );
    }
  });

  it('names every edge the mark reaches, in words and by a stroke along it', () => {
    const deep = solve({ pinionIn: 0.3, ringAway: -0.1 }, 0.02);
    expect(deep.drive.edges.length).toBeGreaterThan(0);
    const markup = draw({ result: deep });
    for (const edge of ['toe', 'heel', 'face', 'root'] as const) {
      const reached = deep.drive.edges.includes(edge);
      expect(words(markup).includes(`${edge}: edge contact`)).toBe(reached);
      expect(markup.includes(`data-contact="${edge}"`)).toBe(reached);
    }
  });

  it('draws lines of separation only when asked, with the caller’s numbers', () => {
    expect(draw({})).not.toContain('data-level');
    const lines = draw({ contourLevels: CONTOUR_LEVELS });
    expect(lines).toContain('data-level="0.01"');
    expect(lines).toMatch(/<text[^>]*>10<\/text>/);
    expect(draw({ contourLevels: [0.0127], formatSeparation: (mm) => (mm / 0.0254).toFixed(2) })).toMatch(
      /<text[^>]*>0\.50<\/text>/,
    );
  });

  it('shows the tooth alone before there is a pose, and says so; says when there is no mark', () => {
    const waiting = draw({ result: null });
    expect(waiting).toContain('data-part="tooth"');
    expect(waiting).not.toContain('data-part="patch"');
    expect(words(waiting)).toContain('No pattern worked out yet');
    const result = solve({});
    const unmarked = { ...result, drive: { ...result.drive, toeHeel: null, rootFace: null, edges: [] } };
    expect(words(draw({ result: unmarked }))).toContain('no mark at this thickness of compound');
  });

  it('lets a further layer draw in place', () => {
    const markup = draw({
      children: ({ place, transform, flank }) => {
        const [x, y] = place(1, 1);
        return <circle data-layer={flank} cx={x} cy={y} r="2" data-transform={transform} />;
      },
    });
    const [, x, y, transform] =
      /<circle data-layer="drive" cx="([\d.]+)" cy="([\d.]+)" r="2" data-transform="([^"]*)"/.exec(markup) ??
      [];
    const [, originX, originY, scale] =
      /translate\(([\d.]+) ([\d.]+)\) scale\(([\d.]+)\)/.exec(transform)?.map(Number) ?? [];
    const projection = projectFlank(loaded.outline, 'drive', 'standard-cut');
    expect(Number(x)).toBeCloseTo(originX + scale * projection.mapX(1), 6);
    expect(Number(y)).toBeCloseTo(originY + scale * projection.mapY(1, 1), 6);
  });

  it('the key explains every sign, lines only when they are drawn', () => {
    const key = (contourUnit?: string) =>
      words(renderToStaticMarkup(<FlankMapKey compoundColour="#2f66b5" contourUnit={contourUnit} />));
    expect(key()).toContain('middle of the mark, in percent of the way from mid-flank to the edge');
    expect(key()).not.toContain('gap between the flanks');
    expect(key('µm')).toContain('gap between the flanks, µm');
  });
});
