import { MeshSolver } from '../../../sim/contact/meshSolver.ts';
import type { Pose } from '../../../sim/contact/pose.ts';
import { FLANKS, type GearSetDefinition } from '../../../sim/gearset/definition.ts';
import { buildGearMesh, type GearMesh } from '../../../sim/gearset/gearMesh.ts';
import { addScaled } from '../../../sim/math/vec3.ts';
import { NAMED_SETS } from '../../support/namedSets.ts';
import { REFERENCE_FILM } from '../../support/referenceSets.ts';
import { withoutCrowning } from '../../support/withoutCrowning.ts';
import { METHODS, randomSets } from '../randomSets.ts';
import { meshOf, type Solved, solveWith } from '../solve.ts';
import { below, blocks, fixed, largest, smallest, table } from '../text.ts';

const SOLVED_PER_METHOD = 8;
const POSE = { pinionIn: 0.12, ringAway: -0.05, offsetError: 0.06, shaftAngleError: 0.03 };
const POSES: ReadonlyArray<Partial<Pose>> = [
  {},
  POSE,
  { pinionIn: 0.25, ringAway: 0.2 },
  { pinionIn: -0.25, ringAway: -0.1 },
];

const worst = (meshes: readonly GearMesh[], of: (mesh: GearMesh) => number): number =>
  largest(meshes.map(of));

/** Pitch point identities, relative or in mm (docs/model.md §3). */
const toothNumbers = ({ pitch }: GearMesh): number =>
  Math.abs(
    (pitch.ringRadius * Math.cos(pitch.ringSpiralAngle)) /
      (pitch.pinionRadius * Math.cos(pitch.pinionSpiralAngle)) /
      pitch.ratio -
      1,
  );

const angleProduct = ({ pitch }: GearMesh): number =>
  Math.abs(
    Math.tan(pitch.pinionPitchAngle) * Math.tan(pitch.ringPitchAngle) -
      Math.cos(pitch.pinionSpiralAngle - pitch.ringSpiralAngle),
  );

/** The apex of the ring's pitch cone lies on the ring's axis. */
const apexOffAxis = ({ pitch }: GearMesh): number => {
  const apex = addScaled(
    pitch.point,
    pitch.ringGeneratrix,
    -pitch.ringRadius / Math.sin(pitch.ringPitchAngle),
  );
  return Math.hypot(apex[0], apex[1]);
};

const cutterCurvature = ({ pitch, definition }: GearMesh): number =>
  definition.cut.method === 'face-milled' && definition.cut.ringPitchAngle === undefined
    ? Math.abs(pitch.limitCurvature * definition.cut.cutterRadius - 1)
    : 0;

/** Largest separation where a pinion tooth is opposite, µm, and transmission error, µrad, without crowning. */
const flatness = (definition: GearSetDefinition): { separation: number; transmission: number } => {
  const solver = new MeshSolver(buildGearMesh(withoutCrowning(definition)));
  const solution = solver.createSolution();
  solver.solve({ pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 }, REFERENCE_FILM, solution);
  const separation = FLANKS.flatMap((flank) => {
    const { tipClearance, separation: values } = solution[flank];
    return Array.from(values, (value, node) => (tipClearance[node] < 0 ? 0 : Math.abs(value) * 1000));
  });
  return {
    separation: largest(separation),
    transmission: largest(FLANKS.map((flank) => solution[flank].transmissionError * 1e6)),
  };
};

const numbersOf = ({ drive, coast, backlash }: Solved): number[] =>
  [drive, coast, backlash].flatMap((part) =>
    Object.values(part).filter((value): value is number => typeof value === 'number'),
  );

/** Largest difference of any descriptor between a set and its mirror image. */
const mirrorDifference = (definition: GearSetDefinition): number => {
  const plain = new MeshSolver(buildGearMesh(definition));
  const mirror = new MeshSolver(buildGearMesh({ ...definition, offset: -definition.offset }));
  return largest(
    POSES.map((pose) => {
      const a = numbersOf(solveWith(plain, pose, REFERENCE_FILM));
      const b = numbersOf(
        solveWith(mirror, { ...pose, offsetError: -(pose.offsetError ?? 0) }, REFERENCE_FILM),
      );
      return a.length === b.length
        ? largest(a.map((value, i) => Math.abs(value - b[i])))
        : Number.POSITIVE_INFINITY;
    }),
  );
};

/** Least separation where a pinion tooth is opposite, µm, and the miss of the design backlash, mm. */
const soundness = (mesh: GearMesh): { least: number; ownBacklash: number } => {
  const solver = new MeshSolver(mesh);
  const solution = solver.createSolution();
  const least = POSES.map((pose) => {
    solver.solve(
      { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0, ...pose },
      REFERENCE_FILM,
      solution,
    );
    return smallest(
      FLANKS.flatMap((flank) => {
        const { tipClearance, separation } = solution[flank];
        return Array.from(separation, (value, node) => (tipClearance[node] < 0 ? 1e6 : value * 1000));
      }),
    );
  });
  const design = solveWith(solver, {}, REFERENCE_FILM).backlash.normal ?? Number.NaN;
  return { least: smallest(least), ownBacklash: Math.abs(design - mesh.definition.backlash) };
};

const pitchRow = (name: string, meshes: readonly GearMesh[]): string[] => [
  `${name} (${meshes.length})`,
  below(worst(meshes, toothNumbers)),
  below(worst(meshes, angleProduct)),
  below(worst(meshes, apexOffAxis)),
  meshes.every((mesh) => mesh.definition.cut.method === 'face-hobbed')
    ? '–'
    : below(worst(meshes, cutterCurvature)),
];

const meshRow = (name: string, meshes: readonly GearMesh[]): string[] => {
  const flat = meshes.map((mesh) => flatness(mesh.definition));
  const sound = meshes.map(soundness);
  return [
    `${name} (${meshes.length})`,
    fixed(largest(flat.map(({ separation }) => separation)), 3),
    fixed(largest(flat.map(({ transmission }) => transmission)), 3),
    fixed(smallest(sound.map(({ least }) => least)), 2),
    below(largest(sound.map(({ ownBacklash }) => ownBacklash))),
    below(largest(meshes.map((mesh) => mirrorDifference(mesh.definition)))),
  ];
};

/** What must hold for every set, as numbers. */
export const invariantsSection = (progress: (what: string) => void): string => {
  const named = NAMED_SETS.map(meshOf);
  progress('invariants of the named sets');
  const namedMesh = meshRow('named sets', named);
  const randomMesh = METHODS.map((method) => {
    progress(`invariants of random ${method} sets`);
    return meshRow(`random ${method}`, randomSets(method).meshes.slice(0, SOLVED_PER_METHOD));
  });
  return blocks([
    '## Invariants',
    'What must hold whatever the set ([model.md §3](model.md#3-pitch-point)); the worst of each group. Numbers that are only round-off are given by a bound. In turn: tooth numbers, relative miss of *m* = *R* cos β₂/(*r*₁ cos β₁); angle product, tan δ₁ tan δ₂ − cos(β₁ − β₂); distance of the apex of the pitch cone from the ring axis, mm; limit curvature × cutter radius − 1 where the ring pitch angle follows from the cutter.',
    table(
      ['Sets', 'tooth numbers', 'angle product', 'apex off axis, mm', 'cutter curvature'],
      [
        pitchRow('named sets', named),
        ...METHODS.map((method) => pitchRow(`random ${method}`, randomSets(method).meshes)),
      ],
    ),
    `Of the solved mesh: without crowning the design position must touch everywhere at once (separation and transmission error zero; held below 0.5 µm); no pose may show negative separation where a pinion tooth is opposite (${POSES.length} poses up to 0.25 mm; what little there is comes from cutting the contact lines at 64 phases); the design position must read its own backlash; the mirror image (offset and offset error reversed) must give the same numbers.`,
    table(
      [
        'Sets',
        'uncrowned separation, µm',
        'uncrowned transmission error, µrad',
        'least separation, µm',
        'own backlash missed, mm',
        'mirror image differs by',
      ],
      [namedMesh, ...randomMesh],
    ),
  ]);
};
