import { useMemo } from 'react';
import type { AxleDefinition } from '../../../../models/axle.ts';
import type { DialDirection } from '../../../../sim/assembly/dial.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';
import { axleOf } from '../../../state/axles.ts';
import { type DialPlace, type DialRound, placeShown, useDial } from '../../../state/dial.ts';
import { useMesh } from '../../../state/mesh.ts';
import { leastPhase, type NoPlay, type Play, playOf } from './play.ts';

/** What the dial shows: everything its parts draw from. */
export interface DialView {
  readonly axle: AxleDefinition;
  readonly direction: DialDirection;
  /** the pose that is read: at the place looked at, or of a ring that runs true */
  readonly result: SolveResult;
  readonly play: Play | NoPlay;
  readonly place: DialPlace | null;
  /** readings round the ring of the axle shown; null until they are worked out */
  readonly round: DialRound | null;
  /** tooth in mesh, and rad past its own place where the play is least */
  readonly ring: { readonly tooth: number; readonly phase: number };
}

/** Null until the first mesh is solved. */
export function useDialView(): DialView | null {
  const shown = useMesh((state) => state.shown);
  const held = useDial((state) => state.direction);
  const place = useDial((state) => placeShown(state, shown));
  const lastRound = useDial((state) => state.round);
  return useMemo(() => {
    if (shown === null) return null;
    const { axle } = axleOf(shown.axleId);
    const direction = held ?? axle.limits.backlash.reads;
    const result = place?.result ?? shown.result;
    return {
      axle,
      direction,
      result,
      play: playOf(result, direction),
      place,
      round: lastRound?.mesh.axleId === shown.axleId ? lastRound : null,
      ring: { tooth: place?.tooth ?? 0, phase: leastPhase(result, axle.gearset.ringTeeth) },
    };
  }, [shown, held, place, lastRound]);
}
