import type { AxleDefinition } from '../../../../models/axle.ts';
import { DESIGN_POSE, type Pose } from '../../../../sim/contact/pose.ts';
import { createShimMap } from '../../../../sim/contact/shimMap.ts';
import { MeshCore } from '../../../../sim/worker/core.ts';
import { LongCore } from '../../../../sim/worker/longCore.ts';
import type { ShimMap, ShimMapPlane, ShimMapStride } from '../../../../sim/worker/longProtocol.ts';
import { SHIM_MAP_AXIS } from '../../../../sim/worker/longProtocol.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';
import { unpackPiece } from '../../../../sim/worker/shimMapPiece.ts';
import { fieldsOf, type MapFields } from '../../../../src/shimMap/fields.ts';
import { axleOf } from '../../../../src/state/axles.ts';
import type { ShownShimMap } from '../../../../src/state/shimMap.ts';

const longCore = new LongCore();

/** A map as the second worker's core makes it, as far as the pass with `until` covers it. */
function solveMap(axleId: string, plane: ShimMapPlane, until: ShimMapStride = 1): ShimMap {
  const definition = axleOf(axleId).axle.gearset;
  const begun = longCore.beginShimMap({ kind: 'shimMap', gearSetId: axleId, definition, plane });
  if (!begun.ok) throw new Error(JSON.stringify(begun.failure));
  const { job } = begun.value;
  const map = createShimMap(plane);
  for (;;) {
    const next = longCore.nextOfShimMap(job);
    if (!next.ok) throw new Error(JSON.stringify(next.failure));
    if (next.value === null) return map;
    unpackPiece(map, next.value);
    if (next.value.covered === until) return map;
  }
}

export interface Drawn {
  readonly axle: AxleDefinition;
  readonly shown: ShownShimMap;
  readonly fields: MapFields;
}

/** The map of a practice axle as it is drawn: true housing unless told otherwise, its own film. */
export function drawnMap(
  axleId: string,
  until: ShimMapStride = 1,
  errors: Pick<Pose, 'offsetError' | 'shaftAngleError'> = { offsetError: 0, shaftAngleError: 0 },
): Drawn {
  const { axle } = axleOf(axleId);
  const film = axle.film_mm;
  const map = solveMap(axleId, { pinionIn: SHIM_MAP_AXIS, ringAway: SHIM_MAP_AXIS, ...errors, film }, until);
  const corner = { low: 0, high: 0.01, count: 2 };
  const home = solveMap(axleId, {
    pinionIn: corner,
    ringAway: corner,
    offsetError: 0,
    shaftAngleError: 0,
    film,
  });
  const centre = (flank: 'drive' | 'coast') => ({
    toeHeel: home[flank].toeHeel[0],
    rootFace: home[flank].rootFace[0],
  });
  const shown: ShownShimMap = {
    subject: { axleId, film, ...errors },
    map,
    covered: until,
    home: { drive: centre('drive'), coast: centre('coast') },
  };
  return { axle, shown, fields: fieldsOf(shown, axle.limits.backlash.reads, turningLever(axleId)) };
}

const core = new MeshCore();

/** Directly solved poses of one axle, on the display grid. */
export function directSolver(axleId: string): (pose: Pose) => SolveResult {
  const { axle } = axleOf(axleId);
  core.load(axleId, axle.gearset);
  return (pose) => {
    const solved = core.solve(axleId, pose, axle.film_mm);
    if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
    return solved.value;
  };
}

function turningLever(axleId: string): number {
  const { normal, tangential } = directSolver(axleId)(DESIGN_POSE).backlash;
  return (tangential ?? Number.NaN) / (normal ?? Number.NaN);
}
