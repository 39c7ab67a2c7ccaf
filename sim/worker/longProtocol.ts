import type { DesignPattern, WantedPatch } from '../contact/designPattern.ts';
import type { HomePatch } from '../contact/homePatch.ts';
import type { KeptBacklash } from '../contact/keepBacklash.ts';
import type { LargerMoves } from '../contact/largerMoves.ts';
import type { PatchMoves, PoseStep } from '../contact/patchMoves.ts';
import type { Pose } from '../contact/pose.ts';
import type { RingReadings } from '../contact/ringReadings.ts';
import type { RingRunout } from '../contact/runout.ts';
import type { ShimMap, ShimMapPlane, ShimMapStride } from '../contact/shimMap.ts';
import type { Spread, SpreadQuestion, SpreadSample } from '../contact/spread.ts';
import type { CaliperReading } from '../gearset/caliper.ts';
import type { EaseOffDefinition, FlankName, GearSetDefinition } from '../gearset/definition.ts';
import type { UnmakeableCode } from '../gearset/errors.ts';
import type { Mend, MendableField } from '../gearset/nearestMakeable.ts';
import type { Unknowns } from '../gearset/unknowns.ts';
import type { Outcome } from './protocol.ts';

export type {
  DesignPattern,
  PatternRefusal,
  WantedPatch,
  WishName,
  WishRefusal,
} from '../contact/designPattern.ts';
export type { HomePatch } from '../contact/homePatch.ts';
export type { KeptBacklash } from '../contact/keepBacklash.ts';
// biome-ignore lint/performance/noBarrelFile: the app may reach the core's values only through this folder
export { RING_AWAY_REACH } from '../contact/keepBacklash.ts';
export type { LargerMoves } from '../contact/largerMoves.ts';
export { EDGE_BIT } from '../contact/patch.ts';
export type { PatchMove, PatchMoves, PoseStep } from '../contact/patchMoves.ts';
export type { RingReading, RingReadings } from '../contact/ringReadings.ts';
export type { RingRunout } from '../contact/runout.ts';
export type { FlankMapCells, MapAxis, ShimMap, ShimMapPlane, ShimMapStride } from '../contact/shimMap.ts';
export { poseOfCell, SHIM_MAP_AXIS } from '../contact/shimMap.ts';
export type {
  Distribution,
  MarkSpread,
  MoveSpread,
  Spread,
  SpreadQuestion,
  Tendency,
} from '../contact/spread.ts';
export type { CaliperReading } from '../gearset/caliper.ts';
export type { Mend, MendableField } from '../gearset/nearestMakeable.ts';
export type { Unknowns } from '../gearset/unknowns.ts';
export { DEFAULT_UNKNOWNS } from '../gearset/unknowns.ts';

/** What every long request names: the gear set is built when its id or its definition is new. */
interface ForGearSet {
  readonly gearSetId: string;
  readonly definition: GearSetDefinition;
}

export interface LoadRequest extends ForGearSet {
  readonly kind: 'load';
}

export interface PatchMovesRequest extends ForGearSet {
  readonly kind: 'patchMoves';
  readonly pose: Pose;
  /** mm */
  readonly film: number;
  readonly steps: readonly PoseStep[];
}

export interface KeepBacklashRequest extends ForGearSet {
  readonly kind: 'keepBacklash';
  readonly pose: Pose;
  /** mm square to the flank, least over a pitch */
  readonly wanted: number;
}

export interface LargerMovesRequest extends ForGearSet {
  readonly kind: 'largerMoves';
  readonly pose: Pose;
  /** the largest factor that is of use, above 0 */
  readonly most: number;
  /** mm of free play to leave where the teeth would touch */
  readonly spare: number;
}

export interface RingReadingsRequest extends ForGearSet {
  readonly kind: 'ringReadings';
  readonly pose: Pose;
  readonly runout: RingRunout;
  readonly places: number;
}

export interface ShimMapRequest extends ForGearSet {
  readonly kind: 'shimMap';
  readonly plane: ShimMapPlane;
}

export interface SpreadRequest extends ForGearSet {
  readonly kind: 'spread';
  readonly question: SpreadQuestion;
  /** draws; the first ones are the same however many follow */
  readonly count: number;
  readonly unknowns: Unknowns;
}

/** How far a spread is: what the draws so far say. */
export interface SpreadProgress {
  readonly drawn: number;
  readonly count: number;
  readonly spread: Spread;
}

export interface SpreadValue {
  readonly spread: Spread;
  readonly samples: readonly SpreadSample[];
}

export interface HomePatchesRequest extends ForGearSet {
  readonly kind: 'homePatches';
  /** mm */
  readonly film: number;
}

export interface DesignPatternRequest extends ForGearSet {
  readonly kind: 'designPattern';
  readonly wanted: Readonly<Partial<Record<FlankName, WantedPatch>>>;
  /** mm */
  readonly film: number;
}

export interface DesignPatternValue {
  /** per flank that something was wanted of */
  readonly patterns: Readonly<Partial<Record<FlankName, DesignPattern>>>;
  /** of the whole set: as found, or as nearly as it could be had; as it was where nothing was wanted */
  readonly easeOff: Readonly<Record<FlankName, EaseOffDefinition>>;
}

export interface NearestMakeableRequest {
  readonly kind: 'nearestMakeable';
  readonly definition: GearSetDefinition;
  readonly fields: readonly MendableField[];
}

export interface CaliperRequest {
  readonly kind: 'caliper';
  readonly reading: CaliperReading;
}

export interface CaliperValue {
  readonly definition: GearSetDefinition;
  /** defaults that had to give way, as dotted fields of the definition */
  readonly altered: readonly string[];
  /** null when the set can be made */
  readonly refusal: {
    readonly code: UnmakeableCode;
    readonly field: string;
    readonly value: string;
    readonly allowed: string;
  } | null;
}

/** How far a shim map is. */
export interface ShimMapProgress {
  /** a copy that stays as it is, each time a pass is done; null in between */
  readonly map: ShimMap | null;
  readonly solvedCells: number;
  readonly total: number;
  /** stride of the finest pass that covers the whole plane by now; null before the first */
  readonly covered: ShimMapStride | null;
}

/** What came of a request, and the request it belongs to. */
export type Answer<Request, Value> = Outcome<Value> & { readonly request: Request };

/** Null: the caller's signal was aborted; nothing of that request is reported after it. */
export type Asked<Request, Value> = Promise<Answer<Request, Value> | null>;

export interface Cancellable {
  readonly signal?: AbortSignal | undefined;
}

export interface Watched<Progress> extends Cancellable {
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/**
 * Work that takes longer than a frame, in a worker of its own: single solves of the mesh service never wait for it.
 * Short requests overtake long ones, which are done piece by piece.
 */
export interface LongService {
  /** Builds the gear set ahead of need. */
  load(
    gearSetId: string,
    definition: GearSetDefinition,
    options?: Cancellable,
  ): Asked<LoadRequest, { readonly gearSetId: string }>;
  /** Where each step takes the marks and the dial, in the order of `steps`; film in mm (docs/model.md §9). */
  patchMoves(
    gearSetId: string,
    definition: GearSetDefinition,
    pose: Pose,
    film: number,
    steps: readonly PoseStep[],
    options?: Cancellable,
  ): Asked<PatchMovesRequest, readonly PatchMoves[]>;
  /** The ring's place with the wanted reading, mm (docs/model.md §9). */
  keepBacklash(
    gearSetId: string,
    definition: GearSetDefinition,
    pose: Pose,
    wanted: number,
    options?: Cancellable,
  ): Asked<KeepBacklashRequest, KeptBacklash>;
  /** How many times larger the moves of a pose can be drawn before the teeth touch (docs/model.md §9). */
  largerMoves(
    gearSetId: string,
    definition: GearSetDefinition,
    pose: Pose,
    most: number,
    spare: number,
    options?: Cancellable,
  ): Asked<LargerMovesRequest, LargerMoves>;
  /** Rocks the ring at evenly spaced places round the turn (docs/model.md §2, runout). */
  ringReadings(
    gearSetId: string,
    definition: GearSetDefinition,
    pose: Pose,
    runout: RingRunout,
    places: number,
    options?: Cancellable,
  ): Asked<RingReadingsRequest, RingReadings>;
  /** A plane of solved states, coarse first (docs/model.md §9). */
  shimMap(
    gearSetId: string,
    definition: GearSetDefinition,
    plane: ShimMapPlane,
    options?: Watched<ShimMapProgress>,
  ): Asked<ShimMapRequest, ShimMap>;
  /** What is robust when cutter, spiral and ease-off are not known (docs/model.md §9). */
  spread(
    gearSetId: string,
    definition: GearSetDefinition,
    question: SpreadQuestion,
    count: number,
    unknowns: Unknowns,
    options?: Watched<SpreadProgress>,
  ): Asked<SpreadRequest, SpreadValue>;
  /** The marks in the design position with their tilt, where a handle begins; film in mm. */
  homePatches(
    gearSetId: string,
    definition: GearSetDefinition,
    film: number,
    options?: Cancellable,
  ): Asked<HomePatchesRequest, Readonly<Record<FlankName, HomePatch>>>;
  /** The ease-off for wanted marks in the design position; quick enough for dragging (docs/model.md §9). */
  designPattern(
    gearSetId: string,
    definition: GearSetDefinition,
    wanted: Readonly<Partial<Record<FlankName, WantedPatch>>>,
    film: number,
    options?: Cancellable,
  ): Asked<DesignPatternRequest, DesignPatternValue>;
  /** For each field the nearest value with which the set can be made, everything else as it is (docs/model.md §1). */
  nearestMakeable(
    definition: GearSetDefinition,
    fields: readonly MendableField[],
    options?: Cancellable,
  ): Asked<NearestMakeableRequest, ReadonlyArray<Mend | null>>;
  /** A whole gear set from what a caliper tells (docs/model.md §1). */
  caliper(reading: CaliperReading, options?: Cancellable): Asked<CaliperRequest, CaliperValue>;
  dispose(): void;
}
