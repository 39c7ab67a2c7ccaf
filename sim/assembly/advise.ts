import { EDGE_BIT } from '../contact/patch.ts';
import { EDGES, type EdgeName } from '../contact/report.ts';
import { FLANKS, type FlankName } from '../gearset/definition.ts';
import { type Candidate, candidatesAround, pinionChoices, pinionMove } from './adviceCandidates.ts';
import { type Cost, costsOf, costWeight } from './adviceCost.ts';
import { type AdviceTarget, createOutcome, type Foresight, type MarkOutcome } from './adviceOutcome.ts';
import { grants, scoreOutcome, WISHES, type Wish } from './adviceScore.ts';
import {
  explainPinionShim,
  explainSides,
  type PinionShimExplanation,
  type SidesExplanation,
} from './explain.ts';
import type { AxleHardware, Fitment, SideDevice } from './hardware.ts';
import { type PinionPreloadEffect, pinionPreloadEffect } from './pinionDepth.ts';
import { fineness, preloadChange } from './sides.ts';
import { stackFor } from './stock.ts';

export interface Spread {
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
  /** mean score, 0 = nothing to improve */
  readonly score: number;
}

/** A change of shims worked out to the last shim. */
export interface ShimChange {
  readonly fitment: Fitment;
  /** mm */
  readonly move: { readonly pinionIn: number; readonly ringAway: number };
  readonly pinionShim: PinionShimExplanation;
  readonly sides: SidesExplanation;
  /** mm, shims to lay together, thickest first; null for an adjuster, and where what stays fitted is no stock total */
  readonly stacks: {
    readonly pinionShim: readonly number[] | null;
    readonly ringSide: readonly number[] | null;
    readonly oppositeSide: readonly number[] | null;
  };
  /** what the pinion shim asks of spacer or sleeve */
  readonly pinionPreload: PinionPreloadEffect;
  /** mm of squeeze on the carrier bearings over the present */
  readonly carrierPreload: number;
  readonly costs: readonly Cost[];
  /** pinion and ring both move, in one teardown */
  readonly both: boolean;
  readonly expected: Expected;
  /** chance that the score gets worse */
  readonly chanceWorse: number;
}

/** The shims to fit next. */
export interface Advice {
  /** leave: nothing within reach is worth the work */
  readonly kind: 'change' | 'leave';
  readonly present: Fitment;
  readonly now: Expected;
  /** what to fit; null when nothing is to be changed */
  readonly change: ShimChange | null;
  /** the next best change that costs less, where there is one worth naming */
  readonly cheaper: ShimChange | null;
  /** wishes that no fitment within reach is likely to meet, and wishes that each could be met but not together */
  readonly outOfReach: readonly Wish[];
  readonly notTogether: readonly Wish[];
  readonly target: AdviceTarget;
}

/** States looked at while sifting candidates, and for the few that remain. */
const SIFT_STATES = 14;
const FINALISTS = 14;
/** A change may make things worse in at most this share of the states. */
const MOST_WORSE = 0.1;
/** A wish counts as likely met from here on. */
const LIKELY = 0.5;
/** A cheaper change is named when it leaves no more than this much more score. */
const NEARLY_AS_GOOD = 1.5;
/** mm of square reading per mm of ring, a start for finding the ring's place (docs/model.md §8) */
const DIAL_SLOPE = 0.72;
const DIAL_SLOPE_PINION = -0.28;

interface Judged {
  readonly candidate: Candidate;
  readonly costs: readonly Cost[];
  /** score in every state */
  readonly scores: Float64Array;
  readonly mean: number;
}

/**
 * The real fitment with the best expected score over the states the axle may be in (docs/model.md §13). Every state
 * agrees with what was seen, so what is unknown about the set moves present and future alike.
 */
export const advise = (
  hardware: AxleHardware,
  present: Fitment,
  foresight: Foresight,
  target: AdviceTarget,
): Advice => {
  const judge = (candidate: Candidate, states: number): Judged => {
    const outcome = createOutcome();
    const scores = new Float64Array(states);
    let sum = 0;
    for (let k = 0; k < states; k++) {
      foresight.predict(stateOf(k, states, foresight), candidate.pinionIn, candidate.ringAway, outcome);
      scores[k] = scoreOutcome(outcome, target);
      sum += scores[k];
    }
    const costs = costsOf(hardware, present, candidate.fitment);
    return { candidate, costs, scores, mean: sum / states };
  };
  const stay: Candidate = { fitment: present, pinionIn: 0, ringAway: 0 };
  const now = judge(stay, foresight.states);
  const sifted = sift(hardware, present, foresight, target, judge);
  const finalists = refine(hardware, present, sifted, judge).map((candidate) =>
    judge(candidate, foresight.states),
  );
