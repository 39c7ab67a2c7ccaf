import { EDGE_BIT } from '../contact/patch.ts';
import type { Pose } from '../contact/pose.ts';
import { EDGES, type EdgeName } from '../contact/report.ts';
import type { FlankName } from '../gearset/definition.ts';
import { checkObservation } from './checkObservation.ts';
import { type Contradiction, findContradiction } from './contradiction.ts';
import { Evidence } from './evidence.ts';
import { DIAL_FEATURE, FEATURE_COUNT, type ForwardModel, featureAt } from './forwardModel.ts';
import { type Inference, infer } from './infer.ts';
import { decisionOf, faultOf, findNextReading, LOOKS, type NextReading } from './nextReading.ts';
import { MOST_EARLIER, type Observation, type Sighting } from './observation.ts';
import { poseAt } from './poseBasis.ts';
import type { Posterior } from './posterior.ts';
import { judgeHousing, type ShimmableVerdict } from './shimmable.ts';
import {
  type Alternative,
  correlate,
  type Estimate,
  estimateOf,
  estimatePose,
  explanations,
  type PoseEstimate,
} from './summary.ts';
import { DEFAULT_PRIORS, FILM_AT, layOut, type Priors, type Regime } from './unknowns.ts';

/** One flank as the nearest simulated mesh shows it. */
export interface NearestMark {
  readonly toeHeel: number | null;
  readonly rootFace: number | null;
  readonly length: number;
  readonly height: number;
  readonly edges: readonly EdgeName[];
}

/** The simulated mesh nearest to what was seen: the best single explanation, solved. */
export interface NearestMesh {
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  readonly drive: NearestMark;
  readonly coast: NearestMark;
  /** mm, square reading */
  readonly backlash: number | null;
  /** by how much the set differs from its definition; null in the known regime */
  readonly set: NearestSet | null;
}

/** Differences of a set from its definition: centres in flank coordinates, crowning as factors, mm at the dial. */
export interface NearestSet {
  readonly drive: ShapeChange;
  readonly coast: ShapeChange;
  readonly thickness: number;
}
export interface ShapeChange {
  readonly centerToeHeel: number;
  readonly centerRootFace: number;
  readonly lengthwise: number;
  readonly profile: number;
}

/** All that was found; plain data. */
export interface Diagnosis {
  readonly regime: Regime;
  readonly pose: PoseEstimate;
  /** rows and columns in the order pinionIn, ringAway, offsetError, shaftAngleError */
  readonly correlations: readonly (readonly number[])[];
  /** mm */
  readonly film: Estimate;
  /** true: shims can put it right; false: the housing is off; null: cannot tell */
  readonly shimmable: boolean | null;
  readonly housing: ShimmableVerdict;
  /** other explanations, really different from the first, likeliest first */
  readonly alternatives: readonly Alternative[];
  readonly nearest: NearestMesh;
  readonly nextReading: NextReading | null;
  /** of what paint and dial show without taking anything apart: what would narrow the choice of shims most */
  readonly lookAgain: NextReading | null;
  readonly contradiction: Contradiction | null;
  /** mm, standard deviations of the moves that would bring marks and dial to any target: how sure the decision is */
  readonly decision: { readonly pinionIn: number; readonly ringAway: number };
  readonly quality: { readonly draws: number; readonly effective: number; readonly converged: boolean };
}

/** A diagnosis with the draws behind it: what advice is worked out from. Plain data. */
export interface DiagnosisWithDraws extends Diagnosis {
  readonly posterior: Posterior;
}

export interface DiagnoseOptions {
  readonly regime: Regime;
  /** mm, film of the workshop where an observation states none */
  readonly film: number;
  readonly priors?: Priors;
  /** the same set seen before with other shims; oldest first */
  readonly earlier?: readonly Sighting[];
  /** half width of what is allowed: centres of the marks, mm at the dial; weighs what is decided */
  readonly tolerances?: Tolerances;
}

export interface Tolerances {
  readonly drive: number;
  readonly coast: number;
  /** mm */
  readonly dial: number;
}

const DEFAULT_TOLERANCES: Tolerances = { drive: 0.2, coast: 0.3, dial: 0.03 };

/**
 * From what was seen to where pinion, ring and housing stand (docs/model.md §12).
 * @throws ObservationError when something seen cannot be used
 */
export const diagnose = (
  model: ForwardModel,
  seen: Observation,
  options: DiagnoseOptions,
): DiagnosisWithDraws => {
  const { regime, film, priors = DEFAULT_PRIORS, earlier = [], tolerances = DEFAULT_TOLERANCES } = options;
  checkObservation(seen);
  for (const { seen: before } of earlier) checkObservation(before);
  const sightings: readonly Sighting[] = [
    ...earlier.slice(-MOST_EARLIER),
    { seen, pinionIn: 0, ringAway: 0 },
  ];
  const evidence = new Evidence(model, layOut(regime, sightings.length), sightings, film);
  const inference = infer(evidence, priors);
  const { posterior, modes, spreads } = inference;
  const contradiction = findContradiction(evidence, modes, spreads);
  const judged = judgeHousing(posterior, priors, regime);
  // What contradicts itself says nothing about the housing.
  const housing = contradiction ? { ...judged, shimmable: null } : judged;
  const moves = decisionOf(posterior, evidence, tolerances);
  const about = housing.shimmable === null ? faultOf(posterior) : moves;
  const [, ...alternatives] = explanations(posterior);
  const present = sightings.length - 1;
  const filmAt = FILM_AT + present;
  const lnFilm = estimateOf(posterior, filmAt);
  const middleFilm = evidence.films[present] * Math.exp(lnFilm.mean);
  return {
    regime,
    pose: estimatePose(posterior),
    correlations: correlate(posterior),
    film: { mean: middleFilm, sd: middleFilm * lnFilm.sd },
    shimmable: housing.shimmable,
    housing,
    alternatives,
    nearest: nearestMesh(evidence, inference),
    nextReading: findNextReading(posterior, evidence, about),
    lookAgain: findNextReading(posterior, evidence, moves, LOOKS),
    contradiction,
    decision: {
      pinionIn: spreadOver(posterior, moves[0]),
      ringAway: spreadOver(posterior, moves[1]),
    },
    quality: {
      draws: posterior.draws,
      effective: posterior.effective,
      converged: modes.every(({ mode }) => mode.converged),
    },
    posterior,
  };
};

const nearestMesh = (evidence: Evidence, { modes }: Inference): NearestMesh => {
  const { mode } = modes.reduce((a, b) => (b.mode.cost < a.mode.cost ? b : a));
  const { x } = mode;
  const { layout } = evidence;
  const present = evidence.sightings.length - 1;
  evidence.predict(x, present);
  const features = evidence.features.subarray(present * FEATURE_COUNT, (present + 1) * FEATURE_COUNT);
  const bits = evidence.edges[present];
  const shape = (at: number): ShapeChange => ({
    centerToeHeel: x[at],
    centerRootFace: x[at + 1],
    lengthwise: Math.exp(x[at + 2]),
    profile: Math.exp(x[at + 3]),
  });
  return {
    pose: poseAt(x),
    film: evidence.films[present] * Math.exp(x[FILM_AT + present]),
    drive: markFrom(features, 'drive', bits & 15),
    coast: markFrom(features, 'coast', bits >> 4),
    backlash: finiteOrNull(features[DIAL_FEATURE]),
    set:
      layout.thickness < 0
        ? null
        : { drive: shape(layout.drive), coast: shape(layout.coast), thickness: x[layout.thickness] },
  };
};

/** Standard deviation of a number known per draw. */
const spreadOver = ({ weights }: Posterior, values: Float64Array): number => {
  const mean = values.reduce((sum, value, d) => sum + weights[d] * value, 0);
  return Math.sqrt(values.reduce((sum, value, d) => sum + weights[d] * (value - mean) ** 2, 0));
};

const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);

const markFrom = (features: Float64Array, flank: FlankName, bits: number): NearestMark => {
  const at = featureAt(flank);
  return {
    toeHeel: finiteOrNull(features[at]),
    rootFace: finiteOrNull(features[at + 1]),
    length: features[at + 2],
    height: features[at + 3],
    edges: EDGES.filter((edge) => (bits & EDGE_BIT[edge]) !== 0),
  };
};
