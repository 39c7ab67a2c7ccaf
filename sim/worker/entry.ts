import * as Comlink from 'comlink';
import type { GearSolids, TriangleMesh } from '../gearset/solids.ts';
import { MeshCore } from './core.ts';
import type { FlankResult, Outcome, SolveResult } from './protocol.ts';

/** The worker's side: results leave by transfer, nothing is copied. */
const core = new MeshCore();

const flankBuffers = (flank: FlankResult): ArrayBufferLike[] => [
  flank.separation.buffer,
  flank.tipClearance.buffer,
  flank.phase.buffer,
  flank.transmissionErrorCurve.buffer,
];

const meshBuffers = (mesh: TriangleMesh): ArrayBufferLike[] => [
  mesh.positions.buffer,
  mesh.normals.buffer,
  mesh.flankUv.buffer,
  mesh.surfaceKind.buffer,
  mesh.indices.buffer,
];

const solveBuffers = ({ drive, coast, freePlayCurve }: SolveResult) => [
  ...flankBuffers(drive),
  ...flankBuffers(coast),
  freePlayCurve.buffer,
];

const solidBuffers = ({ ring, pinion }: GearSolids) =>
  [ring, pinion].flatMap((member) => [...meshBuffers(member.sector), ...meshBuffers(member.body)]);

const handOver = <T>(outcome: Outcome<T>, buffers: (value: T) => ArrayBufferLike[]): Outcome<T> =>
  outcome.ok ? Comlink.transfer(outcome, buffers(outcome.value) as Transferable[]) : outcome;

const api = {
  load: core.load.bind(core),
  solve: (...request: Parameters<MeshCore['solve']>) => handOver(core.solve(...request), solveBuffers),
  solids: (...request: Parameters<MeshCore['solids']>) => handOver(core.solids(...request), solidBuffers),
};

export type WorkerApi = typeof api;

// The second argument matters where the worker scope is not the global one (vitest's node worker).
Comlink.expose(api, self as unknown as Comlink.Endpoint);
