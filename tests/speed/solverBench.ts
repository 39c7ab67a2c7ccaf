import { PerformanceObserver } from 'node:perf_hooks';
import { DISPLAY_GRID } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { buildOracle } from '../oracle/bruteForce.ts';
import { seededRandom } from '../support/random.ts';
import { REFERENCE_FILM, referenceSet } from '../support/referenceSets.ts';
import { createFloor } from './floor.ts';

/** Speed of the core in one run: times in ms, ratios between times of the same run. */
export interface SolverBench {
  /** two flanks on 61×31 with descriptors and backlash */
  readonly solveMs: number;
  /** the bare arithmetic of as many points, see floor.ts */
  readonly floorMs: number;
  readonly floorRatio: number;
  /** brute-force search: 201×81 points, 24 pinion angles, both flanks; every point on the exact flank */
  readonly bruteForceMs: number;
  readonly bruteForceRatio: number;
  /** the same search helped by a table that throws out far points */
  readonly screenedBruteForceMs: number;
  readonly screenedBruteForceRatio: number;
  /** face-milled and face-hobbed sets apart */
  readonly solveMsBySet: Readonly<Record<'a' | 'b', number>>;
}

/** What 10,000 solves leave on the heap. */
export interface HeapBench {
  readonly heapSolves: number;
  /** bytes still held after a forced collection */
  readonly heapGrowthBytes: number;
  /** bytes taken per solve while no collection ran */
  readonly allocatedBytesPerSolve: number;
  /** collections that the 10,000 solves caused */
  readonly collections: number;
}

const poses = (count: number): Pose[] => {
  const random = seededRandom(77);
  return Array.from({ length: count }, () => ({
    pinionIn: random.between(-0.3, 0.3),
    ringAway: random.between(-0.3, 0.3),
    offsetError: random.between(-0.1, 0.1),
    shaftAngleError: random.between(-0.05, 0.05),
  }));
};

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((p, q) => p - q);
  return sorted[sorted.length >> 1];
};

const timeOf = (work: () => void): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

const createSolves = (name: 'a' | 'b', list: readonly Pose[]): (() => void) => {
  const solver = new MeshSolver(buildGearMesh(referenceSet(name)));
  const solution = solver.createSolution();
  return () => {
    for (const pose of list) solver.solve(pose, REFERENCE_FILM, solution);
  };
};

const BLOCK = 40;
const ROUNDS = 41;

/** Solver against the arithmetic floor and the oracle; blocks alternate so that both see the same machine. */
export const benchSolver = (): SolverBench => {
  const list = poses(BLOCK);
  const solves = { a: createSolves('a', list), b: createSolves('b', list) };
  const floor = createFloor(2 * DISPLAY_GRID.columns * DISPLAY_GRID.rows);
  let kept = 0;
  const floors = () => {
    for (let i = 0; i < BLOCK; i++) kept += floor();
  };
  for (let i = 0; i < 10; i++) {
    solves.a();
    solves.b();
    floors();
  }
  const times = { a: [] as number[], b: [] as number[], floor: [] as number[] };
  for (let round = 0; round < ROUNDS; round++) {
    times.a.push(timeOf(solves.a) / BLOCK);
    times.floor.push(timeOf(floors) / BLOCK);
    times.b.push(timeOf(solves.b) / BLOCK);
  }
  if (!Number.isFinite(kept)) throw new Error('the floor computed nonsense');
  const solveMsBySet = { a: median(times.a), b: median(times.b) };
  const solveMs = 0.5 * (solveMsBySet.a + solveMsBySet.b);
  const floorMs = median(times.floor);
  const bruteForceMs = benchOracle(false, 1);
  const screenedBruteForceMs = benchOracle(true, 5);
  return {
    solveMs,
    floorMs,
    floorRatio: solveMs / floorMs,
    bruteForceMs,
    bruteForceRatio: bruteForceMs / solveMs,
    screenedBruteForceMs,
    screenedBruteForceRatio: screenedBruteForceMs / solveMs,
    solveMsBySet,
  };
};

const benchOracle = (screened: boolean, rounds: number): number => {
  const oracle = buildOracle(referenceSet('a'));
  oracle.mesh({}, { screened }).backlash();
  const list = poses(rounds);
  return median(list.map((pose) => timeOf(() => void oracle.mesh(pose, { screened }).backlash())));
};

const HEAP_SOLVES = 10_000;

/** Needs a Node started with --expose-gc. */
export const benchHeap = async (): Promise<HeapBench> => {
  const collect = (globalThis as { gc?: () => void }).gc;
  if (!collect) throw new Error('start node with --expose-gc');
  const solver = new MeshSolver(buildGearMesh(referenceSet('a')));
  const solution = solver.createSolution();
  const list = poses(100);
  const run = (solves: number) => {
    for (let i = 0; i < solves; i++) solver.solve(list[i % list.length], REFERENCE_FILM, solution);
  };
  run(3000);
  let collections = 0;
  const observer = new PerformanceObserver((entries) => {
    collections += entries.getEntries().length;
  });
  observer.observe({ entryTypes: ['gc'] });
  collect();
  collect();
  await new Promise((resolve) => setTimeout(resolve, 50));
  const settled = collections;
  const before = process.memoryUsage().heapUsed;
  run(HEAP_SOLVES);
  const after = process.memoryUsage().heapUsed;
  await new Promise((resolve) => setTimeout(resolve, 50));
  const during = collections - settled;
  collect();
  collect();
  const held = process.memoryUsage().heapUsed;
  observer.disconnect();
  return {
    heapSolves: HEAP_SOLVES,
    heapGrowthBytes: held - before,
    allocatedBytesPerSolve: (after - before) / HEAP_SOLVES,
    collections: during,
  };
};
