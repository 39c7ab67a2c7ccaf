import type { Foresight, MarkOutcome } from '../assembly/adviceOutcome.ts';
import type { FlankName } from '../gearset/definition.ts';
import { seededNumbers } from './chance.ts';
import type { PlaceOffset } from './evidence.ts';
import { DIAL_FEATURE, FEATURE_COUNT, type ForwardModel, featureAt } from './forwardModel.ts';
import type { Posterior } from './posterior.ts';
import type { Layout } from './unknowns.ts';

/** States that advice is worked out over. */
const STATES = 64;
const SEED = 5501;

/** What the future is foreseen under. */
export interface ForeseeOptions {
  /** mm, the workshop's usual coat: a mark that reaches a border only because this coat came out thick is no fault */
  readonly film: number;
  /** what is known of the places round the ring */
  readonly places: readonly PlaceOffset[];
}

/** The posterior as so many equally likely states, picked at even steps of its weight (systematic resampling). */
export const foreseeFrom = (
  model: ForwardModel,
  posterior: Posterior,
  layout: Layout,
  { film, places }: ForeseeOptions,
): Foresight => {
  const picked = pickStates(posterior);
  const runouts = drawRunouts(places);
  const features = new Float64Array(FEATURE_COUNT);
  const { x, count } = posterior;
  const unknown = layout.thickness >= 0;
  return {
    states: picked.length,
    places: places.length,
    predict: (state, pinionIn, ringAway) => {
      const at = picked[state] * count;
      model.setPose(x, at, pinionIn, ringAway);
      const edges = model.read(
        film,
        unknown ? x[at + layout.thickness] : 0,
        x,
        unknown ? at + layout.drive : -1,
        unknown ? at + layout.coast : -1,
        false,
        features,
        0,
      );
      return {
        drive: markOf(features, 'drive', edges & 15),
        coast: markOf(features, 'coast', edges >> 4),
        backlash: features[DIAL_FEATURE],
        places: runouts[state],
      };
    },
  };
};

/** Offsets of the places in every state, drawn from what is known of them; seeded. */
const drawRunouts = (places: readonly PlaceOffset[]): readonly (readonly number[])[] => {
  const numbers = seededNumbers(SEED);
  return Array.from({ length: STATES }, () => places.map(({ mean, sd }) => mean + sd * numbers.normal()));
};

const markOf = (features: Float64Array, flank: FlankName, edges: number): MarkOutcome => {
  const at = featureAt(flank);
  return {
    toeHeel: features[at],
    rootFace: features[at + 1],
    length: features[at + 2],
    height: features[at + 3],
    edges,
  };
};

const pickStates = ({ weights, draws }: Posterior): Int32Array => {
  const out = new Int32Array(STATES);
  let sum = 0;
  let d = -1;
  for (let k = 0; k < STATES; k++) {
    const mark = (k + 0.5) / STATES;
    while (sum < mark && d < draws - 1) {
      d++;
      sum += weights[d];
    }
    out[k] = Math.max(0, d);
  }
  return out;
};
