import type { FlankName } from '../gearset/definition.ts';

/** What a mark shows after a move, in one possible state of the axle. */
export interface MarkOutcome {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly length: number;
  readonly height: number;
  /** sum of EDGE_BIT (contact/patch.ts) */
  readonly edges: number;
}

/** What paint and dial would show after a move, in one possible state of the axle. */
export interface Outcome {
  readonly drive: MarkOutcome;
  readonly coast: MarkOutcome;
  /** mm, square reading at the middle of the runout */
  readonly backlash: number;
  /** mm by which each place round the ring reads more than that; at least one number */
  readonly places: readonly number[];
}

/** The states an axle may be in after all that was seen, and what a move would make of each. Equal weights. */
export interface Foresight {
  readonly states: number;
  /** how many places round the ring an outcome tells */
  readonly places: number;
  /** `pinionIn` and `ringAway` in mm are moves from the present place */
  predict(state: number, pinionIn: number, ringAway: number): Outcome;
}

/** The same foresight, which works out no state twice after the same move. */
export const remembering = (foresight: Foresight): Foresight => {
  const known = new Map<string, Outcome>();
  return {
    ...foresight,
    predict: (state, pinionIn, ringAway) => {
      const key = `${state} ${pinionIn} ${ringAway}`;
      const before = known.get(key);
      if (before) return before;
      const outcome = foresight.predict(state, pinionIn, ringAway);
      known.set(key, outcome);
      return outcome;
    },
  };
};

export interface MarkTarget {
  readonly toeHeel: number;
  readonly rootFace: number;
}

/** Where the marks and the dial should be. */
export interface AdviceTarget {
  readonly drive: MarkTarget;
  readonly coast: MarkTarget;
  /** half widths in flank coordinates within which a mark counts as in place */
  readonly tolerance: Readonly<Record<FlankName, number>>;
  readonly backlash: {
    /** mm, square: every place must be inside */
    readonly min: number;
    readonly max: number;
    /** mm, square: the reading aimed at */
    readonly best: number;
  };
}
