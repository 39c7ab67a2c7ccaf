import { startTransition, useEffect, useRef, useState } from 'react';
import type { AxleDefinition } from '../../../../models/axle.ts';
import { whenHandRests } from '../../../state/handRest.ts';
import { aboutToDraw } from '../../../state/pageRest.ts';
import type { ShownShimMap } from '../../../state/shimMap.ts';
import { fieldsInPieces, type MapFields } from './fields.ts';
import { inPieces, type Pieces } from './inPieces.ts';
import { type Regions, regionsInPieces } from './regions.ts';

/** What is drawn of a map. */
export interface MapPicture {
  readonly fields: MapFields;
  readonly regions: Regions;
}

interface Finished {
  readonly of: ShownShimMap;
  readonly axle: AxleDefinition;
  readonly picture: MapPicture;
}

/** ms between two pictures of one map at least: a frame takes as much of a slow machine as the map itself. */
const BETWEEN_MS = 250;

/**
 * The picture of the map as far as it is solved: of the pass before while that of a new one is worked out, which takes
 * its time between the steps of whatever the hand is moving; but never one of another axle, film or housing.
 */
export function useMapPicture(
  shown: ShownShimMap | null,
  axle: AxleDefinition,
  turning: number | null,
): MapPicture | null {
  const [finished, setFinished] = useState<Finished | null>(null);
  const last = useRef({ subject: shown?.subject, at: Number.NEGATIVE_INFINITY });
  useEffect(() => {
    if (shown === null || turning === null) return;
    const abort = new AbortController();
    const work = async () => {
      const { subject, at } = last.current;
      // a pass that is soon followed by a finer one is left out
      if (subject === shown.subject && shown.covered > 1) await pause(at + BETWEEN_MS - performance.now());
      const picture = await inPieces(picturePieces(shown, axle, turning), betweenSteps, abort.signal);
      if (picture === null) return;
      startTransition(() => setFinished({ of: shown, axle, picture }));
      aboutToDraw();
      last.current = { subject: shown.subject, at: performance.now() };
    };
    void work();
    return () => abort.abort();
  }, [shown, axle, turning]);
  return finished !== null && finished.of.subject === shown?.subject && finished.axle === axle
    ? finished.picture
    : null;
}

function* picturePieces(shown: ShownShimMap, axle: AxleDefinition, turning: number): Pieces<MapPicture> {
  const { backlash } = axle.limits;
  const fields = yield* fieldsInPieces(shown, backlash.reads, turning);
  return { fields, regions: yield* regionsInPieces(fields, backlash) };
}

/** Lets keys and answers in, and does not come between the steps of a hand. */
async function betweenSteps(): Promise<void> {
  await pause(0);
  await whenHandRests();
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, Math.max(0, ms)));
