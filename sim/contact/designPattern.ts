import { type EaseOffDefinition, FLANKS, type FlankName } from '../gearset/definition.ts';
import { type UnmakeableCode, UnmakeableError } from '../gearset/errors.ts';
import { type GearMesh, withEaseOff } from '../gearset/gearMesh.ts';
import { checkPinionTopLand } from '../gearset/makeability.ts';
import { solveNormalEquations } from '../math/leastSquares.ts';
import { SEARCH_GRID } from './grid.ts';
import { HomeFlank, type HomePatch } from './homePatch.ts';

export const WISHES = ['toeHeel', 'rootFace', 'length', 'height', 'tilt'] as const;
export type WishName = (typeof WISHES)[number];

/** What is wanted of one flank's mark in the design position; a wish left out is kept near what it is. */
export type WantedPatch = Partial<HomePatch>;

/** How near is near enough to be called reached. */
export const WISH_TOLERANCE: Readonly<Record<WishName, number>> = {
  toeHeel: 0.02,
  rootFace: 0.02,
  length: 0.03,
  height: 0.03,
  tilt: 0.05,
};

/** The search goes on until it is this share of the tolerance near. */
const FINE = 0.15;
const STEP_CAP = 25;
/** A step that gains less than this share is the last. */
const LEAST_GAIN = 0.003;

/** The ease-off that makes a wanted mark, or what stands in its way; not reaching it is data. */
export interface DesignPattern {
  readonly converged: boolean;
  readonly easeOff: EaseOffDefinition;
  /** the mark it makes */
  readonly patch: HomePatch;
  /** found less wanted, for what was wanted */
  readonly residual: WantedPatch;
  readonly iterations: number;
  /** null when converged; a wish: the one that is missed most, what was asked and the nearest that the others leave */
  readonly refusal: PatternRefusal | null;
}

/** The wish that fails, or the tooth that the ease-off for it would spoil. */
export type PatternRefusal =
  | WishRefusal
  | {
      readonly kind: 'unmakeable';
      readonly code: UnmakeableCode;
      readonly field: string;
      readonly value: string;
      readonly allowed: string;
    };

export interface WishRefusal {
  readonly kind: 'wish';
  readonly wish: WishName;
  readonly asked: number;
  readonly reachable: number;
}

/** µm and flank coordinates: what an ease-off may be. */
export interface EaseOffRange {
  readonly least: number;
  readonly most: number;
  readonly mostBias: number;
  readonly mostCenter: number;
}

/** Half a mm and more of crowning belongs to no hypoid set; what a gear set already has is allowed besides. */
export const EASE_OFF_RANGE: EaseOffRange = { least: 1, most: 250, mostBias: 240, mostCenter: 1 };

/*
 * The search runs over u0, v0, ln lengthwise, ln profile and bias/√(lengthwise·profile): all of one size, and every place
 * within the bounds is a hill.
 */
const UNKNOWNS = 5;
const PROBE = [0.02, 0.02, 0.06, 0.06, 0.04] as const;
const MOST_TWIST = 0.95;
const LARGEST_STEP = [0.4, 0.4, 0.8, 0.8, 0.5] as const;

const toUnknowns = (e: EaseOffDefinition): number[] => [
  e.centerToeHeel,
  e.centerRootFace,
  Math.log(e.lengthwise),
  Math.log(e.profile),
  e.bias / Math.sqrt(e.lengthwise * e.profile),
];

const toEaseOff = ([u0, v0, lengthwise, profile, twist]: readonly number[]): EaseOffDefinition => ({
  lengthwise: Math.exp(lengthwise),
  profile: Math.exp(profile),
  bias: twist * Math.exp(0.5 * (lengthwise + profile)),
  centerToeHeel: u0,
  centerRootFace: v0,
});

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

const within = ([u0, v0, l, p, twist]: readonly number[], range: EaseOffRange): number[] => {
  const { least, most, mostBias, mostCenter } = range;
  const lengthwise = clamp(l, Math.log(least), Math.log(most));
  const profile = clamp(p, Math.log(least), Math.log(most));
  const steepest = Math.min(MOST_TWIST, mostBias / Math.exp(0.5 * (lengthwise + profile)));
  return [
    clamp(u0, -mostCenter, mostCenter),
    clamp(v0, -mostCenter, mostCenter),
    lengthwise,
    profile,
    clamp(twist, -steepest, steepest),
  ];
};

/**
 * Weight of keeping an unknown where it was, against a wish missed by its tolerance: settles what the wishes leave open and
 * is far too small to pull a wish off.
 */
const KEEP = 0.01;
/** Weight of what is not asked for against a wish. */
const HOLD = 0.15;

/** Differences of the misses, one row per unknown; away from a bound. */
const slopesAt = (
  home: HomeFlank,
  at: readonly number[],
  here: readonly number[],
  film: number,
  range: EaseOffRange,
  missOf: (patch: HomePatch) => number[],
): number[][] => {
  const missesAt = (unknown: number, by: number): number[] | null => {
    const moved = at.map((value, k) => (k === unknown ? value + by : value));
    const held = within(moved, range);
    if (held[unknown] !== moved[unknown]) return null;
    const found = missOf(home.patchFor(toEaseOff(moved), film));
    return found.some(Number.isNaN) ? null : found;
  };
  return PROBE.map((by, unknown) => {
    const after = missesAt(unknown, by);
    const before = missesAt(unknown, -by);
    if (after && before) return after.map((miss, k) => (miss - before[k]) / (2 * by));
    if (after) return after.map((miss, k) => (miss - here[k]) / by);
    return here.map((miss, k) => (before ? (miss - before[k]) / by : 0));
  });
};

/** Twists of the other starts: round, slanted either way. */
const OTHER_TWISTS = [0, 0.5, -0.5] as const;
/** µm: a hill of this height at the ends of the mark, roughly where common films end it. */
const HILL = { lengthwise: 24, profile: 16 } as const;

/** A hill about the wanted centre, about as wide as the wanted mark. */
const guess = (wanted: WantedPatch, present: HomePatch, twist: number): number[] => {
  const wish = (name: WishName, otherwise: number): number => wanted[name] ?? (present[name] || otherwise);
  return [
    wish('toeHeel', 0),
    wish('rootFace', 0),
    Math.log(HILL.lengthwise / Math.max(0.2, wish('length', 0.6)) ** 2),
    Math.log(HILL.profile / Math.max(0.2, wish('height', 0.7)) ** 2),
    twist,
  ];
};

/** Where a search has come to. */
interface Place {
  readonly at: readonly number[];
  readonly patch: HomePatch;
  readonly misses: readonly number[];
  readonly iterations: number;
}

/** One flank's search, kept for many wishes: dragging a handle asks again and again. */
class FlankDesigner {
  private readonly home: HomeFlank;
  private readonly rough: HomeFlank;

  constructor(mesh: GearMesh, flank: FlankName) {
    this.home = new HomeFlank(mesh, flank);
    this.rough = new HomeFlank(mesh, flank, SEARCH_GRID);
  }

  patchFor(easeOff: EaseOffDefinition, film: number): HomePatch {
    return this.home.patchFor(easeOff, film);
  }

  /**
   * Damped Gauss-Newton from `start` (docs/model.md §9). `film` in mm.
   * @throws RangeError for a wish that is no finite number
   */
  design(
    start: EaseOffDefinition,
    wanted: WantedPatch,
    film: number,
    range: EaseOffRange = EASE_OFF_RANGE,
  ): DesignPattern {
    const wishes = WISHES.filter((wish) => wanted[wish] !== undefined);
    for (const wish of wishes) {
      if (!Number.isFinite(wanted[wish])) {
        throw new RangeError(`${this.home.flank}.${wish}: ${wanted[wish]}; a finite number is allowed`);
      }
    }
    const present = this.patchFor(start, film);
    // A mark to start with: what is not asked of it is held, gently.
    const held = WISHES.filter((wish) => wanted[wish] === undefined && Number.isFinite(present[wish]));
    const missOf = (patch: HomePatch): number[] => [
      ...wishes.map((wish) => (patch[wish] - (wanted[wish] ?? 0)) / WISH_TOLERANCE[wish]),
      ...held.map((wish) => (HOLD * (patch[wish] - present[wish])) / WISH_TOLERANCE[wish]),
    ];
    const costOf = (misses: readonly number[]): number => {
      const sum = misses.reduce((total, miss) => total + miss * miss, 0);
      return Number.isNaN(sum) ? Number.POSITIVE_INFINITY : sum;
    };
    const nearerThan = (misses: readonly number[], limit: number): boolean =>
      misses.every((miss, k) => k >= wishes.length || Math.abs(miss) <= limit);

    const own = Math.max(start.lengthwise, start.profile);
    const allowed = {
      ...range,
      most: Math.max(range.most, own),
      mostBias: Math.max(range.mostBias, Math.abs(start.bias)),
    };
    const origin = within(toUnknowns(start), allowed);
    const search = (home: HomeFlank, from: readonly number[]): Place => {
      let at = from;
      let patch = home.patchFor(toEaseOff(at), film);
      let misses = missOf(patch);
      let damping = 1e-3;
      let iterations = 0;
      while (iterations < STEP_CAP && !nearerThan(misses, FINE)) {
        iterations++;
        const slopes = slopesAt(home, at, misses, film, allowed, missOf);
        const cost = costOf(misses);
        let better = false;
        while (!better && damping < 1e5) {
          const step = stepFor(slopes, misses, at, origin, damping);
          const next = step && within(limited(at, step), allowed);
          const nextPatch = next && home.patchFor(toEaseOff(next), film);
          const nextMisses = nextPatch && missOf(nextPatch);
          if (next && nextPatch && nextMisses && costOf(nextMisses) < cost) {
            at = next;
            patch = nextPatch;
            misses = nextMisses;
            damping = Math.max(1e-6, damping * 0.2);
            better = true;
          } else {
            damping *= 10;
          }
        }
        if (!better || costOf(misses) > cost * (1 - LEAST_GAIN)) break;
      }
      return { at, patch, misses, iterations };
    };

    let iterations = 0;
    /** Coarse first, then on the display grid: two steps there do what ten would. */
    const searchFrom = (from: readonly number[]): Place => {
      const rough = search(this.rough, from);
      const fine = search(this.home, rough.at);
      iterations += rough.iterations + fine.iterations;
      return fine;
    };
    let best = searchFrom(origin);
    // Before saying no: the same search from elsewhere, since a mark at an edge answers one way only.
    for (const twist of OTHER_TWISTS) {
      if (nearerThan(best.misses, 1)) break;
      const other = searchFrom(within(guess(wanted, present, twist), allowed));
      if (costOf(other.misses) < costOf(best.misses)) best = other;
    }
    const { at, patch, misses } = best;
    const converged = nearerThan(misses, 1);
    return {
      converged,
      easeOff: toEaseOff(at),
      patch,
      residual: Object.fromEntries(wishes.map((wish) => [wish, patch[wish] - (wanted[wish] ?? 0)])),
      iterations,
      refusal: converged ? null : refuse(wishes, misses.slice(0, wishes.length), patch, wanted),
    };
  }
}

const limited = (at: readonly number[], step: Float64Array): number[] => {
  const over = Math.max(1, ...LARGEST_STEP.map((most, k) => Math.abs(step[k]) / most));
  return at.map((value, k) => value + step[k] / over);
};

const stepFor = (
  slopes: readonly number[][],
  misses: readonly number[],
  at: readonly number[],
  origin: readonly number[],
  damping: number,
): Float64Array | null => {
  const matrix = new Float64Array(UNKNOWNS * UNKNOWNS);
  const step = new Float64Array(UNKNOWNS);
  for (let i = 0; i < UNKNOWNS; i++) {
    for (let j = 0; j < UNKNOWNS; j++) {
      matrix[i * UNKNOWNS + j] = slopes[i].reduce((sum, slope, k) => sum + slope * slopes[j][k], 0);
    }
    matrix[i * UNKNOWNS + i] += damping * Math.max(1, matrix[i * UNKNOWNS + i]) + KEEP;
    step[i] = -slopes[i].reduce((sum, slope, k) => sum + slope * misses[k], 0) - KEEP * (at[i] - origin[i]);
  }
  return solveNormalEquations(matrix, step, UNKNOWNS) ? step : null;
};

const refuse = (
  wishes: readonly WishName[],
  misses: readonly number[],
  patch: HomePatch,
  wanted: WantedPatch,
): WishRefusal => {
  const sizes = misses.map((miss) => (Number.isNaN(miss) ? Number.POSITIVE_INFINITY : Math.abs(miss)));
  const wish = wishes[sizes.indexOf(Math.max(...sizes))];
  return { kind: 'wish', wish, asked: wanted[wish] ?? Number.NaN, reachable: patch[wish] };
};

/** Both flanks of a gear set; its own ease-off does not matter. */
export class PatternDesigner {
  private readonly mesh: GearMesh;
  private readonly flanks: Readonly<Record<FlankName, FlankDesigner>>;

  constructor(mesh: GearMesh) {
    this.mesh = mesh;
    this.flanks = { drive: new FlankDesigner(mesh, 'drive'), coast: new FlankDesigner(mesh, 'coast') };
  }

  /** The marks of an ease-off in the design position; film in mm. */
  patchesFor(
    easeOff: Readonly<Record<FlankName, EaseOffDefinition>>,
    film: number,
  ): Record<FlankName, HomePatch> {
    const patch = (flank: FlankName) => this.flanks[flank].patchFor(easeOff[flank], film);
    return { drive: patch('drive'), coast: patch('coast') };
  }

  /**
   * As `FlankDesigner.design`, for the flanks that something is wanted of; an ease-off that would spoil the pinion's top
   * land is refused.
   * @throws RangeError for a wish that is no finite number
   */
  design(
    start: Readonly<Record<FlankName, EaseOffDefinition>>,
    wanted: Readonly<Partial<Record<FlankName, WantedPatch>>>,
    film: number,
  ): Partial<Record<FlankName, DesignPattern>> {
    const found: Partial<Record<FlankName, DesignPattern>> = {};
    for (const flank of FLANKS) {
      const wishes = wanted[flank];
      if (wishes) found[flank] = this.flanks[flank].design(start[flank], wishes, film);
    }
    const spoiled = this.spoiledBy({
      drive: found.drive?.easeOff ?? start.drive,
      coast: found.coast?.easeOff ?? start.coast,
    });
    if (spoiled) {
      for (const flank of FLANKS) {
        const pattern = found[flank];
        if (pattern?.converged) found[flank] = { ...pattern, converged: false, refusal: spoiled };
      }
    }
    return found;
  }

  private spoiledBy(easeOff: Readonly<Record<FlankName, EaseOffDefinition>>): PatternRefusal | null {
    try {
      checkPinionTopLand(withEaseOff(this.mesh, easeOff));
      return null;
    } catch (error) {
      if (!(error instanceof UnmakeableError)) throw error;
      const { code, field, value, allowed } = error;
      return { kind: 'unmakeable', code, field, value, allowed };
    }
  }
}
