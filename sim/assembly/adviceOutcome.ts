import type { FlankName } from '../gearset/definition.ts';

/** What a mark shows after a move, in one possible state of the axle. */
export interface MarkOutcome {
  toeHeel: number;
  rootFace: number;
  length: number;
  height: number;
  /** sum of EDGE_BIT (contact/patch.ts) */
  edges: number;
}

/** What paint and dial would show after a move, in one possible state of the axle; caller-owned. */
export interface Outcome {
  readonly drive: MarkOutcome;
  readonly coast: MarkOutcome;
  /** mm, square reading at the middle of the runout */
  backlash: number;
  /** mm by which each place round the ring reads more than that; at least one number */
  places: readonly number[];
}

export const createOutcome = (): Outcome => {
  const mark = (): MarkOutcome => ({ toeHeel: 0.5, rootFace: 0.5, length: 0.5, height: 0.5, edges: 0 });
  return { drive: mark(), coast: mark(), backlash: 0.5, places: [0] };
};

/** The states an axle may be in after all that was seen, and what a move would make of each. Equal weights. */
export interface Foresight {
  readonly states: number;
  /** how many places round the ring an outcome tells */
  readonly places: number;
  /** `pinionIn` and `ringAway` in mm are moves from the present place; writes into `out` */
  predict(state: number, pinionIn: number, ringAway: number, out: Outcome): void;
}

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
