import { FILM_FIELD, POSE_FIELDS } from '../../models/axleFields.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import { type CommandLine, numberOption } from './options.ts';

/** Options of every command that solves a pose. */
export const SOLVE_OPTIONS = [
  'gearset',
  'axle',
  'pinion-in',
  'ring-away',
  'offset-error',
  'shaft-angle-error',
  'film',
] as const;

/** @throws Refusal */
export function readPose(line: CommandLine): Pose {
  const read = (name: string, field: (typeof POSE_FIELDS)[keyof typeof POSE_FIELDS]): number =>
    numberOption(line, name, field) ?? field.default;
  return {
    pinionIn: read('pinion-in', POSE_FIELDS.pinionIn),
    ringAway: read('ring-away', POSE_FIELDS.ringAway),
    offsetError: read('offset-error', POSE_FIELDS.offsetError),
    shaftAngleError: read('shaft-angle-error', POSE_FIELDS.shaftAngleError),
  };
}

/** mm. @throws Refusal */
export const readFilm = (line: CommandLine, ofSource: number): number =>
  numberOption(line, 'film', FILM_FIELD) ?? ofSource;

/** mm and degrees within which the flank tables are held to their accuracy (docs/model.md §6). */
const TRUSTED = { mm: 0.35, degrees: 0.25 } as const;

/** Says so when a pose stands beyond the range in which its numbers are exact. */
export function poseWarnings(pose: Pose): readonly { readonly field: string; readonly message: string }[] {
  return (Object.keys(POSE_FIELDS) as (keyof Pose)[]).flatMap((field) => {
    const { unit } = POSE_FIELDS[field];
    const limit = unit === 'degrees' ? TRUSTED.degrees : TRUSTED.mm;
    if (Math.abs(pose[field]) <= limit) return [];
    const message = `more than ${limit} ${unit} from the design position: the numbers show which way, not how much`;
    return [{ field: `pose.${field}`, message }];
  });
}
