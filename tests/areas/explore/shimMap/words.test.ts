import { describe, expect, it } from 'vitest';
import { fittedNow } from '../../../../sim/assembly/hardware.ts';
import { lengthsIn } from '../../../../src/app/ui/useLengths.ts';
import { stateAt } from '../../../../src/areas/explore/shimMap/placeState.ts';
import { routeBetween } from '../../../../src/areas/explore/shimMap/route.ts';
import { placeWords, routeWords } from '../../../../src/areas/explore/shimMap/words.ts';
import { axleOf } from '../../../../src/state/axles.ts';
import { shimMap } from '../../../../src/text/en/shimMap.ts';
import { addTexts, createTranslate } from '../../../../src/text/translate.ts';
import { NARROW_SPACE } from '../../../../src/units/format.ts';
import { drawnMap } from './solvedMap.ts';

addTexts(shimMap);
const t = createTranslate('en');
const mm = { t, lengths: lengthsIn('mm', t) };
const inch = { t, lengths: lengthsIn('in', t) };
/** With usual spaces between number and unit. */
const plain = (text: string): string => text.replaceAll(NARROW_SPACE, ' ');

const way = (axleId: string, change: Partial<ReturnType<typeof fittedNow>>): string[] => {
  const { axle } = axleOf(axleId);
  const from = fittedNow(axle);
  return routeWords(routeBetween(axle, from, { ...from, ...change }), mm).map(plain);
};

describe('the way and its cost in words', () => {
  it('pinion shim under the head bearing, crush sleeve, outboard side shims', () => {
    expect(way('borrin', { pinionShim: 1.4, ringSide: 5.82, oppositeSide: 6.18 })).toEqual([
      'Pinion shim 0.05 mm thicker, pinion in. The pinion comes out and its head bearing is pulled. A new crush sleeve.',
      '0.04 mm moved to the opposite side, ring out. Side shims change at the cups, no bearing is pulled.',
    ]);
  });

  it('inboard side shims cost the carrier bearings', () => {
    expect(way('aldra', { ringSide: 1.46, oppositeSide: 1.52 })).toEqual([
      '0.03 mm moved to the ring side, ring in. The carrier bearings are pulled.',
    ]);
  });

  it('adjusters count notches; a solid spacer under the cone stays', () => {
    expect(way('cavel', { pinionShim: 1.59, ringSide: 73, oppositeSide: 76 })).toEqual([
      'Pinion shim 0.03 mm thinner, pinion out. The pinion comes out and its head bearing is pulled.',
      'Ring side 2 notches in, opposite side 2 notches out: ring in. The adjusters turn, no bearing is pulled.',
    ]);
  });

  it('behind the cup a solid spacer’s shims follow; a shim one side and an adjuster the other', () => {
    expect(way('dornet', { pinionShim: 1.01, ringSide: 2.75, oppositeSide: 62 })).toEqual([
      'Pinion shim 0.06 mm thicker, pinion in. The pinion comes out and the head bearing’s cup is driven out. Spacer shims 0.06 mm thicker too, to keep the pinion preload.',
      'Ring side 0.08 mm thicker, opposite side 2 notches out: ring in. A side shim changes and an adjuster turns, no bearing is pulled.',
    ]);
  });

  it('under a cartridge a thicker shim moves the pinion out', () => {
    expect(way('elspar', { pinionShim: 1.25 })).toEqual([
      'Pinion shim 0.05 mm thicker, pinion out. The pinion cartridge comes off; its bearings stay together.',
    ]);
    expect(way('elspar', {})).toEqual([]);
  });
});

describe('a place in words', () => {
  const { axle, fields } = drawnMap('borrin');
  const { backlash: limits } = axle.limits;
  const at = (pinionIn: number, ringAway: number) => stateAt(fields, limits, { pinionIn, ringAway });

  it('shims, backlash against the limits, both marks, how far off home', () => {
    const words = placeWords(
      axle,
      { pinionShim: 1.3, ringSide: 5.9, oppositeSide: 6.1 },
      at(-0.05, -0.04),
      mm,
    );
    expect(Object.values(words).map(plain)).toEqual([
      '1.300 mm, pinion 0.05 mm out',
      '5.90 mm and 6.10 mm, ring 0.04 mm in',
      expect.stringMatching(/^0\.15\d mm, within limits$/),
      expect.stringMatching(/^slightly toward the toe, toward the face/),
      expect.stringMatching(/toward the face/),
      expect.stringMatching(/^\d+ %$/),
    ]);
  });

  it('at the design position, in inch', () => {
    const words = placeWords(axle, fittedNow(axle), at(0, 0), inch);
    expect(plain(words.pinion)).toBe('0.0531 in, pinion at design');
    expect(plain(words.sides)).toBe('0.2307 in and 0.2417 in, ring at design');
    expect(plain(words.backlash)).toMatch(/^0\.0067 in, within limits$/);
    expect(words.home).toBe('0 %');
  });

  it('outside the limits by how much, and where the teeth bind', () => {
    const say = (pinionIn: number, ringAway: number) =>
      plain(placeWords(axle, fittedNow(axle), at(pinionIn, ringAway), mm).backlash);
    expect(say(0, -0.2)).toMatch(/^0\.0\d\d mm, too small by 0\.1\d\d mm$/);
    expect(say(0, 0.2)).toMatch(/^0\.3\d\d mm, too large by 0\.1\d\d mm$/);
    expect(say(0.3, -0.3)).toBe('the teeth bind');
  });

  it('edge contact names the edges; nothing solved yet says so', () => {
    expect(placeWords(axle, fittedNow(axle), at(0.3, -0.1), mm).drive).toMatch(/; edge contact: .*root/);
    expect(placeWords(axle, fittedNow(axle), {}, mm)).toMatchObject({
      backlash: 'not worked out yet',
      drive: 'not worked out yet',
      home: 'not worked out yet',
    });
    expect(plain(placeWords(axle, fittedNow(axle), {}, mm).pinion)).toBe('1.350 mm, pinion at design');
  });
});
