import { EDGE_BIT } from '../contact/patch.ts';
import { EDGES, type EdgeName } from '../contact/report.ts';
import { FLANKS, type FlankName } from '../gearset/definition.ts';
import type { Candidate } from './adviceCandidates.ts';
import type { AdviceTarget, Foresight, MarkOutcome } from './adviceOutcome.ts';
import { grants, scoreOutcome, statedScore, WISHES, type Wish } from './adviceScore.ts';

export interface Spread {
  /** NaN where no state shows it at all, as the place of a mark that is not there */
  readonly mean: number;
  readonly sd: number;
}

/** A mark as it is expected, over all states the axle may be in. */
export interface ExpectedMark {
  readonly toeHeel: Spread;
  readonly rootFace: Spread;
  readonly length: Spread;
  readonly height: Spread;
  /** chance that the mark reaches each border */
  readonly edges: Readonly<Record<EdgeName, number>>;
}

/** What paint and dial are expected to show. */
export interface Expected {
  readonly drive: ExpectedMark;
  readonly coast: ExpectedMark;
  /** mm, square, middle of the places */
  readonly backlash: Spread;
  /** mm, square, at each place read */
  readonly places: readonly Spread[];
  /** chance that each wish is met */
  readonly met: Readonly<Record<Wish, number>>;
  /** chance that all of them are */
  readonly allMet: number;
  /** mean score, 0 = nothing to improve */
  readonly score: number;
}

class Tally {
  private count = 0;
  private mean = 0;
  private squares = 0;

  add(value: number): void {
    if (!Number.isFinite(value)) return;
    this.count++;
    const off = value - this.mean;
    this.mean += off / this.count;
    this.squares += off * (value - this.mean);
  }

  spread(): Spread {
    return {
      mean: this.count > 0 ? this.mean : Number.NaN,
      sd: this.count > 1 ? Math.sqrt(this.squares / (this.count - 1)) : 0,
    };
  }
}

const createMarkTally = () => ({
  toeHeel: new Tally(),
  rootFace: new Tally(),
  length: new Tally(),
  height: new Tally(),
  edges: { toe: 0, heel: 0, face: 0, root: 0 } as Record<EdgeName, number>,
});

/** What paint and dial will show after a move, over all states. */
export const foretell = (
  { pinionIn, ringAway }: Pick<Candidate, 'pinionIn' | 'ringAway'>,
  foresight: Foresight,
  target: AdviceTarget,
): Expected => {
  const marks = { drive: createMarkTally(), coast: createMarkTally() };
  const dial = new Tally();
  const places = Array.from({ length: foresight.places }, () => new Tally());
  const met = { turnsFreely: 0, backlash: 0, noEdge: 0, drive: 0, coast: 0 } as Record<Wish, number>;
  const share = 1 / foresight.states;
  let score = 0;
  let allMet = 0;
  for (let k = 0; k < foresight.states; k++) {
    const outcome = foresight.predict(k, pinionIn, ringAway);
    for (const flank of FLANKS) tallyMark(marks[flank], outcome[flank], share);
    dial.add(outcome.backlash);
    for (const [i, place] of places.entries()) place.add(outcome.backlash + outcome.places[i]);
    for (const wish of WISHES) if (grants(wish, outcome, target)) met[wish] += share;
    if (statedScore(outcome, target) === 0) allMet += share;
    score += share * scoreOutcome(outcome, target);
  }
  const spreadOf = (flank: FlankName): ExpectedMark => {
    const { toeHeel, rootFace, length, height, edges } = marks[flank];
    return {
      toeHeel: toeHeel.spread(),
      rootFace: rootFace.spread(),
      length: length.spread(),
      height: height.spread(),
      edges,
    };
  };
  return {
    drive: spreadOf('drive'),
    coast: spreadOf('coast'),
    backlash: dial.spread(),
    places: places.map((place) => place.spread()),
    met,
    allMet,
    score,
  };
};

const tallyMark = (tally: ReturnType<typeof createMarkTally>, mark: MarkOutcome, share: number): void => {
  tally.toeHeel.add(mark.toeHeel);
  tally.rootFace.add(mark.rootFace);
  tally.length.add(mark.length);
  tally.height.add(mark.height);
  for (const edge of EDGES) if ((mark.edges & EDGE_BIT[edge]) !== 0) tally.edges[edge] += share;
};
