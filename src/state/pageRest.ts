import { whenHandRests } from './handRest.ts';

/** ms after which a frame is no longer waited for: a page out of sight draws none. */
const FRAME_MS = 200;

let drawn: Promise<void> = Promise.resolve();

const nextFrame = (): Promise<void> => new Promise((resolve) => requestAnimationFrame(() => resolve()));

/** Tells that something large is about to be drawn: long work leaves the processor to it until it is on the screen. */
export function aboutToDraw(): void {
  // one frame may be on its way while the next is begun
  const frames = nextFrame().then(nextFrame).then(nextFrame);
  const late = new Promise<void>((resolve) => setTimeout(resolve, FRAME_MS));
  drawn = Promise.race([frames, late]);
}

/** Resolves when neither a hand at a control nor a large drawing needs the processor; at the latest some 300 ms from now. */
export async function whenPageRests(): Promise<void> {
  await whenHandRests();
  await drawn;
}
