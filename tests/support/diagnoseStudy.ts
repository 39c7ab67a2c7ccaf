import { REFERENCE_FILM_MM } from '../../models/axleFields.ts';
import { AXLE_IDS, AXLES, type AxleId } from '../../models/index.ts';
import { EaseOffShift } from '../../sim/contact/easeOffShift.ts';
import { DISPLAY_GRID } from '../../sim/contact/grid.ts';
import { type MeshSolution, MeshSolver } from '../../sim/contact/meshSolver.ts';
import { type Diagnosis, diagnose } from '../../sim/diagnose/diagnose.ts';
import { Evidence } from '../../sim/diagnose/evidence.ts';
import { FEATURE_COUNT, ForwardModel } from '../../sim/diagnose/forwardModel.ts';
import type { Observation } from '../../sim/diagnose/observation.ts';
import { POSE_FIELDS, poseAt } from '../../sim/diagnose/poseBasis.ts';
import {
  DEFAULT_PRIORS,
  FILM_AT,
  type Layout,
  layOut,
  type Regime,
  SHAPE_COUNT,
  spreadOf,
} from '../../sim/diagnose/unknowns.ts';
import type { EaseOffDefinition, GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { invert } from '../../sim/math/invert.ts';
import type { Random } from './random.ts';
import { type Form, lookAt, normal } from './virtualLooks.ts';

/** A practice axle made ready for studies: the diagnosis' model and exact solvers of sets that differ from it. */
export interface Workbench {
  readonly id: AxleId;
  readonly film: number;
  readonly model: ForwardModel;
  readonly exact: MeshSolver;
  readonly shift: EaseOffShift;
}

const benches = new Map<AxleId, Workbench>();

/** Built once. */
export const workbench = (id: AxleId): Workbench => {
  const known = benches.get(id);
  if (known) return known;
  const { gearset } = AXLES[id];
  const film = REFERENCE_FILM_MM;
  const mesh = buildGearMesh(gearset);
  const bench = {
    id,
    film,
    model: new ForwardModel(mesh, film),
    exact: new MeshSolver(mesh, DISPLAY_GRID),
    shift: new EaseOffShift(mesh, DISPLAY_GRID),
  };
  benches.set(id, bench);
  return bench;
};

export const axlesOf = (method: GearSetDefinition['cut']['method']): readonly AxleId[] =>
  AXLE_IDS.filter((id) => AXLES[id].gearset.cut.method === method);

/** What the truth of a case is drawn as. */
export type Fault = 'none' | 'offset' | 'shaft-angle';

/** mm and degrees of a housing fault. */
export const FAULT_SIZE = 0.2;

export interface Case {
  /** the unknowns as drawn, in the layout of one sighting */
  readonly truth: Float64Array;
  readonly layout: Layout;
  readonly solution: MeshSolution;
  /** mm */
  readonly film: number;
  /** mm, true dial reading */
  readonly reading: number;
  /** does either mark reach a border? */
  readonly cut: boolean;
}

const changedEaseOff = (drawn: EaseOffDefinition, x: Float64Array, at: number): EaseOffDefinition => ({
  ...drawn,
  centerToeHeel: drawn.centerToeHeel + x[at],
  centerRootFace: drawn.centerRootFace + x[at + 1],
  lengthwise: drawn.lengthwise * Math.exp(x[at + 2]),
  profile: drawn.profile * Math.exp(x[at + 3]),
});

const isHill = ({ lengthwise, profile, bias }: EaseOffDefinition): boolean =>
  lengthwise * profile > 1.05 * bias * bias;

/** One case drawn from the prior the diagnosis states, solved by the real solver on the display grid. */
export const drawCase = (bench: Workbench, regime: Regime, fault: Fault, random: Random): Case => {
  const layout = layOut(regime, 1);
  const spread = spreadOf(layout, DEFAULT_PRIORS, 'sound', [false]);
  for (;;) {
    const truth = Float64Array.from(spread, (sd) => sd * normal(random));
    const side = random.pick([-1, 1]);
    if (fault === 'offset') truth[2] = side * FAULT_SIZE;
    if (fault === 'shaft-angle') truth[3] = side * FAULT_SIZE;
    const film = bench.film * Math.exp(truth[FILM_AT]);
    const solver = solverFor(bench, layout, truth);
    if (!solver) continue;
    const solution = solver.createSolution();
    solver.solve(poseAt(truth), film, solution);
    const { drive, coast, backlash } = solution;
    if (!(drive.patch.area > 0 && coast.patch.area > 0 && Number.isFinite(backlash.normal))) continue;
    const thickness = layout.thickness < 0 ? 0 : truth[layout.thickness];
    return {
      truth,
      layout,
      solution,
      film,
      reading: backlash.normal + thickness,
      cut: (drive.patch.edges | coast.patch.edges) !== 0,
    };
  }
};

const solverFor = (bench: Workbench, layout: Layout, x: Float64Array): MeshSolver | null => {
  if (layout.thickness < 0) return bench.exact;
  const { easeOff } = bench.exact.mesh.definition;
  const drive = changedEaseOff(easeOff.drive, x, layout.drive);
  const coast = changedEaseOff(easeOff.coast, x, layout.drive + SHAPE_COUNT);
  return isHill(drive) && isHill(coast) ? bench.shift.solverFor({ drive, coast }) : null;
};

/** A case and what the diagnosis made of it. */
export interface Judged {
  readonly truth: Float64Array;
  readonly cut: boolean;
  readonly diagnosis: Diagnosis;
  /** information of the data about the unknowns at the truth, count × count, and the prior's spread */
  readonly information: Float64Array;
}

export const judgeCase = (
  bench: Workbench,
  regime: Regime,
  fault: Fault,
  form: Form,
  random: Random,
): Judged => {
  for (;;) {
    const one = drawCase(bench, regime, fault, random);
    const seen = lookAt(one.solution, one.film, [one.reading], form, random);
    if (!seen.drive || !seen.coast) continue;
    const { posterior: _, ...diagnosis } = diagnose(bench.model, seen, { regime, film: bench.film });
    return {
      truth: one.truth,
      cut: one.cut,
      diagnosis,
      information: informationAt(bench, one, seen),
    };
  }
};

/** JᵀR⁻¹J of the data at the truth, by central differences of the forward model. */
const informationAt = (bench: Workbench, { truth, layout }: Case, seen: Observation): Float64Array => {
  const n = layout.count;
  const evidence = new Evidence(bench.model, layout, [{ seen, pinionIn: 0, ringAway: 0 }], bench.film);
  const spread = spreadOf(layout, DEFAULT_PRIORS, 'sound', [false]);
  const columns = Array.from({ length: n }, (_, i) => {
    const step = 0.1 * spread[i];
    const at = (side: number): Float64Array => {
      const x = truth.slice();
      x[i] += side * step;
      evidence.predict(x);
      return evidence.features.slice(0, FEATURE_COUNT);
    };
    const after = at(1);
    const before = at(-1);
    return evidence.data.map(({ feature, sd }) => (after[feature] - before[feature]) / (2 * step * sd));
  });
  const information = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      information[i * n + j] = columns[i].reduce((sum, slope, k) => sum + slope * columns[j][k], 0);
    }
  }
  return information;
};

/** Error, bound and coverage over a group of cases, per field of the pose. */
export interface Account {
  readonly cases: number;
  /** mm, degrees: root mean square of the mean's error */
  readonly error: readonly number[];
  /** Bayesian Cramér–Rao bound with the stated prior: the information averaged over the group */
  readonly bound: readonly number[];
  /** share of truths inside the 90 % interval */
  readonly coverage: readonly number[];
}

const NINETY = 1.6449;

export const accountFor = (regime: Regime, cases: readonly Judged[]): Account => {
  const layout = layOut(regime, 1);
  const n = layout.count;
  const spread = spreadOf(layout, DEFAULT_PRIORS, 'sound', [false]);
  const mean = new Float64Array(n * n);
  for (const { information } of cases) {
    for (let k = 0; k < mean.length; k++)
      if (Number.isFinite(information[k])) mean[k] += information[k] / cases.length;
  }
  for (let i = 0; i < n; i++) mean[i * n + i] += 1 / spread[i] ** 2;
  const bound = invert(mean, n);
  const off = (i: number) =>
    cases.map(({ truth, diagnosis }) => {
      const { mean: found, sd } = diagnosis.pose[POSE_FIELDS[i]];
      return { miss: found - truth[i], sd };
    });
  return {
    cases: cases.length,
    error: POSE_FIELDS.map((_, i) =>
      Math.sqrt(off(i).reduce((s, { miss }) => s + miss * miss, 0) / cases.length),
    ),
    bound: POSE_FIELDS.map((_, i) => Math.sqrt(bound[i * n + i])),
    coverage: POSE_FIELDS.map(
      (_, i) => off(i).filter(({ miss, sd }) => Math.abs(miss) <= NINETY * sd).length / cases.length,
    ),
  };
};

/** Share of cases in which the housing is called at fault, sound, and not judged. */
export const callsOf = (
  cases: readonly Judged[],
): { readonly fault: number; readonly sound: number; readonly open: number } => {
  const share = (answer: boolean | null) =>
    cases.filter(({ diagnosis }) => diagnosis.shimmable === answer).length / cases.length;
  return { fault: share(false), sound: share(true), open: share(null) };
};
