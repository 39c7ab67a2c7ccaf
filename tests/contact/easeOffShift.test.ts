import { describe, expect, it } from 'vitest';
import { EaseOffShift } from '../../sim/contact/easeOffShift.ts';
import { DISPLAY_GRID, SEARCH_GRID } from '../../sim/contact/grid.ts';
import { type MeshSolution, MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { type EaseOffDefinition, FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { easeOffAt, easeOffCoefficients } from '../../sim/gearset/easeOff.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { NAMED_SETS } from '../support/namedSets.ts';
import { type Random, seededRandom } from '../support/random.ts';

/** mm: where the rebuilt table chooses another kind of fit for a node, both fits are within this of the flank (§6) */
const KIND_MISS = 0.0005;
/** mm: everywhere else the two differ by rounding only */
const ROUNDING = 1e-9;
/** share of the nodes that may be fitted otherwise when built anew */
const KINDS_DIFFER = 0.04;
/** mm: beyond it no mark ends */
const NEAR = 0.1;

const drawEaseOff = (random: Random): EaseOffDefinition => {
  const lengthwise = random.between(15, 70);
  const profile = random.between(12, 50);
  return {
    lengthwise,
    profile,
    bias: random.between(-0.6, 0.6) * Math.sqrt(lengthwise * profile),
    centerToeHeel: random.between(-0.4, 0.4),
    centerRootFace: random.between(-0.3, 0.4),
  };
};

const drawPose = (random: Random): Pose => ({
  pinionIn: random.between(-0.3, 0.3),
  ringAway: random.between(-0.3, 0.3),
  offsetError: random.between(-0.1, 0.1),
  shaftAngleError: random.between(-0.1, 0.1),
});

const separationMisses = (a: MeshSolution, b: MeshSolution): number[] =>
  FLANKS.flatMap((flank) =>
    [...a[flank].separation.keys()]
      .filter((node) => a[flank].separation[node] < NEAR)
      .map((node) => Math.abs(a[flank].separation[node] - b[flank].separation[node])),
  );

/** Share of the nodes whose gap differs by more than rounding, rad of pinion. */
const shareOtherwiseFitted = (a: MeshSolution, b: MeshSolution): number => {
  const differ = FLANKS.flatMap((flank) =>
    [...a[flank].gap].map((gap, node) => Math.abs(gap - b[flank].gap[node])),
  );
  return differ.filter((miss) => miss > ROUNDING).length / differ.length;
};

it('the written-out ease-off is the ease-off (seed 5)', () => {
  const random = seededRandom(5);
  for (let i = 0; i < 50; i++) {
    const easeOff = drawEaseOff(random);
    const [u, v] = [random.between(-1.2, 1.2), random.between(-1.2, 1.2)];
    const [c0, cu, cv, cuu, cuv, cvv] = easeOffCoefficients(easeOff);
    const written = c0 + cu * u + cv * v + cuu * u * u + cuv * u * v + cvv * v * v;
    expect(written).toBeCloseTo(easeOffAt(easeOff, u, v), 14);
  }
});

describe.each(NAMED_SETS)('a changed ease-off on $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const shift = new EaseOffShift(mesh);

  it('unchanged, it is the solver itself', () => {
    const direct = new MeshSolver(mesh);
    const same = shift.solverFor(definition.easeOff);
    const [a, b] = [direct.createSolution(), same.createSolution()];
    direct.solve({ ...DESIGN_POSE, pinionIn: 0.1 }, film, a);
    same.solve({ ...DESIGN_POSE, pinionIn: 0.1 }, film, b);
    expect(Math.max(...separationMisses(a, b))).toBeLessThan(ROUNDING);
    expect(b.backlash.normal).toBeCloseTo(a.backlash.normal, 10);
  });

  it.each([
    ['display', DISPLAY_GRID, 4],
    ['search', SEARCH_GRID, 4],
  ] as const)('is what a set built anew would be, on the %s grid (seed 606)', (_, size, draws) => {
    const random = seededRandom(606);
    const onGrid = size === DISPLAY_GRID ? shift : new EaseOffShift(mesh, size);
    for (let i = 0; i < draws; i++) {
      const easeOff = { drive: drawEaseOff(random), coast: drawEaseOff(random) };
      const changed: GearSetDefinition = { ...definition, easeOff };
      const direct = new MeshSolver(buildGearMesh(changed), size);
      const shifted = onGrid.solverFor(easeOff);
      expect(shifted.mesh.definition).toEqual(changed);
      expect(shifted.pinionThinning).toBeCloseTo(direct.pinionThinning, 7);
      const [a, b] = [direct.createSolution(), shifted.createSolution()];
      for (let k = 0; k < 5; k++) {
        const pose = k === 0 ? DESIGN_POSE : drawPose(random);
        direct.solve(pose, film, a);
        shifted.solve(pose, film, b);
        const misses = separationMisses(a, b);
        expect(Math.max(...misses)).toBeLessThan(KIND_MISS);
        if (k === 0) expect(Math.max(...misses)).toBeLessThan(ROUNDING);
        expect(shareOtherwiseFitted(a, b)).toBeLessThan(KINDS_DIFFER);
        expect(Math.abs(a.backlash.normal - b.backlash.normal)).toBeLessThan(KIND_MISS);
        for (const flank of FLANKS) {
          const miss = Math.abs(a[flank].patch.toeHeel - b[flank].patch.toeHeel);
          if (!Number.isNaN(miss)) expect(miss).toBeLessThan(0.002);
        }
      }
    }
  });

  it('solvers of different ease-offs do not disturb each other', () => {
    const random = seededRandom(607);
    const first = { drive: drawEaseOff(random), coast: drawEaseOff(random) };
    const solver = shift.solverFor(first);
    const before = solver.createSolution();
    solver.solve({ ...DESIGN_POSE, ringAway: 0.1 }, film, before);
    shift.solverFor({ drive: drawEaseOff(random), coast: drawEaseOff(random) });
    const after = solver.createSolution();
    solver.solve({ ...DESIGN_POSE, ringAway: 0.1 }, film, after);
    expect(after).toEqual(before);
  });

  it('refuses a saddle', () => {
    const { drive, coast } = definition.easeOff;
    const saddle = { drive: { ...drive, bias: drive.lengthwise + drive.profile }, coast };
    expect(() => shift.solverFor(saddle)).toThrow(/easeOff\.drive\.bias/);
  });
});
