import type { AdviceTarget, MarkOutcome, MarkTarget, Outcome } from './adviceOutcome.ts';

/**
 * How far an outcome is from right, 0 = nothing to improve (docs/model.md §13). Each rank outweighs everything below
 * it: no binding, backlash inside its limits at every place, no edge contact, then the places of the marks and of the
 * dial within its limits.
 */
const SCORE = {
  binding: 1000,
  /** for any place outside, and per half width of the limits that the worst place is outside */
  backlash: 60,
  backlashPerHalfWidth: 30,
  /** per border a mark reaches */
  edge: 6,
  /** most that a mark's place can count, and at one tolerance off */
  drive: 3.5,
  coast: 1.5,
  /** the dial at the end of its limits, or beyond */
  dial: 0.5,
  /** anything asked for and not given: what is all right in one state and half right in another is no compromise */
  notAll: 12,
} as const;

const EDGE_COUNT = [0, 1, 1, 2, 1, 2, 2, 3, 1, 2, 2, 3, 2, 3, 3, 4] as const;

/** Within this share of a tolerance a mark or the dial is in place, and nearer is no better. */
const IN_PLACE = 0.5;

/** How far out of place a mark is: 0 in place, toward 1 far off. */
const placeTerm = (mark: MarkOutcome, target: MarkTarget, tolerance: number): number => {
  const du = Math.max(0, Math.abs(mark.toeHeel - target.toeHeel) / tolerance - IN_PLACE);
  const dv = Math.max(0, Math.abs(mark.rootFace - target.rootFace) / tolerance - IN_PLACE);
  const squares = du * du + dv * dv;
  return Number.isNaN(squares) ? 1 : squares / (squares + 1);
};

export const scoreOutcome = (outcome: Outcome, target: AdviceTarget): number => {
  const { min, max, best } = target.backlash;
  const half = (max - min) / 2;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const place of outcome.places) {
    least = Math.min(least, outcome.backlash + place);
    most = Math.max(most, outcome.backlash + place);
  }
  let score = 0;
  if (!(least > 0)) score += SCORE.binding;
  const outside = Math.max(min - least, most - max);
  if (!(outside <= 0)) {
    score +=
      SCORE.backlash + SCORE.backlashPerHalfWidth * Math.min(10, Number.isNaN(outside) ? 10 : outside / half);
  }
  score += SCORE.edge * (EDGE_COUNT[outcome.drive.edges] + EDGE_COUNT[outcome.coast.edges]);
  score += SCORE.drive * placeTerm(outcome.drive, target.drive, target.tolerance.drive);
  score += SCORE.coast * placeTerm(outcome.coast, target.coast, target.tolerance.coast);
  const off = Math.max(0, Math.abs(outcome.backlash - best) / half - IN_PLACE);
  score += SCORE.dial * Math.min(1, Number.isNaN(off) ? 1 : off / (1 - IN_PLACE));
  return statedScore(outcome, target) > 0 ? score + SCORE.notAll : score;
};

/**
 * The stated score of an outcome: what is asked for and not given, each wish outweighing all after it. 0: all is well.
 * A change makes things worse when this gets larger.
 */
export const statedScore = (outcome: Outcome, target: AdviceTarget): number =>
  WISHES.reduce((sum, wish) => sum + (grants(wish, outcome, target) ? 0 : RANK[wish]), 0);

/** Which of the things asked for an outcome gives, the most important first. */
export const WISHES = ['turnsFreely', 'backlash', 'noEdge', 'drive', 'coast'] as const;
export type Wish = (typeof WISHES)[number];

const RANK: Readonly<Record<Wish, number>> = { turnsFreely: 16, backlash: 8, noEdge: 4, drive: 2, coast: 1 };

/** True where the wish is met; `drive` and `coast` are the places of the marks, each coordinate within its tolerance. */
export const grants = (wish: Wish, outcome: Outcome, target: AdviceTarget): boolean => {
  const { min, max } = target.backlash;
  switch (wish) {
    case 'turnsFreely':
      return outcome.places.every((place) => outcome.backlash + place > 0);
    case 'backlash':
      return outcome.places.every(
        (place) => outcome.backlash + place >= min && outcome.backlash + place <= max,
      );
    case 'noEdge':
      return outcome.drive.edges === 0 && outcome.coast.edges === 0;
    case 'drive':
    case 'coast': {
      const tolerance = target.tolerance[wish];
      const mark = outcome[wish];
      return (
        Math.abs(mark.toeHeel - target[wish].toeHeel) <= tolerance &&
        Math.abs(mark.rootFace - target[wish].rootFace) <= tolerance
      );
    }
  }
};
