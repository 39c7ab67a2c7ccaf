import type { AxleLimits } from '../../../models/axle.ts';
import type { BacklashReport } from '../../../sim/worker/protocol.ts';

export type BacklashVerdict = 'inside' | 'below' | 'above' | 'binds' | 'unknown';

export interface BacklashReading {
  /** mm, in the direction the axle's limits are read in; null where the mesh has no contact to measure from */
  readonly least: number | null;
  readonly mean: number | null;
  readonly verdict: BacklashVerdict;
  /** mm outside the limits, 0 inside */
  readonly beyond: number;
}

/** A backlash held against the axle's limits. */
export function judgeBacklash(report: BacklashReport, limits: AxleLimits['backlash']): BacklashReading {
  const square = limits.reads === 'square';
  const least = square ? report.normal : report.tangential;
  const mean = square ? report.normalMean : report.tangentialMean;
  return judgeReading({ least, mean, binding: report.binding }, limits);
}

/**
 * The same for numbers read in the direction of the limits, mm: no place of the pitch may read less than the least
 * allowed, and the reading as a whole (the mean) not more than the most.
 */
export function judgeReading(
  { least, mean, binding }: Pick<BacklashReading, 'least' | 'mean'> & Pick<BacklashReport, 'binding'>,
  limits: AxleLimits['backlash'],
): BacklashReading {
  if (binding) return { least, mean, verdict: 'binds', beyond: 0 };
  if (least === null || mean === null) return { least, mean, verdict: 'unknown', beyond: 0 };
  if (least < limits.min) return { least, mean, verdict: 'below', beyond: limits.min - least };
  if (mean > limits.max) return { least, mean, verdict: 'above', beyond: mean - limits.max };
  return { least, mean, verdict: 'inside', beyond: 0 };
}
