import type { Foresight, MarkOutcome, Outcome } from '../assembly/adviceOutcome.ts';
import type { FlankName } from '../gearset/definition.ts';
import { DIAL_FEATURE, FEATURE_COUNT, type ForwardModel, featureAt } from './forwardModel.ts';
import type { Posterior } from './posterior.ts';
import { FILM_AT, type Layout } from './unknowns.ts';

/** States that advice is worked out over. */
const STATES = 64;

/**
 * The posterior as so many equally likely states, picked at even steps of its weight (systematic resampling). `film` mm
 * is the middle that the film unknown of the present look counts from.
 */
export const foreseeFrom = (
  model: ForwardModel,
  posterior: Posterior,
  layout: Layout,
  film: number,
): Foresight => {
  const picked = pickStates(posterior);
  const features = new Float64Array(FEATURE_COUNT);
  const { x, count } = posterior;
  const filmAt = FILM_AT + layout.films - 1;
  return {
    states: picked.length,
    predict: (state, pinionIn, ringAway, out) => {
      const at = picked[state] * count;
      model.setPose(x, at, pinionIn, ringAway);
      const unknown = layout.thickness >= 0;
      const edges = model.read(
        film * Math.exp(x[at + filmAt]),
        unknown ? x[at + layout.thickness] : 0,
        x,
        unknown ? at + layout.drive : -1,
        unknown ? at + layout.coast : -1,
        false,
        features,
        0,
      );
      fill(out, features, edges);
    },
  };
};

const fill = (out: Outcome, features: Float64Array, edges: number): void => {
  fillMark(out.drive, features, 'drive', edges & 15);
  fillMark(out.coast, features, 'coast', edges >> 4);
  out.backlash = features[DIAL_FEATURE];
};

const fillMark = (out: MarkOutcome, features: Float64Array, flank: FlankName, edges: number): void => {
  const at = featureAt(flank);
  out.toeHeel = features[at];
  out.rootFace = features[at + 1];
  out.length = features[at + 2];
  out.height = features[at + 3];
  out.edges = edges;
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
