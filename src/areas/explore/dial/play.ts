import type { DialDirection } from '../../../../sim/assembly/dial.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';

/** Free play at the place of the pitch where it is least: what the ring rocks and the dial reads. */
export interface Play {
  /** rad of ring from drive contact to coast contact */
  readonly angle: number;
  /** mm on a dial at the heel */
  readonly reading: number;
}

export type NoPlay = 'binds' | 'none';

/** The solver's own least reading, and its angle; why there is none otherwise. */
export function playOf({ backlash }: SolveResult, direction: DialDirection): Play | NoPlay {
  const reading = direction === 'square' ? backlash.normal : backlash.tangential;
  if (reading === null || backlash.angle === null) return 'none';
  if (backlash.binding || reading <= 0) return 'binds';
  return { angle: (backlash.angle * Math.PI) / 180, reading };
}

/** rad of ring angle within a pitch where the free play is least; 0 without contact. */
export function leastPhase({ freePlayCurve }: SolveResult, ringTeeth: number): number {
  let at = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < freePlayCurve.length; k++) {
    if (freePlayCurve[k] < least) {
      least = freePlayCurve[k];
      at = k;
    }
  }
  return ((2 * Math.PI) / ringTeeth) * (at / Math.max(1, freePlayCurve.length));
}
