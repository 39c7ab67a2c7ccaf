import { startTransition, useEffect, useRef, useState } from 'react';
import type { AxleDefinition } from '../../models/axle.ts';
import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import { aboutToDraw } from '../state/pageRest.ts';
import type { ShownShimMap } from '../state/shimMap.ts';
import { mapPainter } from './mapPainter.ts';
import type { MapFrame, MapPicture } from './pictureProtocol.ts';
import type { BoxSize } from './useBoxSize.ts';

/** A picture and the size it was painted for. */
export interface SizedPicture extends MapPicture {
  readonly size: BoxSize;
}

interface Finished {
  readonly of: ShownShimMap;
  readonly axle: AxleDefinition;
  readonly picture: SizedPicture;
}

/** What happens when a picture cannot be painted. */
export interface PaintingTrouble {
  /** counts the times it was asked for again */
  readonly attempt: number;
  /** the same function from one drawing of the page to the next */
  readonly onFailure: (failure: WorkerFailure) => void;
}

/** ms between two pictures of one map at least: a frame takes as much of a slow machine as the map itself. */
const BETWEEN_MS = 250;

/**
 * The picture of the map as far as it is solved: of the pass before while that of a new one is painted; but never one of
 * another axle, film or housing. Null until there is one. `turning` and `frame` are null until they are known.
 */
export function useMapPicture(
  shown: ShownShimMap | null,
  axle: AxleDefinition,
  turning: number | null,
  frame: MapFrame | null,
  { attempt, onFailure }: PaintingTrouble,
): SizedPicture | null {
  const [finished, setFinished] = useState<Finished | null>(null);
  const last = useRef({ subject: shown?.subject, at: Number.NEGATIVE_INFINITY });
  // biome-ignore lint/correctness/useExhaustiveDependencies: told to go on after a failure, it is painted again
  useEffect(() => {
    if (shown === null || turning === null || frame === null) return;
    const abort = new AbortController();
    const work = async () => {
      const { subject, at } = last.current;
      // a pass that is soon followed by a finer one is left out
      if (subject === shown.subject && shown.covered > 1) await pause(at + BETWEEN_MS - performance.now());
      const { pinionShim, limits } = axle;
      const request = { shown, pinionShim, backlash: limits.backlash, turning, frame };
      const outcome = await mapPainter().paint(request, abort.signal);
      if (outcome === null) return;
      if (!outcome.ok) {
        onFailure(outcome.failure);
        return;
      }
      const picture = { ...outcome.value, size: frame.size };
      startTransition(() => setFinished({ of: shown, axle, picture }));
      aboutToDraw();
      last.current = { subject: shown.subject, at: performance.now() };
    };
    void work();
    return () => abort.abort();
  }, [shown, axle, turning, frame, attempt, onFailure]);
  return finished !== null && finished.of.subject === shown?.subject && finished.axle === axle
    ? finished.picture
    : null;
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, Math.max(0, ms)));
