import { useSetup } from './setup.ts';

/** ms after a step within which the next one of a held key or a drag comes. */
const REST_MS = 100;

let lastStep = Number.NEGATIVE_INFINITY;
useSetup.subscribe(({ live }, before) => {
  if (live !== before.live) lastStep = performance.now();
});

/**
 * Resolves at once while no hand is at a control, else a little later: long work then takes one piece between steps and
 * leaves the processor to the step itself.
 */
export async function whenHandRests(): Promise<void> {
  const left = lastStep + REST_MS - performance.now();
  if (left > 0) await new Promise((resolve) => setTimeout(resolve, left));
}
