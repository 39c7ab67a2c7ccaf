import { AXLES } from '../../models/index.ts';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import { adviseFrom } from '../../sim/diagnose/adviseFrom.ts';
import { diagnose } from '../../sim/diagnose/diagnose.ts';
import { ForwardModel } from '../../sim/diagnose/forwardModel.ts';
import type { Observation } from '../../sim/diagnose/observation.ts';
import type { Regime } from '../../sim/diagnose/unknowns.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { workbench } from '../support/diagnoseStudy.ts';
import { seededRandom } from '../support/random.ts';
import { type Form, lookAt } from '../support/virtualLooks.ts';

/** Speed of diagnosis and advice: medians in ms, and in display-grid solves of the same run. */
export interface DiagnoseBench {
  readonly diagnoseKnownMs: number;
  readonly diagnoseUnknownMs: number;
  /** painted regions, unknown set: the slowest kind */
  readonly diagnoseRegionsMs: number;
  readonly adviseMs: number;
  /** making a gear set ready for diagnosis */
  readonly diagnoseBuildMs: number;
  readonly diagnoseUnknownPerSolve: number;
  readonly diagnoseRegionsPerSolve: number;
  readonly advisePerSolve: number;
}

const ROUNDS = 15;

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

const timeOf = (work: () => void): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

/** Blocks alternate, so that all see the same machine. */
export const benchDiagnose = (): DiagnoseBench => {
  const bench = workbench('borrin');
  const axle = AXLES.borrin;
  const random = seededRandom(78);
  const solution = bench.exact.createSolution();
  const looks = (form: Form): readonly Observation[] =>
    Array.from({ length: ROUNDS }, () => {
      const pose = {
        ...DESIGN_POSE,
        pinionIn: random.between(-0.2, 0.2),
        ringAway: random.between(-0.1, 0.2),
      };
      bench.exact.solve(pose, axle.film_mm, solution);
      return lookAt(solution, axle.film_mm, [solution.backlash.normal], form, random);
    });
  const described = looks('descriptors');
  const painted = looks('mask');
  const film = axle.film_mm;
  const run = (seen: Observation, regime: Regime) => diagnose(bench.model, seen, { regime, film });
  const options = {
    hardware: axle,
    present: fittedNow(axle),
    limits: axle.limits.backlash,
    film,
    recorded: null,
  };
  for (const seen of described.slice(0, 3)) {
    adviseFrom(bench.model, seen, run(seen, 'unknown'), options);
    run(seen, 'known');
  }
  const times = { known: [], unknown: [], regions: [], advise: [], solve: [] } as Record<string, number[]>;
  described.forEach((seen, k) => {
    times.known.push(timeOf(() => void run(seen, 'known')));
    times.unknown.push(timeOf(() => void run(seen, 'unknown')));
    times.regions.push(timeOf(() => void run(painted[k], 'unknown')));
    const found = run(seen, 'unknown');
    times.advise.push(timeOf(() => void adviseFrom(bench.model, seen, found, options)));
    times.solve.push(
      timeOf(() => {
        for (let i = 0; i < 40; i++) bench.exact.solve({ ...DESIGN_POSE, pinionIn: i / 200 }, film, solution);
      }) / 40,
    );
  });
  const mesh = buildGearMesh(axle.gearset);
  const build = median(
    Array.from({ length: 3 }, () => {
      const whole = timeOf(() => void new ForwardModel(mesh, film));
      return whole - timeOf(() => void new MeshSolver(mesh, SEARCH_GRID));
    }),
  );
  const solve = median(times.solve);
  return {
    diagnoseKnownMs: median(times.known),
    diagnoseUnknownMs: median(times.unknown),
    diagnoseRegionsMs: median(times.regions),
    adviseMs: median(times.advise),
    diagnoseBuildMs: build,
    diagnoseUnknownPerSolve: median(times.unknown) / solve,
    diagnoseRegionsPerSolve: median(times.regions) / solve,
    advisePerSolve: median(times.advise) / solve,
  };
};
