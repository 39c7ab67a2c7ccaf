import type { FlankName } from '../../../../sim/gearset/definition.ts';
import {
  carryingPair,
  followPair,
  PHASES_PER_PITCH,
  pairNumbers,
  pairSeparation,
} from '../../../../sim/worker/pairs.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';

/** Stretch of a pitch, both ends 0…1. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** One tooth pair over a pitch. */
export interface PairRow {
  /** 0 for the pair about phase 0, +1 for the one a pitch further on */
  readonly pair: number;
  /** where a contact line of this pair lies on both teeth */
  readonly meets: readonly Stretch[];
  /** where it comes within the film and so marks */
  readonly marks: readonly Stretch[];
  /** where it carries */
  readonly carries: readonly Stretch[];
}

export interface FlankPairs {
  readonly rows: readonly PairRow[];
  /** number of the pair that carries at each phase; null without contact */
  readonly carrying: readonly (number | null)[];
  /** pairs whose contact line lies on the teeth at each phase */
  readonly meeting: readonly (readonly number[])[];
}

/** Each phase stands for the cell about it: stretches of cells that hold, cut at the ends of the pitch. */
function stretches(holds: (k: number) => boolean): Stretch[] {
  const found: Stretch[] = [];
  let from: number | null = null;
  for (let k = 0; k <= PHASES_PER_PITCH + 1; k += 1) {
    const is = k <= PHASES_PER_PITCH && holds(k);
    if (is && from === null) from = Math.max(0, k - 0.5);
    if (!is && from !== null) {
      found.push({
        from: from / PHASES_PER_PITCH,
        to: Math.min(PHASES_PER_PITCH, k - 0.5) / PHASES_PER_PITCH,
      });
      from = null;
    }
  }
  return found;
}

/** Which neighbouring pairs meet, mark and carry over one pitch of the solved pose. */
export function pairsOf(result: SolveResult, flank: FlankName, ringTeeth: number): FlankPairs {
  const passage = followPair(result[flank], result.grid, ringTeeth);
  const numbers = pairNumbers(passage);
  const places = Array.from({ length: PHASES_PER_PITCH + 1 }, (_, k) => k);
  const carrying = places.map((k) => carryingPair(passage, k));
  const rows = numbers.map((pair): PairRow => {
    const from = Math.max(0, passage.start - pair);
    const to = Math.min(1, passage.end - pair);
    return {
      pair,
      meets: to > from ? [{ from, to }] : [],
      marks: stretches((k) => pairSeparation(passage, pair, k) <= result.film),
      carries: stretches((k) => carrying[k] === pair),
    };
  });
  return {
    rows,
    carrying,
    meeting: places.map((k) => numbers.filter((n) => Number.isFinite(pairSeparation(passage, n, k)))),
  };
}
