import { create } from 'zustand';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import { poseOfFitment } from '../../sim/worker/assembly.ts';
import type { ShimMap, ShimMapPlane, ShimMapStride } from '../../sim/worker/longProtocol.ts';
import { SHIM_MAP_AXIS } from '../../sim/worker/longProtocol.ts';
import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import type { AnswerStore } from './answer.ts';
import { axleOf } from './axles.ts';
import type { ShimMapSource, ShownShimMap } from './shimMap.ts';

export type Answered = NonNullable<AnswerStore['answered']>;

/** Shims of a look on a map: mm from the design position, as shims alone would have it. */
export interface MatchPlane {
  readonly pinionIn: ShimMapPlane['pinionIn'];
  readonly ringAway: ShimMapPlane['ringAway'];
}

/**
 * The map of an answer as far as it is solved: every combination of shims, for the set and the housing that explain the
 * look best. Its plane is that of the shims, so that real thicknesses stand on it; where the gears really stand differs by
 * what the axle's own bearings and bores add, which the diagnosis has found.
 */
export interface MatchMap extends ShownShimMap {
  readonly plane: MatchPlane;
}

export interface MatchMapStore {
  readonly of: Answered | null;
  /** null until the first pass is done, and where the look contradicts itself */
  readonly shown: MatchMap | null;
  readonly failure: WorkerFailure | null;
}

export const useMatchMap = create<MatchMapStore>()(() => ({ of: null, shown: null, failure: null }));

/** Room beyond what is fitted now and then, mm. */
const BEYOND = 0.1;
const LEAST_HALF = (SHIM_MAP_AXIS.high - SHIM_MAP_AXIS.low) / 2;

const axisAround = (places: readonly number[]): MatchPlane['pinionIn'] => {
  const low = Math.min(...places);
  const high = Math.max(...places);
  const middle = (low + high) / 2;
  const half = Math.max(LEAST_HALF, (high - low) / 2 + BEYOND);
  return { low: middle - half, high: middle + half, count: SHIM_MAP_AXIS.count };
};

/** Both ways as wide as it takes to hold what is fitted now and what is advised. */
export function matchPlane(axleId: string, present: Fitment, advised: Fitment | null): MatchPlane {
  const { axle } = axleOf(axleId);
  const places = [present, ...(advised === null ? [] : [advised])].map((fitment) =>
    poseOfFitment(axle, fitment),
  );
  return {
    pinionIn: axisAround(places.map(({ pinionIn }) => pinionIn)),
    ringAway: axisAround(places.map(({ ringAway }) => ringAway)),
  };
}

const shifted = ({ low, high, count }: MatchPlane['pinionIn'], by: number): MatchPlane['pinionIn'] => ({
  low: low + by,
  high: high + by,
  count,
});

/** Works the map of an answer out, coarse first; a failure or a withdrawn request ends it. */
export async function workOutMatchMap(
  source: ShimMapSource,
  answered: Answered,
  signal: AbortSignal,
): Promise<void> {
  const { look, answer } = answered;
  const { advice, nearest, diagnosis } = answer;
  if (advice.kind === 'refused') {
    useMatchMap.setState({ of: answered, shown: null, failure: null });
    return;
  }
  const plane = matchPlane(look.axleId, look.fitment, advice.change?.fitment ?? null);
  const byShims = poseOfFitment(axleOf(look.axleId).axle, look.fitment);
  const thickness = diagnosis.nearest.set?.thickness ?? 0;
  const { pose } = nearest;
  // as the wishes are judged: not by a coat that came out thick or thin
  const film = axleOf(look.axleId).axle.film_mm;
  const subject = {
    axleId: look.axleId,
    offsetError: pose.offsetError,
    shaftAngleError: pose.shaftAngleError,
    film,
  };
  const show = (map: ShimMap, covered: ShimMapStride): void => {
    const { shown, of } = useMatchMap.getState();
    if (of === answered && shown !== null && shown.covered <= covered) return;
    useMatchMap.setState({
      of: answered,
      shown: {
        subject,
        map: onShims(map, plane, thickness),
        covered,
        home: { drive: advice.target.drive, coast: advice.target.coast },
        plane,
      },
      failure: null,
    });
  };
  const outcome = await source.shimMap(
    `${look.axleId} as seen`,
    answer.definition,
    {
      pinionIn: shifted(plane.pinionIn, pose.pinionIn - byShims.pinionIn),
      ringAway: shifted(plane.ringAway, pose.ringAway - byShims.ringAway),
      offsetError: pose.offsetError,
      shaftAngleError: pose.shaftAngleError,
      film,
    },
    {
      signal,
      onProgress: ({ map, covered }) => {
        if (!signal.aborted && map !== null && covered !== null && covered > 1) show(map, covered);
      },
    },
  );
  if (signal.aborted || outcome === null) return;
  if (outcome.ok) show(outcome.value, 1);
  else useMatchMap.setState({ of: answered, shown: null, failure: outcome.failure });
}

/** The same states, told by their shims; the teeth are `thickness` mm thinner at the dial than the set's definition. */
function onShims(map: ShimMap, { pinionIn, ringAway }: MatchPlane, thickness: number): ShimMap {
  return {
    ...map,
    plane: { ...map.plane, pinionIn, ringAway },
    dial: map.dial.map((reading) => reading + thickness),
    dialMean: map.dialMean.map((reading) => reading + thickness),
  };
}
