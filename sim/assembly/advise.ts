import { type Candidate, candidatesAround, pinionChoices, pinionMove } from './adviceCandidates.ts';
import { type Cost, costsOf, costWeight } from './adviceCost.ts';
import { type AdviceTarget, type Foresight, remembering } from './adviceOutcome.ts';
import { grants, scoreOutcome, statedScore, WISHES, type Wish } from './adviceScore.ts';
import {
  explainPinionShim,
  explainSides,
  type PinionShimExplanation,
  type SidesExplanation,
} from './explain.ts';
import { type Expected, foretell } from './foretell.ts';
import type { AxleHardware, Fitment, SideDevice } from './hardware.ts';
import { type PinionPreloadEffect, pinionPreloadEffect } from './pinionDepth.ts';
import { fineness, preloadChange } from './sides.ts';
import { stackFor } from './stock.ts';

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
  /** chance that the stated score gets worse */
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

/** Candidates are sifted by a few states first, the better ones by more, the best by all. */
const GLANCE_STATES = 4;
const SIFT_STATES = 14;
const SIFTED = 24;
const FINALISTS = 9;
/** A change may make things worse in at most this share of the states. */
const MOST_WORSE = 0.08;
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
  /** stated score in every state */
  readonly stated: Float64Array;
  readonly mean: number;
}

/**
 * The real fitment with the best expected score over the states the axle may be in (docs/model.md §13). Every state
 * agrees with what was seen, so what is unknown about the set moves present and future alike.
 */
export const advise = (
  hardware: AxleHardware,
  present: Fitment,
  given: Foresight,
  target: AdviceTarget,
): Advice => {
  const foresight = remembering(given);
  const judge = (candidate: Candidate, states: number): Judged => {
    const stated = new Float64Array(states);
    let sum = 0;
    for (let k = 0; k < states; k++) {
      const outcome = foresight.predict(
        stateOf(k, states, foresight),
        candidate.pinionIn,
        candidate.ringAway,
      );
      sum += scoreOutcome(outcome, target);
      stated[k] = statedScore(outcome, target);
    }
    const costs = costsOf(hardware, present, candidate.fitment);
    return { candidate, costs, stated, mean: sum / states };
  };
  const stay: Candidate = { fitment: present, pinionIn: 0, ringAway: 0 };
  const now = judge(stay, foresight.states);
  const sifted = sift(hardware, present, foresight, target, judge);
  const finalists = refine(hardware, present, sifted, judge).map((candidate) =>
    judge(candidate, foresight.states),
  );
  // nothing is taken apart to make better what is right enough: what is asked for and not given must get less, and what
  // is likely all right must get likelier
  const asked = meanOf(now.stated);
  const right = chanceRight(now.stated);
  const allowed = finalists.filter(
    ({ stated }) =>
      chanceWorse(now.stated, stated) <= MOST_WORSE &&
      meanOf(stated) < asked &&
      (right < LIKELY || chanceRight(stated) > right),
  );
  const worth = (one: Judged): number => one.mean + costWeight(one.costs);
  const best = least(allowed, worth);
  const chosen = best && worth(best) < now.mean ? best : null;
  const tell = (one: Judged): ShimChange =>
    tellChange(hardware, present, one, foresight, target, chanceWorse(now.stated, one.stated));
  const cheaper = chosen
    ? least(
        allowed.filter(
          (one) =>
            costWeight(one.costs) < costWeight(chosen.costs) - 1e-9 &&
            one.mean < chosen.mean + NEARLY_AS_GOOD &&
            worth(one) < now.mean,
        ),
        worth,
      )
    : null;
  const change = chosen ? tell(chosen) : null;
  const final = change ? change.expected : foretell(stay, foresight, target);
  const reach = withinReach([now, ...finalists], foresight, target);
  const unmet = WISHES.filter((wish) => final.met[wish] < LIKELY);
  return {
    kind: change ? 'change' : 'leave',
    present,
    now: foretell(stay, foresight, target),
    change,
    cheaper: cheaper ? tell(cheaper) : null,
    outOfReach: unmet.filter((wish) => !reach.has(wish)),
    notTogether: unmet.filter((wish) => reach.has(wish)),
    target,
  };
};

/** States spread over all of them. */
const stateOf = (k: number, states: number, foresight: Foresight): number =>
  states === foresight.states ? k : Math.floor(((k + 0.5) * foresight.states) / states);

const least = <T>(items: readonly T[], of: (item: T) => number): T | null =>
  items.reduce<T | null>((best, item) => (best === null || of(item) < of(best) ? item : best), null);

const meanOf = (values: Float64Array): number => values.reduce((sum, one) => sum + one, 0) / values.length;

const chanceRight = (stated: Float64Array): number =>
  stated.reduce((sum, one) => sum + (one === 0 ? 1 : 0), 0) / stated.length;

const chanceWorse = (before: Float64Array, after: Float64Array): number => {
  let worse = 0;
  for (let k = 0; k < before.length; k++) if (after[k] > before[k]) worse++;
  return worse / before.length;
};

/** Every pinion shim with the ring where the dial is best, and a step to either hand: the best few, in few states. */
const sift = (
  hardware: AxleHardware,
  present: Fitment,
  foresight: Foresight,
  target: AdviceTarget,
  judge: (candidate: Candidate, states: number) => Judged,
): readonly Judged[] => {
  let middle = 0;
  let counted = 0;
  for (let k = 0; k < SIFT_STATES; k++) {
    const { backlash } = foresight.predict(stateOf(k, SIFT_STATES, foresight), 0, 0);
    if (Number.isNaN(backlash)) continue;
    middle += backlash;
    counted++;
  }
  const missing = counted > 0 ? target.backlash.best - middle / counted : 0;
  const all = pinionChoices(hardware, present).flatMap((pinionShim) => {
    const moved = pinionMove(hardware, present, pinionShim);
    const ringAway = (missing - DIAL_SLOPE_PINION * moved) / DIAL_SLOPE;
    return candidatesAround(hardware, present, pinionShim, ringAway, 1, true);
  });
  const glanced = all.map((candidate) => judge(candidate, GLANCE_STATES)).sort(byWorth);
  const sideOnly = glanced.filter(({ candidate }) => candidate.pinionIn === 0).slice(0, 3);
  return [...new Set([...glanced.slice(0, SIFTED), ...sideOnly])]
    .map(({ candidate }) => judge(candidate, SIFT_STATES))
    .sort(byWorth);
};

const byWorth = (a: Judged, b: Judged): number => a.mean + costWeight(a.costs) - b.mean - costWeight(b.costs);

/** The best of the sifting and their neighbours, none twice; the best without a pinion move always among them. */
const refine = (
  hardware: AxleHardware,
  present: Fitment,
  sifted: readonly Judged[],
  judge: (candidate: Candidate, states: number) => Judged,
): readonly Candidate[] => {
  const key = ({ fitment }: Candidate): string =>
    `${fitment.pinionShim.toFixed(6)} ${fitment.ringSide.toFixed(6)} ${fitment.oppositeSide.toFixed(6)}`;
  const known = new Map<string, Judged>();
  for (const one of sifted) known.set(key(one.candidate), one);
  for (const { candidate } of sifted.slice(0, 4)) {
    const { pinionShim } = candidate.fitment;
    for (const next of candidatesAround(hardware, present, pinionShim, candidate.ringAway, 2, false)) {
      if (!known.has(key(next))) known.set(key(next), judge(next, SIFT_STATES));
    }
  }
  const sorted = [...known.values()].sort(byWorth);
  const best = sorted.slice(0, FINALISTS).map(({ candidate }) => candidate);
  const sideOnly = sorted.filter(({ candidate }) => candidate.pinionIn === 0).slice(0, 2);
  for (const { candidate } of sideOnly) if (!best.includes(candidate)) best.push(candidate);
  return best.filter(({ pinionIn, ringAway }) => pinionIn !== 0 || ringAway !== 0);
};

/** Wishes that at least one fitment looked at is likely to meet. */
const withinReach = (
  judged: readonly Judged[],
  foresight: Foresight,
  target: AdviceTarget,
): ReadonlySet<Wish> => {
  const found = new Set<Wish>();
  for (const { candidate } of judged) {
    const counts = new Map<Wish, number>();
    for (let k = 0; k < SIFT_STATES; k++) {
      const outcome = foresight.predict(
        stateOf(k, SIFT_STATES, foresight),
        candidate.pinionIn,
        candidate.ringAway,
      );
      for (const wish of WISHES) {
        if (grants(wish, outcome, target)) counts.set(wish, (counts.get(wish) ?? 0) + 1);
      }
    }
    for (const [wish, count] of counts) if (count >= LIKELY * SIFT_STATES) found.add(wish);
  }
  return found;
};

const tellChange = (
  hardware: AxleHardware,
  present: Fitment,
  { candidate, costs }: Judged,
  foresight: Foresight,
  target: AdviceTarget,
  worse: number,
): ShimChange => {
  const { fitment, pinionIn, ringAway } = candidate;
  const { pinionShim, sides, spacer } = hardware;
  const stackOf = (device: SideDevice, setting: number): readonly number[] | null =>
    device.kind === 'adjuster' ? null : stackFor(device.stock, setting);
  return {
    fitment,
    move: { pinionIn, ringAway },
    pinionShim: explainPinionShim(pinionShim.place, present.pinionShim, fitment.pinionShim),
    sides: explainSides(hardware, present, fitment),
    stacks: {
      pinionShim: stackFor(pinionShim.stock, fitment.pinionShim),
      ringSide: stackOf(sides.ringSide, fitment.ringSide),
      oppositeSide: stackOf(sides.oppositeSide, fitment.oppositeSide),
    },
    pinionPreload: pinionPreloadEffect(
      pinionShim.place,
      spacer,
      Math.round((fitment.pinionShim - present.pinionShim) * 1e7) / 1e7,
    ),
    carrierPreload: preloadChange(sides, fitment) - preloadChange(sides, present),
    costs,
    both: pinionIn !== 0 && Math.abs(ringAway) > 1e-9,
    expected: foretell(candidate, foresight, target),
    chanceWorse: worse,
  };
};

/** mm, smallest change of the pinion shim and of the coarser side. */
export const stepsOf = ({
  pinionShim,
  sides,
}: AxleHardware): { readonly pinionIn: number; readonly ringAway: number } => ({
  pinionIn: pinionShim.stock.step,
  ringAway: Math.max(fineness(sides.ringSide), fineness(sides.oppositeSide)),
});
