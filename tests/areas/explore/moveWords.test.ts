import { describe, expect, it } from 'vitest';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import type { BacklashReport } from '../../../sim/worker/protocol.ts';
import { lengthsIn } from '../../../src/app/ui/useLengths.ts';
import { lockSentences } from '../../../src/areas/explore/LockWords.tsx';
import { changeWords, moveWords, shortMoveWords, stepWords } from '../../../src/areas/explore/moveWords.ts';
import type { AdjustmentName } from '../../../src/state/adjustments.ts';
import { axleOf } from '../../../src/state/axles.ts';
import { setupAsFound } from '../../../src/state/setup.ts';
import { createTranslate } from '../../../src/text/translate.ts';
import { solvedSet } from '../../flank/solved.ts';

const t = createTranslate('en');
const lengths = lengthsIn('mm', t);
/** Narrow spaces read as plain ones here. */
const plain = (text: string) => text.replaceAll('\u202f', ' ');

describe('a move in words', () => {
  it.each([
    [{ toeHeel: -0.03, rootFace: -0.08 }, '8.0 % toward root, 3.0 % toward toe'],
    [{ toeHeel: 0.126, rootFace: 0.0044 }, '0.4 % toward face, 13 % toward heel'],
    [{ toeHeel: 0.0004, rootFace: 0 }, '0.04 % toward heel'],
    [{ toeHeel: 1e-6, rootFace: -1e-6 }, 'stays'],
  ])('%o', (move, words) => {
    expect(plain(moveWords(move, t))).toBe(words);
  });

  it.each([
    [{ toeHeel: -0.03, rootFace: -0.08 }, 'toward root 8.0 %, toe 3.0 %'],
    [{ toeHeel: 0.0004, rootFace: 0 }, 'toward heel 0.04 %'],
    [{ toeHeel: 0, rootFace: 0.0044 }, 'toward face 0.4 %'],
    [{ toeHeel: 1e-6, rootFace: -1e-6 }, 'stays'],
  ])('in a line of its own: %o', (move, words) => {
    expect(plain(shortMoveWords(move, t))).toBe(words);
  });

  const step = (name: AdjustmentName, amount: number, backlashKept = false, offset = 30) =>
    plain(
      stepWords(
        {
          adjustment: { name, amount, step: {} },
          backlashKept,
          moves: { drive: null, coast: null, dial: null },
        },
        offset,
        t,
        lengths,
      ),
    );

  it('names the step as its button does', () => {
    expect(step('pinion', 0.025)).toBe('Pinion shim 0.025 mm thicker');
    expect(step('pinion', 0.05, true)).toBe('Pinion shim 0.05 mm thicker, backlash kept');
    expect(step('ring', 0.04)).toBe('Ring in by 0.04 mm');
    expect(step('offset', 0.01)).toBe('Bores 0.01 mm further apart');
    expect(step('offset', 0.01, false, -30)).toBe('Bores 0.01 mm closer together');
    expect(step('angle', 0.01)).toBe('Pinion axis tipped 0.01° up');
    expect(step('angle', 0.001)).toBe('Pinion axis tipped 0.001° up');
  });

  it('says how both marks moved since the former mesh, and when there was or is none', () => {
    const { solve } = solvedSet('a');
    const from = solve({});
    const to = solve({ pinionIn: 0.05 });
    expect(plain(changeWords(from, to, t))).toMatch(
      /^Since before the last change: Drive flank: centre [\d.]+ % toward root, [\d.]+ % toward \w+\. Coast flank: centre [\d.]+ % toward root, [\d.]+ % toward \w+\.$/,
    );
    const none = { ...to, coast: { ...to.coast, toeHeel: null, rootFace: null } };
    expect(changeWords(from, none, t)).toMatch(/Coast flank: no mark any more\.$/);
    expect(changeWords(none, to, t)).toMatch(/Coast flank: no mark before\.$/);
    expect(changeWords(none, none, t)).toMatch(/Coast flank: no mark, as before\.$/);
  });
});

describe('what the backlash lock says', () => {
  const report = (normal: number | null, tangential: number | null): BacklashReport =>
    ({
      normal,
      tangential,
      normalMean: normal,
      tangentialMean: tangential,
      binding: false,
    }) as BacklashReport;
  const say = (
    axleId: string,
    to: Partial<Fitment>,
    reads: BacklashReport,
    held: { reading: number | null; ringAway: number | null },
  ) => {
    const { axle } = axleOf(axleId);
    const from = setupAsFound(axleId).fitment;
    return plain(lockSentences(axle, { ...held, from }, { ...from, ...to }, reads, t, lengths).join(' '));
  };

  it('before any change: what it will do', () => {
    expect(say('borrin', {}, report(0.17, 0.21), { reading: 0.17, ringAway: null })).toBe(
      'The ring follows the pinion, so that the dial keeps on reading 0.170 mm. Preload stays.',
    );
  });

  it('shims moved from side to side, and what is off for want of a finer one', () => {
    const to = { pinionShim: 1.5, ringSide: 5.8, oppositeSide: 6.2 };
    expect(say('borrin', to, report(0.172, 0.212), { reading: 0.17, ringAway: 0.0573 })).toBe(
      'Ring moves away by 0.06 mm: 0.06 mm from ring side to opposite side. Reading 0.172 mm, 0.002 mm more than held for want of a finer shim.',
    );
    expect(
      say('borrin', { ...to, ringSide: 5.8573, oppositeSide: 6.1427 }, report(0.17, 0.21), {
        reading: 0.17,
        ringAway: 0.0027,
      }),
    ).toBe(
      'Ring moves away by 0.003 mm: 0.003 mm from ring side to opposite side. Reading 0.170 mm, as held.',
    );
  });

  it('notches, and the reading the way this axle’s limits are read', () => {
    const found = setupAsFound('cavel').fitment;
    const to = { pinionShim: 1.5, ringSide: found.ringSide + 1, oppositeSide: found.oppositeSide - 1 };
    expect(say('cavel', to, report(0.2, 0.25), { reading: 0.204, ringAway: -0.06 })).toBe(
      'Ring moves in by 0.067 mm: 1 notch from opposite side to ring side. Reading 0.250 mm, 0.005 mm less than held for want of a finer notch.',
    );
  });

  it('unlike sides each by its own measure', () => {
    const { axle } = axleOf('dornet');
    const { ringSide, oppositeSide } = axle.sides;
    expect(ringSide.kind === 'adjuster').not.toBe(oppositeSide.kind === 'adjuster');
    const found = setupAsFound('dornet').fitment;
    const adjuster = ringSide.kind === 'adjuster' ? ('ringSide' as const) : ('oppositeSide' as const);
    const to = { pinionShim: found.pinionShim + 0.1, [adjuster]: found[adjuster] + 1 };
    expect(say('dornet', to, report(0.15, 0.2), { reading: 0.15, ringAway: 0.1 })).toMatch(
      /^Ring moves (in|away) by [\d.]+ mm: ring side (1 notch in|stays), opposite side (1 notch in|stays)\. /,
    );
  });

  it('when the sides go no further, when the ring need not move, and when there is nothing to measure', () => {
    const end = { pinionShim: 1.7, ringSide: 5.51, oppositeSide: 6.49 };
    expect(say('borrin', end, report(0.1, 0.12), { reading: 0.17, ringAway: 0.46 })).toBe(
      'Ring moves away by 0.35 mm: 0.35 mm from ring side to opposite side. Reading 0.100 mm, 0.070 mm less than held: the sides go no further.',
    );
    expect(
      say('borrin', { pinionShim: 1.375 }, report(0.165, 0.2), { reading: 0.17, ringAway: 0.0079 }),
    ).toBe('The ring stays. Reading 0.165 mm, 0.005 mm less than held for want of a finer shim.');
    expect(say('borrin', {}, report(null, null), { reading: null, ringAway: null })).toBe(
      'No contact to measure from: the sides stay.',
    );
  });
});
