import { describe, expect, it } from 'vitest';
import { MeshCore } from '../../../sim/worker/core.ts';
import { lengthsIn } from '../../../src/app/ui/useLengths.ts';
import { differenceRows, differenceSentences } from '../../../src/areas/explore/sideBySide/differences.ts';
import {
  leftAxleId,
  partnerOf,
  readyPair,
  withAxle,
  withStand,
} from '../../../src/areas/explore/sideBySide/leftChoice.ts';
import { axleOf, SHIPPED_AXLES } from '../../../src/state/axles.ts';
import { poseOfSetup, type ShownMesh } from '../../../src/state/mesh.ts';
import { setupAsFound } from '../../../src/state/setup.ts';
import { sideBySide } from '../../../src/text/en/sideBySide.ts';
import { addTexts, createTranslate } from '../../../src/text/translate.ts';

addTexts(sideBySide);
const t = createTranslate('en');
const lengths = lengthsIn('mm', t);
const core = new MeshCore();

function shownOf(axleId: string, pose: Partial<ShownMesh['result']['pose']> = {}, film?: number): ShownMesh {
  const loaded = core.load(axleId, axleOf(axleId).axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const setup = setupAsFound(axleId);
  const solved = core.solve(axleId, { ...poseOfSetup(setup), ...pose }, film ?? setup.film);
  if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
  return { axleId, loaded: loaded.value, result: solved.value };
}

const percent = (share: number | null) => Math.round((share ?? Number.NaN) * 100);

describe('the difference in words', () => {
  it('says by how much and which way each mark and the dial differ, and nothing that is not so', () => {
    const left = shownOf('borrin', { pinionIn: 0 });
    const right = shownOf('borrin', { pinionIn: 0.1 });
    const [drive, coast, lash, ...rest] = differenceSentences(left, right, lengths, t);
    const along = percent(right.result.drive.toeHeel) - percent(left.result.drive.toeHeel);
    const up = percent(right.result.drive.rootFace) - percent(left.result.drive.rootFace);
    // pinion in: the drive mark of a face-milled set goes to toe and root
    expect(along).toBeLessThan(0);
    expect(up).toBeLessThan(0);
    expect(drive).toContain(
      `Drive flank: the right mark lies ${-along} % nearer the toe and ${-up} % nearer the root.`,
    );
    expect(drive).toContain('Only the right one reaches the root.');
    expect(coast).toContain('nearer the root');
    const less = (left.result.backlash.normal ?? 0) - (right.result.backlash.normal ?? 0);
    expect(lash).toBe(`Backlash is ${less.toFixed(3)}\u202fmm less on the right.`);
    expect(rest).toEqual([]);
    // and the other way round
    const back = differenceSentences(right, left, lengths, t);
    expect(back[0]).toContain(`${-along} % nearer the heel and ${-up} % nearer the face.`);
    expect(back[0]).toContain('Only the left one reaches the root.');
    expect(back[2]).toContain('more on the right');
  });

  it('names two axles, other films, a missing mark and binding', () => {
    const borrin = shownOf('borrin');
    expect(differenceSentences(borrin, shownOf('cavel'), lengths, t).join(' ')).toContain('Two axles');
    expect(differenceSentences(borrin, shownOf('borrin', {}, 0.02), lengths, t).join(' ')).toContain(
      'The films differ: 0.0120\u202fmm on the left, 0.0200\u202fmm on the right.',
    );
    const bound = shownOf('borrin', { ringAway: -0.3 });
    expect(bound.result.backlash.binding).toBe(true);
    expect(differenceSentences(borrin, bound, lengths, t)).toContain('Right: the teeth bind.');
    const noMark: ShownMesh = {
      ...borrin,
      result: {
        ...borrin.result,
        drive: { ...borrin.result.drive, toeHeel: null, rootFace: null, area: 0, edges: [] },
      },
    };
    expect(differenceSentences(noMark, borrin, lengths, t)[0]).toBe('Drive flank: a mark on the right only.');
    expect(differenceSentences(borrin, noMark, lengths, t)[0]).toBe('Drive flank: a mark on the left only.');
    expect(differenceSentences(noMark, noMark, lengths, t)[0]).toBe('Drive flank: no mark on either side.');
  });

  it('finds none between a set-up and itself, in words and in the table', () => {
    const same = shownOf('dornet');
    expect(differenceSentences(same, same, lengths, t)).toEqual([
      'Drive flank: the marks lie in the same place.',
      'Coast flank: the marks lie in the same place.',
      'Backlash is the same.',
    ]);
    for (const { left, right, change } of differenceRows(same.result, same.result, lengths, t)) {
      expect(left).toBe(right);
      expect(['same', 'same long, same high']).toContain(change);
    }
  });

  it('gives poses their way in the table', () => {
    const rows = differenceRows(
      shownOf('aldra', { pinionIn: -0.05, ringAway: 0.02 }).result,
      shownOf('aldra', { pinionIn: 0.025, ringAway: 0.1 }).result,
      lengths,
      t,
    );
    const row = (name: string) => rows.find((one) => one.name === name);
    expect(row('Pinion from the design position')).toMatchObject({
      left: '0.05\u202fmm out',
      right: '0.025\u202fmm in',
      change: '0.075\u202fmm in',
    });
    expect(row('Ring from the design position')).toMatchObject({ change: '0.08\u202fmm out' });
  });
});

describe('what can stand on the left', () => {
  it('a ready pair differs in what it is named for, and moves alike', () => {
    for (const { id, axle } of SHIPPED_AXLES) {
      const cut = partnerOf('cut', id);
      expect(cut.axle.gearset.cut.method).not.toBe(axle.gearset.cut.method);
      const hand = partnerOf('hand', id);
      expect(hand.axle.hand).not.toBe(axle.hand);
      expect(readyPair('hand', id)).toEqual({ stand: 'alike', axleId: hand.id });
    }
  });

  it('an axle beside itself never moves alike: that would be the same twice', () => {
    expect(withAxle({ stand: 'alike', axleId: 'cavel' }, null, 'borrin')).toEqual({
      stand: 'found',
      axleId: null,
    });
    expect(withAxle({ stand: 'alike', axleId: 'cavel' }, 'elspar', 'borrin')).toEqual({
      stand: 'alike',
      axleId: 'elspar',
    });
    const kept = { stand: 'kept', setup: setupAsFound('dornet') } as const;
    expect(withStand(kept, 'design')).toEqual({ stand: 'design', axleId: 'dornet' });
    expect(leftAxleId(kept, 'borrin')).toBe('dornet');
    expect(leftAxleId({ stand: 'found', axleId: null }, 'borrin')).toBe('borrin');
  });
});
