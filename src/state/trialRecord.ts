import type { Parsed } from '../../models/problem.ts';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import type { Spread } from '../../sim/worker/diagnoseProtocol.ts';
import {
  judged,
  listOf,
  numberIn,
  objectOf,
  oneOf,
  orNull,
  type Read,
  readFields,
  wholeIn,
} from '../storage/fields.ts';
import {
  CUTS,
  DIAL_MANNERS,
  type EarlierLook,
  GEARS,
  MOST_READINGS,
  type RecordedLook,
  SURENESSES,
} from './look.ts';
import { readMark, writeMark } from './lookRecord.ts';
import type { PaintedMark } from './paintedMark.ts';
import {
  type Advised,
  type Found,
  MOST_NOTE_CHARACTERS,
  type Predicted,
  type PredictedMark,
  type Trial,
  type TrialLook,
} from './trial.ts';

/** More than any version of the diagnosis uses. */
const MOST_EARLIER = 20;

const spread = (most: number): Read<Spread> =>
  objectOf<Spread>({ mean: numberIn(-most, most), sd: numberIn(0, most) });

/** A form that would be written otherwise than it was found is not ours. */
const mark: Read<PaintedMark> = judged('columns, rows and the bits of a mark', (value) => {
  const read = readMark(value);
  if (read === undefined || Object.keys(value as object).length !== 3) return undefined;
  return writeMark(read).bits === (value as { readonly bits: string }).bits ? read : undefined;
});

const setting = numberIn(-1000, 1000);
const fitment: Read<Fitment> = objectOf<Fitment>({
  pinionShim: setting,
  ringSide: setting,
  oppositeSide: setting,
});

const seen = {
  drive: orNull(mark),
  coast: orNull(mark),
  readings: listOf(numberIn(-10, 10), MOST_READINGS),
  sureness: oneOf(SURENESSES),
};

const look: Read<TrialLook> = objectOf<TrialLook>({
  ...seen,
  fitment,
  manner: oneOf(DIAL_MANNERS),
  gears: oneOf(GEARS),
  cut: oneOf(CUTS),
  recorded: orNull(objectOf<RecordedLook>(seen)),
  earlier: listOf(objectOf<EarlierLook>({ ...seen, fitment }), MOST_EARLIER),
});

const place = spread(100);
const found: Read<Found> = objectOf<Found>({
  pose: objectOf<Record<keyof Pose, Spread>>({
    pinionIn: place,
    ringAway: place,
    offsetError: place,
    shaftAngleError: place,
  }),
  shimmable: oneOf([true, false, null]),
});

const predictedMark: Read<PredictedMark> = objectOf<PredictedMark>({
  toeHeel: orNull(spread(10)),
  rootFace: orNull(spread(10)),
});

const advised: Read<Advised> = objectOf<Advised>({
  kind: oneOf(['change', 'leave', 'refused'] as const),
  fitment: orNull(fitment),
  move: orNull(objectOf({ pinionIn: numberIn(-100, 100), ringAway: numberIn(-100, 100) })),
  predicted: orNull(
    objectOf<Predicted>({
      drive: predictedMark,
      coast: predictedMark,
      dial: orNull(spread(100)),
      allRight: numberIn(0, 1),
    }),
  ),
});

const like = (pattern: RegExp, allowed: string): Read<string> =>
  judged(allowed, (value) => (typeof value === 'string' && pattern.test(value) ? value : undefined));

const time: Read<string> = judged('a time such as 2031-05-04T13:05:00.000Z', (value) => {
  if (typeof value !== 'string') return undefined;
  const date = new Date(value);
  return Number.isFinite(date.getTime()) && date.toISOString() === value ? value : undefined;
});

const note: Read<string> = judged(`a text of at most ${MOST_NOTE_CHARACTERS} characters`, (value) =>
  typeof value === 'string' && value.length <= MOST_NOTE_CHARACTERS ? value : undefined,
);

const trial: Read<Trial> = objectOf<Trial>({
  id: like(/^[a-z0-9]{12}$/, '12 small letters and digits'),
  axleId: like(/^[a-z0-9-]{1,40}$/, 'the id of an axle'),
  number: wholeIn(1, 1e6),
  when: time,
  look,
  found,
  advised,
  note,
});

/** A trial as it lies on the device or in a file; else the field that is wrong. */
export const readTrial = (written: unknown): Parsed<Trial> => readFields(trial, written);

const writeSeen = <T extends RecordedLook>(one: T) => ({
  ...one,
  drive: one.drive && writeMark(one.drive),
  coast: one.coast && writeMark(one.coast),
});

/** What `readTrial` reads: JSON. */
export const writeTrial = (one: Trial) => ({
  ...one,
  look: {
    ...writeSeen(one.look),
    recorded: one.look.recorded && writeSeen(one.look.recorded),
    earlier: one.look.earlier.map(writeSeen),
  },
});
