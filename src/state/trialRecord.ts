import * as z from 'zod/mini';
import type { Parsed } from '../../models/problem.ts';
import { readChecked } from '../storage/checked.ts';
import { CUTS, DIAL_MANNERS, GEARS, MOST_READINGS, type RecordedLook, SURENESSES } from './look.ts';
import { readMark, writeMark } from './lookRecord.ts';
import type { PaintedMark } from './paintedMark.ts';
import { MOST_NOTE_CHARACTERS, type Trial } from './trial.ts';

/** More than any version of the diagnosis uses. */
const MOST_EARLIER = 20;

// every part says as its message what it allows

const numberIn = (least: number, most: number) => {
  const error = `a number from ${least} to ${most}`;
  return z.number({ error }).check(z.gte(least, { error }), z.lte(most, { error }));
};

const wholeIn = (least: number, most: number) => {
  const error = `a whole number from ${least} to ${most}`;
  return z
    .number({ error })
    .check(z.gte(least, { error }), z.lte(most, { error }), z.multipleOf(1, { error }));
};

const oneOf = <T extends string>(choices: readonly T[]) =>
  z.enum(choices, { error: `one of ${choices.join(', ')}` });

const listOf = <T extends z.ZodMiniType>(one: T, most: number) => {
  const error = `a list of at most ${most}`;
  return z.array(one, { error }).check(z.maxLength(most, { error }));
};

/** Exactly these fields: one that is not known would be lost when the object is written again. */
const objectOf = <T extends Record<string, z.ZodMiniType>>(fields: T) => {
  const names = Object.keys(fields).join(', ');
  const error = ({ code }: { readonly code: string }) =>
    code === 'unrecognized_keys' ? `no field but ${names}` : `an object with ${names}`;
  return z.strictObject(fields, { error });
};

/** As it is, where `judge` finds nothing to say against it. */
const text = (allowed: string, judge: (value: string) => boolean) =>
  z.string({ error: allowed }).check(z.refine(judge, { error: allowed }));

const spread = (most: number) => objectOf({ mean: numberIn(-most, most), sd: numberIn(0, most) });

/** A form that would be written otherwise than it was found is not ours. */
const markWritten = (value: unknown): PaintedMark | undefined => {
  const read = readMark(value);
  if (read === undefined || Object.keys(value as object).length !== 3) return undefined;
  return writeMark(read).bits === (value as { readonly bits: string }).bits ? read : undefined;
};

const mark = z.pipe(
  z.unknown(),
  z.transform((value, context): PaintedMark => {
    const read = markWritten(value);
    if (read !== undefined) return read;
    context.issues.push({ code: 'custom', input: value, message: 'columns, rows and the bits of a mark' });
    return z.NEVER;
  }),
);

const setting = numberIn(-1000, 1000);
const fitment = objectOf({ pinionShim: setting, ringSide: setting, oppositeSide: setting });

const seen = {
  drive: z.nullable(mark),
  coast: z.nullable(mark),
  readings: listOf(numberIn(-10, 10), MOST_READINGS),
  sureness: oneOf(SURENESSES),
};

const look = objectOf({
  ...seen,
  fitment,
  manner: oneOf(DIAL_MANNERS),
  gears: oneOf(GEARS),
  cut: oneOf(CUTS),
  recorded: z.nullable(objectOf(seen)),
  earlier: listOf(objectOf({ ...seen, fitment }), MOST_EARLIER),
});

const place = spread(100);
const found = objectOf({
  pose: objectOf({ pinionIn: place, ringAway: place, offsetError: place, shaftAngleError: place }),
  shimmable: z.nullable(z.boolean({ error: 'one of true, false, null' })),
});

const predictedMark = objectOf({ toeHeel: z.nullable(spread(10)), rootFace: z.nullable(spread(10)) });

const advised = objectOf({
  kind: oneOf(['change', 'leave', 'refused'] as const),
  fitment: z.nullable(fitment),
  move: z.nullable(objectOf({ pinionIn: numberIn(-100, 100), ringAway: numberIn(-100, 100) })),
  predicted: z.nullable(
    objectOf({
      drive: predictedMark,
      coast: predictedMark,
      dial: z.nullable(spread(100)),
      allRight: numberIn(0, 1),
    }),
  ),
});

const isTime = (value: string): boolean => {
  const date = new Date(value);
  return Number.isFinite(date.getTime()) && date.toISOString() === value;
};

const trial = objectOf({
  id: text('12 small letters and digits', (value) => /^[a-z0-9]{12}$/.test(value)),
  axleId: text('the id of an axle', (value) => /^[a-z0-9-]{1,40}$/.test(value)),
  number: wholeIn(1, 1e6),
  when: text('a time such as 2031-05-04T13:05:00.000Z', isTime),
  look,
  found,
  advised,
  note: text(
    `a text of at most ${MOST_NOTE_CHARACTERS} characters`,
    (value) => value.length <= MOST_NOTE_CHARACTERS,
  ),
});

/** A trial as it lies on the device or in a file; else the field that is wrong. */
export const readTrial = (written: unknown): Parsed<Trial> => readChecked(trial, written);

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
