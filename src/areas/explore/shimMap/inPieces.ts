/** Work that can rest at every `yield`. */
export type Pieces<Result> = Generator<void, Result, void>;

/** ms of work at a stretch: shorter than anyone at a slider notices. */
const STRETCH_MS = 4;

/** The result of work in one go. */
export function atOnce<Result>(pieces: Pieces<Result>): Result {
  for (;;) {
    const step = pieces.next();
    if (step.done) return step.value;
  }
}

/** The result of work in short stretches, `rest` awaited before each; null once `signal` is aborted. */
export async function inPieces<Result>(
  pieces: Pieces<Result>,
  rest: () => Promise<void>,
  signal: AbortSignal,
): Promise<Result | null> {
  for (;;) {
    await rest();
    const end = performance.now() + STRETCH_MS;
    do {
      if (signal.aborted) return null;
      const step = pieces.next();
      if (step.done) return step.value;
    } while (performance.now() < end);
  }
}
