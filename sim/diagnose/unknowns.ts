import { POSE_COUNT } from './poseBasis.ts';

/** How well the gear set itself is known (docs/model.md §12). */
export type Regime = 'known' | 'unknown';

/** Standard deviations before anything is seen. mm and degrees for the pose; natural logarithms for film and crowning. */
export interface Priors {
  readonly pinionIn: number;
  readonly ringAway: number;
  /** housing bored as drawn */
  readonly offsetError: number;
  readonly shaftAngleError: number;
  /** housing at fault */
  readonly offsetFault: number;
  readonly angleFault: number;
  /** chance of either fault before anything is seen */
  readonly faultShare: number;
  /** ln film, when the observation does not state it; when it does */
  readonly film: number;
  readonly filmStated: number;
  /** ln film of an earlier look over the present one: the same compound and brush, another coat */
  readonly filmChange: number;
  /** unknown set: ease-off centres in flank coordinates, ln of lengthwise and profile crowning, mm at the dial */
  readonly center: number;
  readonly crowning: number;
  readonly thickness: number;
}

export const DEFAULT_PRIORS: Priors = {
  pinionIn: 0.3,
  ringAway: 0.25,
  offsetError: 0.03,
  shaftAngleError: 0.03,
  offsetFault: 0.2,
  angleFault: 0.2,
  faultShare: 0.1,
  film: 0.35,
  filmStated: 0.15,
  filmChange: 0.14,
  center: 0.2,
  crowning: 0.3,
  thickness: 0.05,
};

/** Unknowns of one flank's ease-off: centre u, centre v, ln lengthwise, ln profile; all as changes from the definition. */
export const SHAPE_COUNT = 4;

/**
 * Where each unknown stands in the vector: pose; ln film of every sighting, the present one (last) over its middle, earlier
 * ones over the present; then those of an unknown set.
 */
export interface Layout {
  readonly count: number;
  readonly films: number;
  /** −1 in the known regime */
  readonly thickness: number;
  readonly drive: number;
  readonly coast: number;
}

export const FILM_AT = POSE_COUNT;

export const layOut = (regime: Regime, sightings: number): Layout => {
  const after = FILM_AT + sightings;
  if (regime === 'known') return { count: after, films: sightings, thickness: -1, drive: -1, coast: -1 };
  return {
    count: after + 1 + 2 * SHAPE_COUNT,
    films: sightings,
    thickness: after,
    drive: after + 1,
    coast: after + 1 + SHAPE_COUNT,
  };
};

/** What may be wrong with the housing. The three are alternatives; their evidence is compared. */
export const HOUSINGS = ['sound', 'offset', 'shaft-angle'] as const;
export type Housing = (typeof HOUSINGS)[number];

/** Chance of each before anything is seen. */
export const housingShare = (priors: Priors, housing: Housing): number =>
  housing === 'sound' ? 1 - 2 * priors.faultShare : priors.faultShare;

/** Standard deviations of the whole vector under one housing; `filmStated[i]` for the i-th sighting. */
export const spreadOf = (
  layout: Layout,
  priors: Priors,
  housing: Housing,
  filmStated: readonly boolean[],
): Float64Array => {
  const out = new Float64Array(layout.count);
  out[0] = priors.pinionIn;
  out[1] = priors.ringAway;
  out[2] = housing === 'offset' ? priors.offsetFault : priors.offsetError;
  out[3] = housing === 'shaft-angle' ? priors.angleFault : priors.shaftAngleError;
  const present = filmStated.length - 1;
  out.fill(priors.filmChange, FILM_AT, FILM_AT + present);
  out[FILM_AT + present] = filmStated[present] ? priors.filmStated : priors.film;
  if (layout.thickness < 0) return out;
  out[layout.thickness] = priors.thickness;
  for (const at of [layout.drive, layout.coast]) {
    out[at] = priors.center;
    out[at + 1] = priors.center;
    out[at + 2] = priors.crowning;
    out[at + 3] = priors.crowning;
  }
  return out;
};
