import { create } from 'zustand';
import type { GearSolids, SolidDetail } from '../../sim/gearset/solids.ts';
import type { MeshClient } from '../../sim/worker/client.ts';
import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import { useMesh } from './mesh.ts';
import { type DetailLevel, usePreferences } from './preferences.ts';

/** The drawable form of one gear set. */
export interface ShownSolids {
  readonly axleId: string;
  readonly detail: SolidDetail;
  readonly solids: GearSolids;
}

export interface SolidsStore {
  readonly shown: ShownSolids | null;
  readonly failure: WorkerFailure | null;
  readonly reset: () => void;
}

export const useSolids = create<SolidsStore>()((set) => ({
  shown: null,
  failure: null,
  reset: () => set({ shown: null, failure: null }),
}));

/** `auto` asks what the device says about itself: few cores or little memory draw the coarser teeth. */
function detailInForce(level: DetailLevel, device: { cores?: number; memoryGB?: number }): SolidDetail {
  if (level !== 'auto') return level;
  return (device.cores ?? 8) <= 4 || (device.memoryGB ?? 8) <= 4 ? 'reduced' : 'full';
}

function thisDevice(): { cores?: number; memoryGB?: number } {
  const { hardwareConcurrency, deviceMemory } = navigator as Navigator & { deviceMemory?: number };
  return { cores: hardwareConcurrency, memoryGB: deviceMemory };
}

/** Keeps the solids at the gear set that is shown, in the detail that is wanted. Returns a function that ends it. */
export function followShownSet(source: Pick<MeshClient, 'solids'>): () => void {
  let ended = false;
  let asked = '';
  const follow = async (): Promise<void> => {
    const axleId = useMesh.getState().shown?.axleId;
    if (axleId === undefined) return;
    const detail = detailInForce(usePreferences.getState().detail, thisDevice());
    const asking = `${axleId} ${detail}`;
    if (asking === asked) return;
    asked = asking;
    const outcome = await source.solids(axleId, detail);
    if (ended || asking !== asked) return;
    if (outcome.ok) useSolids.setState({ shown: { axleId, detail, solids: outcome.value }, failure: null });
    else useSolids.setState({ failure: outcome.failure });
  };
  const endings = [
    useMesh.subscribe((state, before) => {
      if (state.shown?.axleId !== before.shown?.axleId) void follow();
    }),
    usePreferences.subscribe((state, before) => {
      if (state.detail !== before.detail) void follow();
    }),
  ];
  void follow();
  return () => {
    ended = true;
    for (const end of endings) end();
  };
}
