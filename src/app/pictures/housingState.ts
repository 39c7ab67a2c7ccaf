import { useEffect, useMemo, useState } from 'react';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import type { Pose } from '../../../sim/contact/pose.ts';
import type { LargerMoves } from '../../../sim/worker/longProtocol.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import type { HousingAxle } from '../../stage/housing/HousingStage.tsx';
import type { HousingState } from '../../stage/housing/housingScene.ts';
import { layOutHousing } from '../../stage/housing/layout.ts';
import { mostLarger, movesOf, SPARE } from '../../stage/housing/places.ts';
import { axleOf } from '../../state/axles.ts';
import { longService } from '../../state/longService.ts';
import { poseOfSetup, useMesh } from '../../state/mesh.ts';
import { useSetup } from '../../state/setup.ts';
import { useSolids } from '../../state/solids.ts';

/** An axle to draw and the newest complete state of it. */
export interface HousingShown {
  readonly axle: HousingAxle | null;
  /** what is fitted in it now */
  readonly fitment: Fitment | null;
  readonly state: HousingState | null;
}

const samePose = (a: Pose, b: Pose): boolean =>
  a.pinionIn === b.pinionIn &&
  a.ringAway === b.ringAway &&
  a.offsetError === b.offsetError &&
  a.shaftAngleError === b.shaftAngleError;

/** Nothing larger than it is: what is drawn when the second worker cannot say. */
const trueToSize = ({ freePlayCurve, drive, backlash }: SolveResult): LargerMoves => ({
  largest: 1,
  endedBy: 'most',
  factors: Float64Array.of(0, 1),
  freePlay: new Float64Array(2).fill(freePlayCurve[0]),
  driveError: new Float64Array(2).fill(drive.transmissionErrorCurve[0]),
  dial: new Float64Array(2).fill(backlash.normal ?? 0),
});

/**
 * The housing follows the set-up: each solved pose is asked how much larger its moves can be drawn, and shims, gears and
 * paint change together when that is known. Of poses that come faster than answers only the newest is asked about.
 */
export function useHousing(): HousingShown {
  const solids = useSolids((store) => store.shown);
  const axle = useMemo((): HousingAxle | null => {
    if (solids === null) return null;
    const { axle: definition } = axleOf(solids.axleId);
    return {
      solids: solids.solids,
      detail: solids.detail,
      layout: layOutHousing(solids.solids, definition.gearset.offset, definition),
    };
  }, [solids]);
  const axleId = solids?.axleId ?? null;
  const shown = useMesh((store) => store.shown);
  const live = useSetup((store) => store.live);
  const [state, setState] = useState<{ axle: HousingAxle; state: HousingState } | null>(null);

  useEffect(() => {
    if (axle === null || shown === null || shown.axleId !== axleId || live.axleId !== axleId) return;
    // the answer to an older set-up: its own follows
    if (!samePose(shown.result.pose, poseOfSetup(live))) return;
    const { result } = shown;
    const { fitment } = live;
    const { gearset } = axleOf(live.axleId).axle;
    const asking = new AbortController();
    const most = mostLarger(axle.layout, movesOf(axle.layout.hardware, fitment));
    void longService()
      .largerMoves(live.axleId, gearset, result.pose, most, SPARE[axle.detail], { signal: asking.signal })
      .then((answer) => {
        if (answer === null || asking.signal.aborted) return;
        const known = { fitment, pose: result.pose, solution: result };
        const found: HousingState = answer.ok
          ? { ...known, larger: answer.value }
          : { ...known, larger: trueToSize(result), notFound: true };
        setState({ axle, state: found });
      });
    return () => asking.abort();
  }, [axle, axleId, shown, live]);

  return {
    axle,
    fitment: live.axleId === axleId ? live.fitment : null,
    state: state !== null && state.axle === axle ? state.state : null,
  };
}
