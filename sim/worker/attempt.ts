import type { Pose } from '../contact/pose.ts';
import { UnmakeableError } from '../gearset/errors.ts';
import type { Outcome, WorkerFailure } from './protocol.ts';

const POSE_FIELDS = ['pinionIn', 'ringAway', 'offsetError', 'shaftAngleError'] as const;

/** An argument no core function can take: reported as `bad-argument`. */
export const badArgument = (field: string, value: unknown, allowed: string): UnmakeableError =>
  new UnmakeableError('bad-value', field, String(value), allowed);

/** @throws UnmakeableError (`bad-value`) for a field that is no finite number */
export const checkPose = (pose: Pose): void => {
  for (const field of POSE_FIELDS) {
    if (!Number.isFinite(pose[field])) throw badArgument(`pose.${field}`, pose[field], 'use a number');
  }
};

/** @throws UnmakeableError (`bad-value`) for a film that is no number above 0 mm */
export const checkFilm = (film: number): void => {
  if (!(Number.isFinite(film) && film > 0)) throw badArgument('film', film, 'use a number above 0 mm');
};

/** Runs `work`; what it throws becomes data that can cross to the page. */
export const attempt = <T>(work: () => T): Outcome<T> => {
  try {
    return { ok: true, value: work() };
  } catch (error) {
    return { ok: false, failure: describeFailure(error) };
  }
};

const describeFailure = (error: unknown): WorkerFailure => {
  if (error instanceof UnmakeableError) {
    const { code, field, value, allowed } = error;
    return { kind: code === 'bad-value' ? 'bad-argument' : 'unmakeable', code, field, value, allowed };
  }
  return { kind: 'internal', message: error instanceof Error ? error.message : String(error) };
};
