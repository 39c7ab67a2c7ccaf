import { create } from 'zustand';
import type { SpreadSample } from '../../sim/contact/spread.ts';
import { DEFAULT_UNKNOWNS, type LongService, type Spread } from '../../sim/worker/longProtocol.ts';
import { type Adjustment, adjustmentsOf } from './adjustments.ts';
import { axleOf } from './axles.ts';
import { type ShownMesh, useMesh } from './mesh.ts';
import { fineStepInForce } from './moves.ts';
import { useSetup } from './setup.ts';

/** What the mark may be as well, with the unknowns of the axle elsewhere. */
export interface ShownSpread {
  readonly of: ShownMesh;
  /** in the order of `spread.moves` */
  readonly adjustments: readonly Adjustment[];
  readonly spread: Spread;
  /** every set that was tried, once all have been */
  readonly samples: readonly SpreadSample[];
  /** sets tried so far, of how many */
  readonly tried: number;
  readonly total: number;
}

export interface SpreadStore {
  /** the last one, also while the next is on its way; null until the first answer */
  readonly shown: ShownSpread | null;
  readonly running: boolean;
  /** the user has stopped it; it starts again with the next change */
  readonly stopped: boolean;
  /** the last question had no answer */
  readonly failed: boolean;
  readonly stop: () => void;
  readonly reset: () => void;
}

const NOTHING = { shown: null, running: false, stopped: false, failed: false } as const;

let asking: AbortController | null = null;

export const useSpread = create<SpreadStore>()((set) => ({
  ...NOTHING,
  stop: () => {
    asking?.abort();
    set({ running: false, stopped: true });
  },
  reset: () => {
    asking?.abort();
    set(NOTHING);
  },
}));

/** Sets that are tried: the share that goes one way is then known to a few percent. */
const SPREAD_SETS = 96;
/** ms without a change before it begins */
const SPREAD_REST_MS = 400;

export type SpreadSource = Pick<LongService, 'spread'>;

/** Keeps the spread at the mesh that is shown, whenever it has come to rest. Returns a function that ends it. */
export function followSpread(source: SpreadSource): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;

  const ask = async (): Promise<void> => {
    const { shown: mesh, pending } = useMesh.getState();
    const { live } = useSetup.getState();
    if (mesh === null || pending || mesh.axleId !== live.axleId) return;
    const mine = new AbortController();
    asking = mine;
    const { axle } = axleOf(mesh.axleId);
    const { pose, film } = mesh.result;
    const adjustments = adjustmentsOf(axle, pose, fineStepInForce());
    const show = (spread: Spread, tried: number, samples: readonly SpreadSample[] = []) =>
      useSpread.setState({
        shown: { of: mesh, adjustments, spread, samples, tried, total: SPREAD_SETS },
        failed: false,
      });
    useSpread.setState({ running: true, stopped: false });
    const steps = adjustments.map(({ step }) => step);
    const question = { pose, film, steps };
    const answer = await source.spread(mesh.axleId, axle.gearset, question, SPREAD_SETS, DEFAULT_UNKNOWNS, {
      signal: mine.signal,
      onProgress: ({ spread, drawn }) => {
        if (!mine.signal.aborted) show(spread, drawn);
      },
    });
    if (answer === null || mine.signal.aborted) return;
    if (answer.ok) show(answer.value.spread, SPREAD_SETS, answer.value.samples);
    useSpread.setState({ running: false, failed: !answer.ok });
  };
  const rest = (): void => {
    asking?.abort();
    clearTimeout(timer);
    timer = setTimeout(ask, SPREAD_REST_MS);
  };
  const unsubscribe = useMesh.subscribe((state, before) => {
    if (state.shown !== before.shown || state.pending !== before.pending) rest();
  });
  void ask();
  return () => {
    clearTimeout(timer);
    unsubscribe();
    useSpread.getState().reset();
  };
}
