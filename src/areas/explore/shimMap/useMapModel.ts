import { useMemo, useRef } from 'react';
import type { AxleDefinition } from '../../../../models/axle.ts';
import { fittedNow } from '../../../../sim/worker/assembly.ts';
import { SHIM_MAP_AXIS } from '../../../../sim/worker/longProtocol.ts';
import type { WorkerFailure } from '../../../../sim/worker/protocol.ts';
import { type Combinations, combinationsOf } from '../../../shimMap/combinations.ts';
import type { MapFrame } from '../../../shimMap/pictureProtocol.ts';
import { type SizedPicture, useMapPicture } from '../../../shimMap/useMapPicture.ts';
import { useMesh } from '../../../state/mesh.ts';
import { preloadToHold } from '../../../state/positions.ts';
import { useShimMap } from '../../../state/shimMap.ts';
import { useShownSetup } from '../../../state/shownSetup.ts';
import { useFineStep } from '../useAxle.ts';
import { type BestPlace, bestPlace } from './bestPlace.ts';

/** Of every map. */
export const AXES = { pinionIn: SHIM_MAP_AXIS, ringAway: SHIM_MAP_AXIS } as const;

/** A map that can be drawn and asked. */
export interface DrawnMap extends SizedPicture {
  readonly best: BestPlace | null;
}

export interface MapModel {
  readonly axle: AxleDefinition;
  readonly axes: typeof AXES;
  /** what the pointer can stand on */
  readonly combinations: Combinations;
  /** what real parts give; `best` is one of these */
  readonly stock: Combinations;
  readonly fineStep: number | null;
  readonly drawn: DrawnMap | null;
}

/**
 * Everything the map's drawing and words rest on; changes neither with the shims nor with the pointer. `frame` is null
 * until the place on the screen is known.
 */
export function useMapModel(axle: AxleDefinition, frame: MapFrame | null): MapModel {
  const fineStep = useFineStep();
  const preload = useShownSetup(({ setup }) => preloadToHold(axle, fittedNow(axle), setup.fitment));
  const shown = useShimMap((state) => state.shown);
  const attempt = useShimMap((state) => state.attempt);
  const turning = useTurningLever();
  const drawn = useMapPicture(shown, axle, turning, frame, { attempt, onFailure });

  const stock = useMemo(() => combinationsOf(axle, preload, AXES, null), [axle, preload]);
  const combinations = useMemo(
    () => (fineStep === null ? stock : combinationsOf(axle, preload, AXES, fineStep)),
    [axle, preload, fineStep, stock],
  );
  return useMemo(() => {
    const best = drawn === null ? null : bestPlace(drawn.fields, axle.limits.backlash, stock);
    return {
      axle,
      axes: AXES,
      combinations,
      stock,
      fineStep,
      drawn: drawn === null ? null : { ...drawn, best },
    };
  }, [axle, combinations, stock, fineStep, drawn]);
}

const onFailure = (failure: WorkerFailure): void => useShimMap.setState({ progress: null, failure });

/** Readings nearer to nothing than this make a quotient of two tiny numbers. */
const ENOUGH = 1e-4;

/**
 * What a dial along the turning direction reads for 1 mm square to the flank. The same in every pose of a gear set, so
 * any solved state of it will do; null until there is one.
 */
function useTurningLever(): number | null {
  const axleId = useShownSetup(({ setup }) => setup.axleId);
  const last = useRef<{ readonly axleId: string; readonly lever: number } | null>(null);
  return useMesh(({ shown }) => {
    if (last.current?.axleId === axleId) return last.current.lever;
    if (shown === null || shown.axleId !== axleId) return null;
    const { normal, tangential } = shown.result.backlash;
    if (normal === null || tangential === null || Math.abs(normal) < ENOUGH) return null;
    last.current = { axleId, lever: tangential / normal };
    return last.current.lever;
  });
}
