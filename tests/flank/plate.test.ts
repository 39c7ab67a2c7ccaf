import { describe, expect, it } from 'vitest';
import { compoundTones } from '../../src/flank/compoundTones.ts';
import { CONTOUR_LEVELS } from '../../src/flank/contourLevels.ts';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { contourLines, patchScene } from '../../src/flank/patchScene.ts';
import { type PlateOptions, renderPlate } from '../../src/flank/plate.ts';
import { escapeXml, wrapText } from '../../src/flank/svgText.ts';
import { createTranslate } from '../../src/text/translate.ts';
import { NARROW_SPACE } from '../../src/units/format.ts';
import { measureRings, pathPoints } from './outlineMeasures.ts';
import { solvedSet } from './solved.ts';

const OPTIONS: PlateOptions = {
  title: 'Set <a> & "others"',
  hand: 'standard-cut',
  compoundColour: '#e3b62c',
  units: 'mm',
  translate: createTranslate('en'),
};

const { loaded, solve } = solvedSet('a');

/** A reader strict enough for what the plate may contain: every tag closed in order, every attribute quoted, no stray & or <. */
function readXml(source: string): string[] {
  const open: string[] = [];
  const names: string[] = [];
  const body = source.replace(/^<\?xml [^?]*\?>\n/, '');
  let at = 0;
  for (const match of body.matchAll(/<(\/?)([a-z]+)((?: [a-zA-Z-]+="[^"<]*")*)(\/?)>/g)) {
    const between = body.slice(at, match.index);
    expect(between).not.toMatch(/[<>]|&(?!(amp|lt|gt|quot|apos);)/);
    at = match.index + match[0].length;
    const [, closing, name, , empty] = match;
    if (closing === '/') expect(open.pop()).toBe(name);
    else {
      names.push(name);
      if (empty !== '/') open.push(name);
    }
  }
  expect(body.slice(at).trim()).toBe('');
  expect(open).toEqual([]);
  return names;
}

/** Contains, without printing the whole file when it does not. */
function expectText(source: string, text: string): void {
  expect(source.includes(text), `the plate says ${JSON.stringify(text)}`).toBe(true);
}

describe('the plate', () => {
  const result = solve({ pinionIn: 0.05, ringAway: -0.02 });
  const plate = renderPlate(result, loaded, { ...OPTIONS, contourLevels: CONTOUR_LEVELS });

  it('is well-formed and self-contained', () => {
    const names = readXml(plate);
    expect(names[0]).toBe('svg');
    expect(new Set(names)).toEqual(new Set(['svg', 'title', 'desc', 'rect', 'text', 'path', 'g']));
    expect(plate.replace('http://www.w3.org/2000/svg', '')).not.toMatch(
      /href|url\(|https?:|<style|<script|@import/,
    );
    expect(/NaN|undefined|null|Infinity/.exec(plate)).toBeNull();
    expectText(plate, 'Set &lt;a&gt; &amp; &quot;others&quot;');
  });

  it('states pose, film and backlash with units and senses in words', () => {
    expectText(plate, `deeper by 0.050${NARROW_SPACE}mm than the design position`);
    expectText(plate, `toward the pinion by 0.020${NARROW_SPACE}mm, from the design position`);
    expectText(plate, `6.35${NARROW_SPACE}µm`);
    expectText(plate, `${result.backlash.normal?.toFixed(3)}${NARROW_SPACE}mm square to the flank`);
    expectText(
      plate,
      `${result.backlash.tangential?.toFixed(3)}${NARROW_SPACE}mm along the turning direction`,
    );
    expect(plate.includes('Shaft angle')).toBe(false);
    const tipped = renderPlate(solve({ shaftAngleError: -0.05, offsetError: 0.02 }), loaded, OPTIONS);
    expectText(tipped, '0.050° smaller than design');
    expectText(tipped, `0.020${NARROW_SPACE}mm larger than design`);
  });

  it('draws the very patch of the solve on both maps', () => {
    for (const flank of ['drive', 'coast'] as const) {
      const part = plate.slice(plate.indexOf(`data-flank="${flank}"`));
      const path = /<path d="([^"]*)"[^>]*data-part="patch"/.exec(part)?.[1] ?? '';
      const projection = projectFlank(loaded.outline, flank, 'standard-cut');
      const rings = pathPoints(path).map(({ x, y }) => {
        const points = x.map((value, i) => projection.toFlank(value, y[i]));
        return { u: Float64Array.from(points, ([u]) => u), v: Float64Array.from(points, ([, v]) => v) };
      });
      const measures = measureRings(rings);
      // a map with the heel on the left turns the ring round
      expect(Math.abs(Math.abs(measures.area) - result[flank].area)).toBeLessThan(0.01);
      expect(Math.abs(measures.toeHeel - (result[flank].toeHeel ?? 9))).toBeLessThan(0.01);
      expect(Math.abs(measures.rootFace - (result[flank].rootFace ?? 9))).toBeLessThan(0.01);
    }
  });

  it('shows edge contact as a stroke and in words, and nothing of it when the mark is clear', () => {
    const clear = renderPlate(solve({}), loaded, OPTIONS);
    expect(clear.includes('edge contact at')).toBe(false);
    expect(clear.includes('data-contact')).toBe(false);
    const deep = solve({ pinionIn: 0.3 }, 0.02);
    expect(deep.drive.edges).toContain('root');
    const reaching = renderPlate(deep, loaded, OPTIONS);
    for (const edge of deep.drive.edges) {
      expectText(reaching, `data-contact="${edge}"`);
      expectText(reaching, `${edge}: edge contact`);
    }
  });

  it('is drawn mirrored for a reverse-cut set: the same numbers, toe and heel changed over', () => {
    const ends = (svg: string) => [...svg.matchAll(/>(toe|heel)</g)].map(([, name]) => name);
    const standard = renderPlate(solve({}), loaded, OPTIONS);
    const reverse = renderPlate(solve({}), loaded, { ...OPTIONS, hand: 'reverse-cut' });
    expect(ends(standard)).toHaveLength(4);
    const [a, b, c, d] = ends(standard);
    expect(ends(reverse)).toEqual([b, a, d, c]);
    expectText(reverse, 'reverse-cut set, drawn mirrored');
  });

  it('carries further rows and inch units, and says when there is no mark or the teeth bind', () => {
    const inch = renderPlate(result, loaded, {
      ...OPTIONS,
      units: 'in',
      rows: [{ name: 'Shims fitted', value: 'pinion 1.20' }],
    });
    readXml(inch);
    expectText(inch, '>Shims fitted</text>');
    expectText(inch, `deeper by 0.0020${NARROW_SPACE}in than`);
    const bound = renderPlate(solve({ ringAway: -0.4 }), loaded, OPTIONS);
    expectText(bound, 'none: the teeth bind');
    const far = solve({ pinionIn: -3 });
    const none = renderPlate(far, loaded, OPTIONS);
    readXml(none);
    expect(/NaN|undefined|null|Infinity/.exec(none)).toBeNull();
  });
});

describe('what the plate and the map share', () => {
  it('contour lines keep their level, order and a label on the line', () => {
    const result = solve({});
    const projection = projectFlank(loaded.outline, 'drive', 'standard-cut');
    const lines = contourLines(result.drive, result.grid, CONTOUR_LEVELS, projection);
    expect(lines.map(({ level }) => level)).toEqual(CONTOUR_LEVELS.slice(0, lines.length));
    expect(lines.length).toBeGreaterThanOrEqual(4);
    for (const { path, label } of lines) {
      const off = pathPoints(path).flatMap(({ x, y }) =>
        x.slice(1).map((_, i) => {
          const [dx, dy] = [x[i + 1] - x[i], y[i + 1] - y[i]];
          const along = ((label.x - x[i]) * dx + (label.y - y[i]) * dy) / (dx * dx + dy * dy);
          const s = Math.min(Math.max(along, 0), 1);
          return Math.hypot(x[i] + s * dx - label.x, y[i] + s * dy - label.y);
        }),
      );
      // a straight stretch may lie 0.006 mm off its curve
      expect(Math.min(...off)).toBeLessThan(0.008);
    }
    // labels move away from the middle of the mark toward the heel, where there is more room
    const positions = lines.map(({ label }) => projection.toFlank(label.x, label.y)[0]);
    expect(positions).toEqual([...positions].sort((a, b) => a - b));
  });

  it('root contact that just misses the tip’s reach is shown at the nearest point of the mark', () => {
    const projection = projectFlank(loaded.outline, 'drive', 'standard-cut');
    const result = solve({});
    const scene = patchScene({ ...result.drive, edges: ['root'] }, result.grid, result.film, projection);
    const [dot] = pathPoints(scene.edges[0].path);
    expect(dot.x[0]).toBe(dot.x[1]);
    const lowest = Math.max(...pathPoints(scene.patch)[0].y);
    expect(Math.abs(dot.y[0] - lowest)).toBeLessThan(0.6);
  });

  it('tones: refuses what is no colour, and the mark stands out of every compound', () => {
    expect(() => compoundTones('yellow')).toThrow('colour: "yellow" is not of the form #rrggbb');
    const luminance = (hex: string): number => {
      const [r, g, b] = [1, 3, 5].map((i) => {
        const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
        return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    for (const colour of ['#e3b62c', '#e6e3da', '#ffffff', '#b5432c', '#2f66b5', '#4f8f3a']) {
      const { coat, rubbed } = compoundTones(colour);
      const [dark, pale] = [luminance(coat), luminance(rubbed)].sort((p, q) => p - q);
      expect((pale + 0.05) / (dark + 0.05), colour).toBeGreaterThan(3);
    }
  });

  it('texts are escaped and wrapped without losing a word', () => {
    expect(escapeXml('a<b>&"\'\u0007')).toBe('a&lt;b&gt;&amp;&quot;&apos;');
    expect(wrapText('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrapText('extraordinarily long', 5)).toEqual(['extraordinarily', 'long']);
  });
});
