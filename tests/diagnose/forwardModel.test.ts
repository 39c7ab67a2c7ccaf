import { describe, expect, it } from 'vitest';
import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DIAL_FEATURE, FEATURE_COUNT, ForwardModel, featureAt } from '../../sim/diagnose/forwardModel.ts';
import { poseAt } from '../../sim/diagnose/poseBasis.ts';
import { type EaseOffDefinition, FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';
import { normal } from '../support/virtualLooks.ts';

const SEED = 4001;

/** Worst and typical difference of each kind of feature. */
const compare = (
  model: ForwardModel,
  solver: MeshSolver,
  film: number,
  changes: readonly number[] | null,
  poses: readonly (readonly number[])[],
) => {
  const solution = solver.createSolution();
  const features = new Float64Array(FEATURE_COUNT);
  const places: number[] = [];
  const extents: number[] = [];
  const dials: number[] = [];
  for (const pose of poses) {
    solver.solve(poseAt(pose), film, solution);
    model.setPose(pose, 0, 0, 0);
    model.read(film, 0, changes ?? [], changes ? 0 : -1, changes ? 4 : -1, false, features, 0);
    for (const flank of FLANKS) {
      const { patch } = solution[flank];
      const at = featureAt(flank);
      places.push(Math.abs(patch.toeHeel - features[at]), Math.abs(patch.rootFace - features[at + 1]));
      extents.push(Math.abs(patch.length - features[at + 2]), Math.abs(patch.height - features[at + 3]));
    }
    dials.push(Math.abs(solution.backlash.normal - features[DIAL_FEATURE]));
  }
  const at = (values: number[], share: number) =>
    values.sort((a, b) => a - b)[Math.floor(share * (values.length - 1))];
  return [places, extents, dials].flatMap((values) => [at(values, 0.5), at(values, 0.99)]);
};

const drawPoses = (random: ReturnType<typeof seededRandom>, count: number): readonly (readonly number[])[] =>
  Array.from({ length: count }, () => [0.3, 0.25, 0.05, 0.05].map((sd) => sd * normal(random)));

describe.each(SHIPPED_SETS)('the forward model of $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const model = new ForwardModel(mesh, film);

  it(`is the solver in poses drawn from the prior (seed ${SEED})`, () => {
    const poses = drawPoses(seededRandom(SEED), 60);
    const [place, worstPlace, extent, worstExtent, dial, worstDial] = compare(
      model,
      model.solver,
      film,
      null,
      poses,
    );
    expect(place).toBeLessThan(0.004);
    expect(worstPlace).toBeLessThan(0.03);
    expect(extent).toBeLessThan(0.004);
    expect(worstExtent).toBeLessThan(0.03);
    expect(dial).toBeLessThan(0.0005);
    expect(worstDial).toBeLessThan(0.004);
  });

  it(`is the solver of a set built anew with another ease-off (seed ${SEED + 1})`, () => {
    const random = seededRandom(SEED + 1);
    const changes = Array.from({ length: 8 }, (_, k) => (k % 4 < 2 ? 0.2 : 0.25) * normal(random));
    const changed = (drawn: EaseOffDefinition, at: number): EaseOffDefinition => ({
      ...drawn,
      centerToeHeel: drawn.centerToeHeel + changes[at],
      centerRootFace: drawn.centerRootFace + changes[at + 1],
      lengthwise: drawn.lengthwise * Math.exp(changes[at + 2]),
      profile: drawn.profile * Math.exp(changes[at + 3]),
    });
    const other: GearSetDefinition = {
      ...definition,
      easeOff: { drive: changed(definition.easeOff.drive, 0), coast: changed(definition.easeOff.coast, 4) },
    };
    const solver = new MeshSolver(buildGearMesh(other), SEARCH_GRID);
    const [place, worstPlace, extent, worstExtent, dial, worstDial] = compare(
      model,
      solver,
      film,
      changes,
      drawPoses(random, 30),
    );
    expect(place).toBeLessThan(0.006);
    expect(worstPlace).toBeLessThan(0.03);
    expect(extent).toBeLessThan(0.006);
    expect(worstExtent).toBeLessThan(0.03);
    // a set built anew is thinned so that its own design position has the design backlash
    expect(dial).toBeLessThan(0.004);
    expect(worstDial).toBeLessThan(0.008);
  });
});
