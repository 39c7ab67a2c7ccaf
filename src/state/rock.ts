/** Seconds of one way from drive contact to coast contact, and of standing at either end. */
const WAY = 0.9;
const STAND = 0.55;
/** With reduced motion: seconds each step stands, and the steps of there and back. */
const STEP_STANDS = 0.8;
const STEPS = [0, 0.5, 1, 0.5] as const;

/**
 * How far the ring is rocked while the pinion is held: `share` 0 is drive contact, 1 is coast contact. Not a store:
 * it changes with every frame, and what shows it is told without any state of the page being set.
 */
export class Rock {
  share = 0;
  rocking = false;
  /** single steps instead of motion */
  reducedMotion = false;
  /** false: nothing to rock within */
  free = true;
  private since = 0;
  private readonly listeners = new Set<() => void>();

  /** `listener` is called after every change; returns a function that ends it. */
  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** By hand: ends the rocking. */
  hold(share: number): void {
    this.rocking = false;
    this.put(Math.min(Math.max(share, 0), 1));
  }

  /** Goes on from where the ring stands; in steps from the nearest step. */
  start(): void {
    if (!this.free) return;
    this.rocking = true;
    this.since = this.reducedMotion ? Math.round(this.share * 2) * STEP_STANDS : timeOf(this.share);
    this.tell();
  }

  stop(): void {
    this.rocking = false;
    this.tell();
  }

  toggle(): void {
    if (this.rocking) this.stop();
    else this.start();
  }

  /** Advances by `seconds`; true while it rocks. */
  advance(seconds: number): boolean {
    if (!this.rocking) return false;
    this.since += seconds;
    this.put(this.reducedMotion ? stepAt(this.since) : shareAt(this.since));
    return true;
  }

  /** Whether there is play to rock within; without it the ring stands on drive contact. */
  setFree(free: boolean): void {
    this.free = free;
    if (!free) this.hold(0);
  }

  private put(share: number): void {
    if (share === this.share && this.rocking) return;
    this.share = share;
    this.tell();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

const smooth = (t: number): number => t * t * (3 - 2 * t);

/** There, stand, back, stand; starts at drive contact. */
function shareAt(seconds: number): number {
  const t = seconds % (2 * (WAY + STAND));
  if (t < WAY) return smooth(t / WAY);
  if (t < WAY + STAND) return 1;
  if (t < 2 * WAY + STAND) return smooth(1 - (t - WAY - STAND) / WAY);
  return 0;
}

const stepAt = (seconds: number): number => STEPS[Math.floor(seconds / STEP_STANDS) % STEPS.length];

/** Time on the way there at which the ring stands at `share`: the root of the smooth step. */
function timeOf(share: number): number {
  if (share >= 1) return WAY;
  return WAY * (0.5 - Math.sin(Math.asin(1 - 2 * share) / 3));
}

/** The one rock of the page: its picture, its key and its slider are the same hand. */
export const rock = new Rock();
