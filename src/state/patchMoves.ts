import { create } from 'zustand';
import type { LongService, PatchMoves } from '../../sim/worker/longProtocol.ts';
import { type Adjustment, adjustmentsOf } from './adjustments.ts';
import { axleOf } from './axles.ts';
import { useBacklashLock } from './backlashLock.ts';
import { type ShownMesh, useMesh } from './mesh.ts';
import { fineStepInForce } from './moves.ts';
import { usePreferences } from './preferences.ts';
import { useSetup } from './setup.ts';

/** Where one step of an adjustment takes both marks. */
export interface AdjustmentMoves {
  readonly adjustment: Adjustment;
  /** the pinion's step with the backlash kept: the ring moves too */
  readonly backlashKept: boolean;
  readonly moves: PatchMoves;
}

export interface PatchMovesStore {
  /** of the mesh `of`; null until the first answer */
  readonly shown: { readonly of: ShownMesh; readonly list: readonly AdjustmentMoves[] } | null;
  /** the last question had no answer */
  readonly failed: boolean;
  readonly reset: () => void;
}

const NOTHING = { shown: null, failed: false } as const;

export const usePatchMoves = create<PatchMovesStore>()((set) => ({
  ...NOTHING,
  reset: () => set(NOTHING),
}));

/** ms without a change before the moves are asked for: a step under way never waits for them. */
const MOVES_REST_MS = 200;

export type PatchMovesSource = Pick<LongService, 'patchMoves'>;

/** Keeps the moves at the mesh that is shown, whenever it has come to rest. Returns a function that ends it. */
export function followPatchMoves(source: PatchMovesSource): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asking: AbortController | null = null;

  const ask = async (): Promise<void> => {
    const { shown: mesh, pending } = useMesh.getState();
    const { live } = useSetup.getState();
    if (mesh === null || pending || mesh.axleId !== live.axleId) return;
    asking = new AbortController();
    const { signal } = asking;
    const list = await movesOf(source, mesh, signal);
    if (signal.aborted) return;
    if (list === null) usePatchMoves.setState({ failed: true });
    else usePatchMoves.setState({ shown: { of: mesh, list }, failed: false });
  };
  const rest = (): void => {
    asking?.abort();
    clearTimeout(timer);
    timer = setTimeout(ask, MOVES_REST_MS);
  };

  const endings = [
    useMesh.subscribe((state, before) => {
      if (state.shown !== before.shown || state.pending !== before.pending) rest();
    }),
    usePreferences.subscribe((state, before) => {
      if (state.fine !== before.fine || state.fineStep !== before.fineStep) rest();
    }),
    useBacklashLock.subscribe((state, before) => {
      if (state.on !== before.on) rest();
    }),
  ];
  void ask();
  return () => {
    asking?.abort();
    clearTimeout(timer);
    for (const end of endings) end();
  };
}

/** Null when there is no answer, or no longer a question. */
async function movesOf(
  source: PatchMovesSource,
  { axleId, result: { pose, film } }: ShownMesh,
  signal: AbortSignal,
): Promise<readonly AdjustmentMoves[] | null> {
  const { axle } = axleOf(axleId);
  const adjustments = adjustmentsOf(axle, pose, fineStepInForce());
  const ask = async (steps: readonly Adjustment['step'][]): Promise<readonly PatchMoves[] | null> => {
    const answer = await source.patchMoves(axleId, axle.gearset, pose, film, steps, { signal });
    return answer?.ok ? answer.value : null;
  };
  const moves = await ask(adjustments.map(({ step }) => step));
  if (moves === null) return null;
  const list = adjustments.map(
    (adjustment, i): AdjustmentMoves => ({ adjustment, backlashKept: false, moves: moves[i] }),
  );
  if (!useBacklashLock.getState().on) return list;

  // the ring that brings the dial back, by what both steps do to it
  const [pinion, ring, ...others] = list;
  const compensation = -(pinion.moves.dial ?? Number.NaN) / (ring.moves.dial ?? Number.NaN);
  if (!Number.isFinite(compensation)) return list;
  const ringAway = compensation * (ring.adjustment.step.ringAway ?? 0);
  const together = await ask([{ ...pinion.adjustment.step, ringAway }]);
  if (together === null) return null;
  return [{ ...pinion, backlashKept: true, moves: together[0] }, ring, ...others];
}
