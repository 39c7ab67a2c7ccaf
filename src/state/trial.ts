import type { Fitment } from '../../sim/assembly/hardware.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { Expected, ExpectedMark, MatchAnswer, Spread } from '../../sim/worker/diagnoseProtocol.ts';
import type { EarlierLook, Look, RecordedLook } from './look.ts';
import { sameMark } from './paintedMark.ts';

/** What was fitted and seen, with all that the answer rested on: opened again it gives the same answer. */
export type TrialLook = Omit<Look, 'axleId'>;

/** Where a mark is expected, in flank coordinates; null: no mark. */
export interface PredictedMark {
  readonly toeHeel: Spread | null;
  readonly rootFace: Spread | null;
}

/** What paint and dial should show with the advised shims in, or with the present ones where they are to stay. */
export type Predicted = Readonly<Record<FlankName, PredictedMark>> & {
  /** mm, square, middle of the places */
  readonly dial: Spread | null;
  /** chance that all is right then */
  readonly allRight: number;
};

export interface Advised {
  readonly kind: 'change' | 'leave' | 'refused';
  /** what to fit; null where nothing is to be changed */
  readonly fitment: Fitment | null;
  /** mm */
  readonly move: { readonly pinionIn: number; readonly ringAway: number } | null;
  /** null where what was seen contradicted itself */
  readonly predicted: Predicted | null;
}

export interface Found {
  /** mm, degrees for the shaft angle */
  readonly pose: Readonly<Record<keyof Pose, Spread>>;
  /** null: not known */
  readonly shimmable: boolean | null;
}

/** One look at an axle as it goes into the record of a job: what was seen, what it meant, what was advised. Plain data. */
export interface Trial {
  readonly id: string;
  readonly axleId: string;
  /** counts the trials of its axle; stays when others are deleted */
  readonly number: number;
  /** ISO time, UTC */
  readonly when: string;
  readonly look: TrialLook;
  readonly found: Found;
  readonly advised: Advised;
  /** what the person wrote to it; may be empty */
  readonly note: string;
}

export const MOST_NOTE_CHARACTERS = 200;

/** A µm is 0.001: six decimals are more than the answer is worth. */
const tidy = (value: number): number => Number(value.toFixed(6)) + 0;

const tidySpread = ({ mean, sd }: Spread): Spread => ({ mean: tidy(mean), sd: tidy(sd) });
const spreadOrNull = (spread: Spread): Spread | null =>
  Number.isFinite(spread.mean) && Number.isFinite(spread.sd) ? tidySpread(spread) : null;

const tidyFitment = ({ pinionShim, ringSide, oppositeSide }: Fitment): Fitment => ({
  pinionShim: tidy(pinionShim),
  ringSide: tidy(ringSide),
  oppositeSide: tidy(oppositeSide),
});

const predictedMark = ({ toeHeel, rootFace }: ExpectedMark): PredictedMark => ({
  toeHeel: spreadOrNull(toeHeel),
  rootFace: spreadOrNull(rootFace),
});

const predictedOf = ({ drive, coast, backlash, allMet }: Expected): Predicted => ({
  drive: predictedMark(drive),
  coast: predictedMark(coast),
  dial: spreadOrNull(backlash),
  allRight: tidy(allMet),
});

export function foundIn({ diagnosis: { pose, shimmable } }: Pick<MatchAnswer, 'diagnosis'>): Found {
  return {
    pose: {
      pinionIn: tidySpread(pose.pinionIn),
      ringAway: tidySpread(pose.ringAway),
      offsetError: tidySpread(pose.offsetError),
      shaftAngleError: tidySpread(pose.shaftAngleError),
    },
    shimmable,
  };
}

export function advisedBy({ advice }: Pick<MatchAnswer, 'advice'>): Advised {
  if (advice.kind === 'refused') return { kind: 'refused', fitment: null, move: null, predicted: null };
  const { kind, change, now } = advice;
  return {
    kind,
    fitment: change && tidyFitment(change.fitment),
    move: change && { pinionIn: tidy(change.move.pinionIn), ringAway: tidy(change.move.ringAway) },
    predicted: predictedOf(change?.expected ?? now),
  };
}

const sameRecorded = (a: RecordedLook | null, b: RecordedLook | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    a.sureness === b.sureness &&
    a.readings.length === b.readings.length &&
    a.readings.every((reading, k) => reading === b.readings[k]) &&
    sameMark(a.drive, b.drive) &&
    sameMark(a.coast, b.coast));

const sameFitment = (a: Fitment, b: Fitment): boolean =>
  a.pinionShim === b.pinionShim && a.ringSide === b.ringSide && a.oppositeSide === b.oppositeSide;

const sameEarlier = (a: EarlierLook, b: EarlierLook): boolean =>
  sameFitment(a.fitment, b.fitment) && sameRecorded(a, b);

/** Whether two looks at one axle are the very same, down to what the answer rests on besides. */
export const sameTrialLook = (a: TrialLook, b: TrialLook): boolean =>
  a.manner === b.manner &&
  a.gears === b.gears &&
  a.cut === b.cut &&
  sameEarlier(a, b) &&
  sameRecorded(a.recorded, b.recorded) &&
  a.earlier.length === b.earlier.length &&
  a.earlier.every((one, k) => sameEarlier(one, b.earlier[k]));
