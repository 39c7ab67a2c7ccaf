import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { Pose } from '../../sim/contact/pose.ts';
import { LongCore } from '../../sim/worker/longCore.ts';
import type { PatchMoves } from '../../sim/worker/longProtocol.ts';
import { ArrowLayer } from '../../src/flank/ArrowLayer.tsx';
import { FlankMap, type MapFrame } from '../../src/flank/FlankMap.tsx';
import { arrowTimes, placeArrows } from '../../src/flank/moveArrows.ts';
import { moves as texts } from '../../src/text/en/moves.ts';
import { addTexts } from '../../src/text/translate.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';
import { definitionOf, REFERENCE_FILM, solvedSet } from './solved.ts';

addTexts(texts);

const DESIGN: Pose = { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 };
const STEPS = [
  { name: 'pinion', step: { pinionIn: 0.025 } },
  { name: 'ring', step: { ringAway: -0.04 } },
  { name: 'offset', step: { offsetError: 0.01 } },
] as const;
const long = new LongCore();

function movesAt(set: 'a' | 'b', pose: Pose): readonly PatchMoves[] {
  const answer = long.patchMoves({
    kind: 'patchMoves',
    gearSetId: set,
    definition: definitionOf(set),
    pose,
    film: REFERENCE_FILM,
    steps: STEPS.map(({ step }) => step),
  });
  if (!answer.ok) throw new Error(JSON.stringify(answer.failure));
  return answer.value;
}

/** Numbers of one arrow group. */
function drawnArrow(markup: string, name: string): { from: number[]; to: number[] } {
  const found = new RegExp(`data-move="${name}" data-from="([^"]+)" data-to="([^"]+)"`).exec(markup);
  if (found === null) throw new Error(`no arrow ${name} in ${markup.slice(0, 400)}`);
  return { from: found[1].split(' ').map(Number), to: found[2].split(' ').map(Number) };
}

describe.each(['a', 'b'] as const)('move arrows on set %s', (set) => {
  const { loaded, solve } = solvedSet(set);

  it.each(['standard-cut', 'reverse-cut'] as const)(
    'begin at the middle of the mark and end where the solver’s derivative says, %s',
    (hand) => {
      const pose = { ...DESIGN, pinionIn: 0.03, ringAway: 0.02 };
      const result = solve(pose);
      const moves = movesAt(set, pose);
      for (const flank of ['drive', 'coast'] as const) {
        const { toeHeel, rootFace } = result[flank];
        if (toeHeel === null || rootFace === null) throw new Error('no mark');
        const mark = moves.map((one) => one[flank] ?? { toeHeel: Number.NaN, rootFace: Number.NaN });
        const times = 10;
        let frame: MapFrame | null = null;
        const markup = renderToStaticMarkup(
          <FlankMap
            flank={flank}
            outline={loaded.outline}
            hand={hand}
            result={result}
            compoundColour="#2f66b5"
          >
            {(given) => {
              frame = given;
              const list = STEPS.map(({ name }, i) => ({ name, move: mark[i] }));
              return <ArrowLayer frame={given} centre={{ toeHeel, rootFace }} moves={list} times={times} />;
            }}
          </FlankMap>,
        );
        const { place } = frame as unknown as MapFrame;
        STEPS.forEach(({ name, step }, i) => {
          const { from, to } = drawnArrow(markup, name);
          expect(from).toEqual([...place(toeHeel, rootFace)]);
          expect(to).toEqual([
            ...place(toeHeel + times * mark[i].toeHeel, rootFace + times * mark[i].rootFace),
          ]);
          // the derivative is that of two direct solves, half a step to either side
          const half = (sign: number) =>
            solve(
              Object.fromEntries(
                Object.entries({ ...DESIGN, ...pose }).map(([field, value]) => [
                  field,
                  value + (sign / 2) * ((step as Partial<Pose>)[field as keyof Pose] ?? 0),
                ]),
              ),
            )[flank];
          const [before, after] = [half(-1), half(1)];
          expect(mark[i].toeHeel).toBeCloseTo((after.toeHeel ?? 0) - (before.toeHeel ?? 0), 9);
          expect(mark[i].rootFace).toBeCloseTo((after.rootFace ?? 0) - (before.rootFace ?? 0), 9);
        });
        expect(markup).not.toMatch(/NaN|undefined/);
      }
    },
  );
});

describe('the one factor of all arrows', () => {
  const { outline } = solvedSet('a').loaded;
  const mark = (toeHeel: number, rootFace: number, ...moves: [number, number][]) => ({
    toeHeel,
    rootFace,
    moves: moves.map(([u, v]) => ({ toeHeel: u, rootFace: v })),
  });

  it('is the largest with which every tip stays on its flank', () => {
    expect(arrowTimes([mark(0, 0, [0.02, 0.05])], outline)).toBe(20);
    expect(arrowTimes([mark(0, 0.8, [0.02, 0.05])], outline)).toBe(4);
    expect(arrowTimes([mark(0, -0.8, [0.02, 0.05])], outline)).toBe(20);
    // one mark with little room holds both maps back
    expect(arrowTimes([mark(0, 0, [0.02, 0.05]), mark(0, 0.8, [0.02, 0.05])], outline)).toBe(4);
  });

  it('never shrinks the longest to a dot, and is plain 1 without moves', () => {
    expect(arrowTimes([mark(0, 0.99, [0.02, 0.05])], outline)).toBeGreaterThanOrEqual(2);
    expect(arrowTimes([], outline)).toBe(1);
    expect(arrowTimes([mark(0, 0, [0, 0])], outline)).toBe(1);
  });

  it('a fine step is drawn longer than a coarse one, never with its tip off the flank (seed 31)', () => {
    const random = seededRandom(31);
    for (let i = 0; i < 200; i += 1) {
      const u = random.between(-0.5, 0.5);
      const v = random.between(-0.35, 0.35);
      const move: [number, number] = [random.between(-0.05, 0.05), random.between(-0.08, 0.08)];
      const times = arrowTimes([mark(u, v, move)], outline);
      expect(Math.abs(u + times * move[0])).toBeLessThanOrEqual(1);
      expect(Math.abs(v + times * move[1])).toBeLessThanOrEqual(1);
      const fine = arrowTimes([mark(u, v, [move[0] / 25, move[1] / 25])], outline);
      expect(fine).toBeGreaterThan(times);
    }
  });
});

describe('the signs', () => {
  it('keep clear of each other, whatever the directions (seed 8)', () => {
    const random = seededRandom(8);
    for (let run = 0; run < 200; run += 1) {
      const angle = random.between(0, 2 * Math.PI);
      const moves = ['pinion', 'ring', 'offset', 'angle'].map((name) => ({
        name,
        move: { toeHeel: 0.1 * Math.cos(angle), rootFace: 0.1 * Math.sin(angle) + random.between(0, 0.02) },
      }));
      const arrows = placeArrows({ toeHeel: 0, rootFace: 0 }, moves, 1, (u, v) => [200 * u, 60 * v]);
      for (const [i, a] of arrows.entries()) {
        for (const b of arrows.slice(i + 1)) {
          expect(Math.hypot(a.sign[0] - b.sign[0], a.sign[1] - b.sign[1])).toBeGreaterThanOrEqual(15);
        }
      }
    }
  });
});

it('every practice axle has arrows for pinion and ring on both flanks as it is designed', () => {
  for (const { definition, film } of SHIPPED_SETS) {
    const answer = long.patchMoves({
      kind: 'patchMoves',
      gearSetId: 'x',
      definition,
      pose: DESIGN,
      film,
      steps: [{ pinionIn: 0.025 }, { ringAway: -0.04 }],
    });
    for (const moves of answer.ok ? answer.value : []) {
      expect(moves.drive).not.toBeNull();
      expect(moves.coast).not.toBeNull();
    }
    expect(answer.ok).toBe(true);
  }
});
