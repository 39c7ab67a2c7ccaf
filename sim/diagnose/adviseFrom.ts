import type { AdviceTarget, MarkTarget } from '../assembly/adviceOutcome.ts';
import { type Advice, advise, stepsOf } from '../assembly/advise.ts';
import type { DialDirection } from '../assembly/dial.ts';
import type { AxleHardware, Fitment } from '../assembly/hardware.ts';
import { DESIGN_POSE } from '../contact/pose.ts';
import type { FlankName } from '../gearset/definition.ts';
import type { DiagnosisWithDraws } from './diagnose.ts';
import { measuresOf, middleOfReadings, placesOf, type ReadingName } from './evidence.ts';
import { foreseeFrom } from './foresee.ts';
import type { ForwardModel } from './forwardModel.ts';
import type { NextReading } from './nextReading.ts';
import type { Observation, SeenMark } from './observation.ts';
import { FILM_AT, layOut } from './unknowns.ts';

/** What the axle allows at the dial. */
export interface BacklashLimits {
  /** mm, read as `reads` says */
  readonly min: number;
  readonly max: number;
  readonly reads: DialDirection;
}

export interface AdviseOptions {
  readonly hardware: AxleHardware;
  readonly present: Fitment;
  readonly limits: BacklashLimits;
  /** mm, film of the workshop, as for the diagnosis */
  readonly film: number;
  /** a used set: what was recorded before teardown is the target; null for a new set */
  readonly recorded: Observation | null;
  /** how often the present shims were looked at before this; none by default */
  readonly looksBefore?: number;
}

/** Advice, or why there is none. Plain data. */
export type AdviceAnswer =
  | { readonly kind: 'refused'; readonly readings: readonly ReadingName[] }
  | (Advice & {
      /** the housing is at fault: shims can only make the best of it */
      readonly housingFirst: boolean;
      /** what to look at once more before anything is taken apart; null when the choice is sure enough or cannot be helped so */
      readonly lookFirst: NextReading | null;
      /** true where the place found is less sure than one shim step */
      readonly exceedsStep: { readonly pinionIn: boolean; readonly ringAway: boolean };
    });

/** In flank coordinates: how near to its target a mark counts as in place. */
const PLACE_TOLERANCE: Readonly<Record<FlankName, number>> = { drive: 0.2, coast: 0.3 };
/** Chance that all is right after the change from which on another look is not asked for. */
const SURE = 0.95;
/** Looks at the same shims after which no other is asked for: the next one would tell little that these did not. */
const LOOKS_ENOUGH = 4;
/** A new set is aimed this much toward the toe, because load spreads the contact toward the heel. */
const TOEWARD = -0.1;
/** mm to either side of the recorded reading of a used set */
const RECORDED_HALF_WIDTH = 0.03;

/** Middle of the part of the flank that has a pinion tooth opposite, slightly to the toe. */
const newSetTarget = (model: ForwardModel): MarkTarget => {
  model.setPose([DESIGN_POSE.pinionIn, DESIGN_POSE.ringAway, 0, 0], 0, 0, 0);
  return { toeHeel: TOEWARD, rootFace: (model.tipLine() + 1) / 2 };
};

const placeOf = (mark: SeenMark | null, otherwise: MarkTarget): MarkTarget => {
  if (!mark) return otherwise;
  if (mark.kind === 'descriptors') return { toeHeel: mark.toeHeel, rootFace: mark.rootFace };
  return measuresOf(mark) ?? otherwise;
};

export const targetFor = (
  model: ForwardModel,
  { limits, recorded }: Pick<AdviseOptions, 'limits' | 'recorded'>,
): AdviceTarget => {
  const perSquare = limits.reads === 'square' ? 1 : model.tangentialPerSquare;
  const min = limits.min / perSquare;
  const max = limits.max / perSquare;
  const middle = newSetTarget(model);
  if (!recorded) {
    return {
      drive: middle,
      coast: middle,
      backlash: { min, max, best: (min + max) / 2 },
      tolerance: PLACE_TOLERANCE,
    };
  }
  const before = middleOfReadings(recorded.backlash, recorded.uncertainty.backlash);
  return {
    drive: placeOf(recorded.drive, middle),
    coast: placeOf(recorded.coast, middle),
    backlash: before
      ? {
          min: before.mean - RECORDED_HALF_WIDTH,
          max: before.mean + RECORDED_HALF_WIDTH,
          best: before.mean,
        }
      : { min, max, best: (min + max) / 2 },
    tolerance: PLACE_TOLERANCE,
  };
};

/** The shims to fit next, from a diagnosis of the same observation (docs/model.md §13). */
export const adviseFrom = (
  model: ForwardModel,
  seen: Observation,
  diagnosis: DiagnosisWithDraws,
  options: AdviseOptions,
): AdviceAnswer => {
  const { contradiction, posterior, regime, shimmable } = diagnosis;
  if (contradiction) return { kind: 'refused', readings: contradiction.readings };
  const sightings =
    regime === 'known' ? posterior.count - FILM_AT : posterior.count - layOut('unknown', 0).count;
  const layout = layOut(regime, sightings);
  const target = targetFor(model, options);
  const foresight = foreseeFrom(model, posterior, layout, {
    film: options.film,
    places: placesOf(seen.backlash, seen.uncertainty.backlash),
  });
  const advice = advise(options.hardware, options.present, foresight, target);
  const steps = stepsOf(options.hardware);
  const { allMet } = advice.change?.expected ?? advice.now;
  const { looksBefore = 0 } = options;
  return {
    ...advice,
    housingFirst: shimmable === false,
    lookFirst: allMet < SURE && looksBefore + 1 < LOOKS_ENOUGH ? diagnosis.lookAgain : null,
    exceedsStep: {
      pinionIn: diagnosis.decision.pinionIn > steps.pinionIn,
      ringAway: diagnosis.decision.ringAway > steps.ringAway,
    },
  };
};
