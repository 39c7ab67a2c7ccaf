import { describe, expect, it } from 'vitest';
import type { PatchReport } from '../../sim/worker/protocol.ts';
import { centreWords, describeFlank, describePattern, edgeList } from '../../src/flank/describePattern.ts';
import { createTranslate } from '../../src/text/translate.ts';
import { solvedSet } from './solved.ts';

const t = createTranslate('en');

const REPORT: PatchReport = {
  toeHeel: -0.1,
  rootFace: 0.09,
  length: 0.51,
  height: 0.65,
  area: 0.2,
  transmissionError: 61,
  edges: [],
  contactRatio: 2,
  gapShare: 0,
};

describe('a pattern in words', () => {
  it('says where the mark sits, what it covers and that it is clear', () => {
    expect(describeFlank(REPORT, 'drive', t)).toBe(
      'Drive flank: middle of the mark slightly toward the toe and slightly toward the face; ' +
        'it covers 51 % of the length and 65 % of the height; clear of all edges.',
    );
  });

  it.each([
    [0, 'at mid-length'],
    [0.049, 'at mid-length'],
    [0.05, 'slightly toward the heel'],
    [-0.149, 'slightly toward the toe'],
    [-0.15, ' toward the toe'],
    [0.349, ' toward the heel'],
    [0.35, 'far toward the heel'],
    [-0.9, 'far toward the toe'],
  ])('toe–heel %f: %s', (toeHeel, words) => {
    expect(describeFlank({ ...REPORT, toeHeel }, 'coast', t)).toContain(`mark ${words.trim()} and`);
  });

  it.each([
    [-0.02, 'at mid-height'],
    [-0.1, 'slightly toward the root'],
    [-0.2, 'toward the root'],
    [-0.5, 'far toward the root'],
    [0.5, 'far toward the face'],
  ])('root–face %f: %s', (rootFace, words) => {
    expect(describeFlank({ ...REPORT, rootFace }, 'coast', t)).toContain(`and ${words};`);
  });

  it('names every edge reached, in one order', () => {
    expect(edgeList(['toe'], t)).toBe('toe');
    expect(edgeList(['face', 'toe'], t)).toBe('toe and face');
    expect(edgeList(['root', 'heel', 'toe'], t)).toBe('toe, heel and root');
    expect(describeFlank({ ...REPORT, edges: ['face', 'toe'] }, 'drive', t)).toContain(
      '; edge contact at the toe and face.',
    );
  });

  it('says when there is no mark, and when the teeth lose contact', () => {
    const none = { ...REPORT, toeHeel: null, rootFace: null, length: 0, height: 0, area: 0 };
    expect(describeFlank(none, 'drive', t)).toBe('Drive flank: no mark at this thickness of compound.');
    expect(describeFlank({ ...REPORT, gapShare: 0.12 }, 'drive', t)).toMatch(
      /edges\. The teeth lose contact for 12 % of each pitch\.$/,
    );
  });

  it('gives the centre in trade words, not signs', () => {
    expect(centreWords(REPORT, t)).toBe('10 % toe, 9 % face');
    expect(centreWords({ ...REPORT, toeHeel: 0.304, rootFace: -0.25 }, t)).toBe('30 % heel, 25 % root');
    expect(centreWords({ ...REPORT, toeHeel: -0.004, rootFace: 0.004 }, t)).toBe('mid-length, mid-height');
  });

  it('describes both flanks of a solved pose and adds that the teeth bind', () => {
    const { solve } = solvedSet('a');
    const [drive, coast, ...more] = describePattern(solve({}), t);
    expect(drive).toMatch(/^Drive flank: .* slightly toward the toe .* 51 % of the length/);
    expect(coast).toMatch(/^Coast flank: .* at mid-length .* clear of all edges\.$/);
    expect(more).toEqual([]);
    expect(describePattern(solve({ ringAway: -0.4 }), t).at(-1)).toBe('The teeth bind at this setting.');
  });
});
