import { EDGE_BIT } from '../contact/patch.ts';
import { EDGES, type EdgeName } from '../contact/report.ts';
import { FLANKS, type FlankName } from '../gearset/definition.ts';
import { DIAL_FEATURE, FEATURE_COUNT, type ForwardModel, featureAt } from './forwardModel.ts';
import { measureMask, measureOutline, type RegionMeasures } from './measureRegion.ts';
import type { Observation, SeenMark, Sighting, Uncertainty } from './observation.ts';
import { FILM_AT, type Layout } from './unknowns.ts';

/** Which reading a datum belongs to; a contradiction is told in these. */
export type ReadingName = FlankName | 'backlash';

/** One number seen, to be held against one feature of the forward model. */
export interface Datum {
  readonly sighting: number;
  readonly reading: ReadingName;
  /** index among FEATURE_COUNT */
  readonly feature: number;
  readonly value: number;
  readonly sd: number;
}

/** What the grid and the fitted surfaces add to every reading (docs/model.md §12). */
const MODEL_SD = { patch: 0.006, dial: 0.001 } as const;
/** The slant of a mark is judged this many times worse than its place: it turns with every uneven end. */
const TILT_FACTOR = 3;
/** mm, scatter of the dial round the ring before readings tell: a ring within an ordinary limit of runout. */
const RUNOUT_SD = 0.006;
/** How many readings that guess is worth. */
const RUNOUT_WORTH = 2;

/** Mean of the readings, how surely it stands for the middle of the ring, and the runout. mm; null without readings. */
export const middleOfReadings = (
  readings: readonly number[],
  sd: number,
): { readonly mean: number; readonly sd: number; readonly runout: number } | null => {
  const n = readings.length;
  if (n === 0) return null;
  const mean = readings.reduce((sum, x) => sum + x, 0) / n;
  const squares = readings.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  const beyond = Math.max(0, squares - (n - 1) * sd * sd);
  const runout = (RUNOUT_WORTH * RUNOUT_SD ** 2 + beyond) / (RUNOUT_WORTH + n - 1);
  return { mean, sd: Math.sqrt((sd * sd + runout) / n), runout: Math.sqrt(runout) };
};

/** By how much a place reads more than the middle of the ring, mm. */
export interface PlaceOffset {
  readonly mean: number;
  readonly sd: number;
}

/** What the readings tell of the places they were taken at: runout, freed from the dial's own noise as far as it can be. */
export const placesOf = (readings: readonly number[], sd: number): readonly PlaceOffset[] => {
  const middle = middleOfReadings(readings, sd);
  if (!middle || readings.length < 2) return [{ mean: 0, sd: 0 }];
  const variance = middle.runout ** 2;
  const share = variance / (variance + sd * sd);
  return readings.map((reading) => ({
    mean: share * (reading - middle.mean),
    sd: Math.sqrt(share) * sd,
  }));
};

const isRegion = (mark: SeenMark | null): boolean => mark !== null && mark.kind !== 'descriptors';

export const measuresOf = (mark: SeenMark): RegionMeasures | null =>
  mark.kind === 'outline' ? measureOutline(mark.outline) : mark.kind === 'mask' ? measureMask(mark) : null;

const markData = (
  mark: SeenMark,
  sighting: number,
  reading: FlankName,
  { patch }: Uncertainty,
): readonly Datum[] => {
  const at = featureAt(reading);
  const datum = (k: number, value: number, sd = Math.hypot(patch, MODEL_SD.patch)): Datum => ({
    sighting,
    reading,
    feature: at + k,
    value,
    sd,
  });
  if (mark.kind === 'descriptors') {
    const { toeHeel, rootFace, length, height } = mark;
    return [
      datum(0, toeHeel),
      datum(1, rootFace),
      ...(length === null ? [] : [datum(2, length)]),
      ...(height === null ? [] : [datum(3, height)]),
    ];
  }
  const region = measuresOf(mark);
  if (!region) return [];
  // A raster shows ends to half a cell either way.
  const cell =
    mark.kind === 'mask' ? { u: 1 / (3.5 * mark.columns), v: 1 / (3.5 * mark.rows) } : { u: 0, v: 0 };
  const sd = (extra: number) => Math.hypot(patch, MODEL_SD.patch, extra);
  return [
    datum(0, region.toeHeel),
    datum(1, region.rootFace),
    datum(2, region.length, sd(cell.u)),
    datum(3, region.height, sd(cell.v)),
    datum(4, region.tilt, TILT_FACTOR * patch),
  ];
};

const dataOf = (seen: Observation, sighting: number): readonly Datum[] => {
  const marks = FLANKS.flatMap((flank) => {
    const mark = seen[flank];
    return mark ? markData(mark, sighting, flank, seen.uncertainty) : [];
  });
  const dial = middleOfReadings(seen.backlash, seen.uncertainty.backlash);
  if (!dial) return marks;
  const sd = Math.hypot(dial.sd, MODEL_SD.dial);
  return [...marks, { sighting, reading: 'backlash', feature: DIAL_FEATURE, value: dial.mean, sd }];
};

/** Whether a mark was seen to reach a border, and how likely that is to be told rightly. */
interface EdgeDatum {
  readonly sighting: number;
  /** bit in the edges of both flanks as `ForwardModel.read` gives them */
  readonly bit: number;
  readonly reached: boolean;
  readonly lnRight: number;
  readonly lnWrong: number;
}

/** Chance that an edge said to be reached, or to be clear, is so: looked for, and read off a painted region. */
const EDGE_RIGHT = { told: 0.95, painted: 0.85 } as const;
/** A region this near a border reaches it; flank coordinates. */
const AT_BORDER = 0.02;

const edgeData = (mark: SeenMark, sighting: number, flank: FlankName): readonly EdgeDatum[] => {
  const shift = flank === 'drive' ? 1 : 16;
  const datum = (edge: EdgeName, reached: boolean, right: number): EdgeDatum => ({
    sighting,
    bit: EDGE_BIT[edge] * shift,
    reached,
    lnRight: Math.log(right),
    lnWrong: Math.log(1 - right),
  });
  const { edges } = mark;
  if (edges) return EDGES.map((edge) => datum(edge, edges.includes(edge), EDGE_RIGHT.told));
  const region = measuresOf(mark);
  if (!region) return [];
  // The root ends at the pinion's tip, which no painted border shows.
  const { left, right, top } = region;
  return [
    datum('toe', left < -1 + AT_BORDER, EDGE_RIGHT.painted),
    datum('heel', right > 1 - AT_BORDER, EDGE_RIGHT.painted),
    datum('face', top > 1 - AT_BORDER, EDGE_RIGHT.painted),
  ];
};

/** Residual (standard deviations) given to a feature the model does not have, as when the flanks do not meet. */
const NOTHING_THERE = 30;

/**
 * Everything seen, against the forward model: predicts the features of every sighting for a vector of unknowns and
 * says how far they are from what was seen.
 */
export class Evidence {
  readonly data: readonly Datum[];
  readonly sightings: readonly Sighting[];
  readonly layout: Layout;
  readonly model: ForwardModel;
  /** FEATURE_COUNT per sighting; overwritten by `predict` */
  readonly features: Float64Array;
  /** edges per sighting as `ForwardModel.read` gives them; overwritten by `predict` */
  readonly edges: Int32Array;
  readonly films: readonly number[];
  private readonly edgeData: readonly EdgeDatum[];
  private readonly withTilt: readonly boolean[];

  /** `film` mm: the middle of what is expected where an observation states none. */
  constructor(model: ForwardModel, layout: Layout, sightings: readonly Sighting[], film: number) {
    this.model = model;
    this.layout = layout;
    this.sightings = sightings;
    this.films = sightings.map(({ seen }) => seen.film ?? film);
    this.withTilt = sightings.map(({ seen }) => isRegion(seen.drive) || isRegion(seen.coast));
    this.data = sightings.flatMap(({ seen }, i) => dataOf(seen, i));
    this.edgeData = sightings.flatMap(({ seen }, i) =>
      FLANKS.flatMap((flank) => {
        const mark = seen[flank];
        return mark ? edgeData(mark, i, flank) : [];
      }),
    );
    this.features = new Float64Array(FEATURE_COUNT * sightings.length);
    this.edges = new Int32Array(sightings.length);
  }

  /** The same without one kind of reading, for finding what contradicts what. */
  without(reading: ReadingName, sighting: number): Evidence {
    const rest = Object.create(Evidence.prototype) as Evidence;
    const data = this.data.filter((d) => d.reading !== reading || d.sighting !== sighting);
    return Object.assign(rest, this, { data });
  }

  /** Fills `features` for the unknowns `x`; all sightings, or `only` one of them. */
  predict(x: Float64Array, only = -1): void {
    const { model, layout } = this;
    const thickness = layout.thickness < 0 ? 0 : x[layout.thickness];
    const present = this.sightings.length - 1;
    for (let i = 0; i <= present; i++) {
      if (only >= 0 && i !== only) continue;
      const { pinionIn, ringAway } = this.sightings[i];
      model.setPose(x, 0, pinionIn, ringAway);
      const film = this.films[i] * Math.exp(x[FILM_AT + present] + (i === present ? 0 : x[FILM_AT + i]));
      this.edges[i] = model.read(
        film,
        thickness,
        x,
        layout.drive,
        layout.coast,
        this.withTilt[i],
        this.features,
        i * FEATURE_COUNT,
      );
    }
  }

  /** Residuals of the features last predicted, in standard deviations, into `out`. */
  residuals(out: Float64Array): void {
    for (let k = 0; k < this.data.length; k++) {
      const { sighting, feature, value, sd } = this.data[k];
      const miss = (this.features[sighting * FEATURE_COUNT + feature] - value) / sd;
      out[k] = Number.isNaN(miss) ? NOTHING_THERE : miss;
    }
  }

  /** ln likelihood of the borders seen at `sighting`, for the edges last predicted. */
  lnEdges(sighting: number): number {
    let sum = 0;
    for (const { sighting: at, bit, reached, lnRight, lnWrong } of this.edgeData) {
      if (at !== sighting) continue;
      sum += ((this.edges[at] & bit) !== 0) === reached ? lnRight : lnWrong;
    }
    return sum;
  }
}
