import type { Pose } from '../../sim/contact/pose.ts';
import { signed } from './text.ts';

const WORDS = {
  pinionIn: ['pinion in', 'pinion out', ' mm'],
  ringAway: ['ring away', 'ring in', ' mm'],
  offsetError: ['offset larger', 'offset smaller', ' mm'],
  shaftAngleError: ['pinion tipped up', 'pinion tipped down', '°'],
} as const satisfies Record<keyof Pose, readonly [string, string, string]>;

/** A pose in words: "pinion in 0.2 mm, ring away 0.15 mm". */
export const poseInWords = (pose: Partial<Pose>): string => {
  const parts = (Object.keys(WORDS) as Array<keyof Pose>).flatMap((field) => {
    const value = pose[field] ?? 0;
    if (value === 0) return [];
    const [positive, negative, unit] = WORDS[field];
    return `${value > 0 ? positive : negative} ${signed(Math.abs(value), 2).slice(1)}${unit}`;
  });
  return parts.length === 0 ? 'design position' : parts.join(', ');
};
