import { describe, expect, it } from 'vitest';
import { NOT_MEETING } from '../../sim/contact/grid.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { reportBacklash, reportPatch } from '../../sim/contact/report.ts';
import { FLANKS, type GearSetDefinition } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import { REFERENCE_FILM, referenceSet } from '../support/referenceSets.ts';
import { withoutCrowning } from '../support/withoutCrowning.ts';

const solveAt = (definition: GearSetDefinition, pose: Partial<Pose>, film = REFERENCE_FILM) => {
  const solver = new MeshSolver(buildGearMesh(definition));
  const solution = solver.createSolution();
  solver.solve({ ...DESIGN_POSE, ...pose }, film, solution);
  return { solver, solution };
};

describe.each(['a', 'b'] as const)('mesh of set %s', (name) => {
  const definition = referenceSet(name);

  it('touches everywhere at once without crowning in the design pose', () => {
    const { solution } = solveAt(withoutCrowning(definition), {});
    for (const flank of FLANKS) {
      const { separation, tipClearance, transmissionError } = solution[flank];
      let met = 0;
      separation.forEach((value, node) => {
        if (tipClearance[node] < 0) return;
        met++;
        expect(Math.abs(value)).toBeLessThan(0.0005);
      });
      expect(met).toBeGreaterThan(0.7 * separation.length);
      expect(transmissionError * 1e6).toBeLessThan(0.01);
    }
  });

  it('does not touch everywhere without crowning in a wrong pose', () => {
    const { solution } = solveAt(withoutCrowning(definition), { pinionIn: 0.1 });
    expect(solution.drive.patch.area).toBeLessThan(0.6);
  });

  it('reads its own backlash on the dial in the design pose', () => {
    expect(solveAt(definition, {}).solution.backlash.normal).toBeCloseTo(definition.backlash, 12);
  });

  it('never goes through: separation is not negative where there is a pinion tooth', () => {
    const random = seededRandom(417);
    const solver = new MeshSolver(buildGearMesh(definition));
    const solution = solver.createSolution();
    for (let trial = 0; trial < 20; trial++) {
      const pose = {
        pinionIn: random.between(-0.3, 0.3),
        ringAway: random.between(-0.3, 0.3),
        offsetError: random.between(-0.2, 0.2),
        shaftAngleError: random.between(-0.1, 0.1),
      };
      solver.solve(pose, REFERENCE_FILM, solution);
      for (const flank of FLANKS) {
        const { separation, tipClearance } = solution[flank];
        separation.forEach((value, node) => {
          if (tipClearance[node] >= 0) expect(value).toBeGreaterThan(-0.0004);
        });
      }
    }
  });

  it('marks more with a thicker film and never less', () => {
    const films = [0.002, 0.004, 0.008, 0.016, 0.032];
    const areas = films.map((film) => solveAt(definition, {}, film).solution.drive.patch.area);
    areas.slice(1).forEach((area, i) => {
      expect(area).toBeGreaterThan(areas[i]);
    });
  });

  it('gives the same numbers for its mirror image (negative offset)', () => {
    const pose = { pinionIn: 0.12, ringAway: -0.05, shaftAngleError: 0.03 };
    const plain = solveAt(definition, { ...pose, offsetError: 0.06 }).solution;
    const mirror = solveAt(
      { ...definition, offset: -definition.offset },
      { ...pose, offsetError: -0.06 },
    ).solution;
    for (const flank of FLANKS) expect(reportPatch(mirror, flank)).toEqual(reportPatch(plain, flank));
    expect(reportBacklash(mirror)).toEqual(reportBacklash(plain));
  });

  it('scales: a set twice as large in a pose twice as far off gives the same mark', () => {
    const { solution } = solveAt(definition, { pinionIn: 0.1, ringAway: 0.05 });
    const easeOff = Object.fromEntries(
      FLANKS.map((flank) => {
        const { lengthwise, profile, bias, ...center } = definition.easeOff[flank];
        return [flank, { lengthwise: 2 * lengthwise, profile: 2 * profile, bias: 2 * bias, ...center }];
      }),
    ) as unknown as GearSetDefinition['easeOff'];
    const larger: GearSetDefinition = {
      ...definition,
      ringOuterDiameter: 2 * definition.ringOuterDiameter,
      offset: 2 * definition.offset,
      faceWidth: 2 * definition.faceWidth,
      cut: { ...definition.cut, cutterRadius: 2 * definition.cut.cutterRadius },
      backlash: 2 * definition.backlash,
      easeOff,
    };
    const twice = solveAt(larger, { pinionIn: 0.2, ringAway: 0.1 }, 2 * REFERENCE_FILM).solution;
    for (const flank of FLANKS) {
      expect(twice[flank].patch.toeHeel).toBeCloseTo(solution[flank].patch.toeHeel, 6);
      expect(twice[flank].patch.rootFace).toBeCloseTo(solution[flank].patch.rootFace, 6);
      expect(twice[flank].patch.area).toBeCloseTo(solution[flank].patch.area, 6);
    }
    expect(twice.backlash.normal).toBeCloseTo(2 * solution.backlash.normal, 6);
  });

  it('binds when the ring is pressed in far enough, and says so', () => {
    const bound = reportBacklash(solveAt(definition, { ringAway: -0.4 }).solution);
    expect(bound.binding).toBe(true);
    expect(bound.normal).toBeLessThan(0);
    expect(reportBacklash(solveAt(definition, { ringAway: 0.1 }).solution).binding).toBe(false);
  });

  it('solving is repeatable and independent of what was solved before', () => {
    const solver = new MeshSolver(buildGearMesh(definition));
    const first = solver.createSolution();
    const second = solver.createSolution();
    solver.solve({ ...DESIGN_POSE, pinionIn: 0.1 }, REFERENCE_FILM, first);
    solver.solve({ ...DESIGN_POSE, pinionIn: -0.3, offsetError: 0.2 }, 0.02, second);
    solver.solve({ ...DESIGN_POSE, pinionIn: 0.1 }, REFERENCE_FILM, second);
    expect(second).toEqual(first);
  });
});

describe('poses far off', () => {
  it('a ring point that never meets is data, not a crash', () => {
    const { solution } = solveAt(referenceSet('a'), { offsetError: 20 });
    const missing = solution.coast.phase.filter((phase) => phase === NOT_MEETING).length;
    expect(missing).toBeGreaterThan(0);
    expect(missing).toBeLessThan(solution.coast.phase.length);
    for (const flank of FLANKS) {
      for (const value of solution[flank].separation) expect(Number.isNaN(value)).toBe(false);
    }
  });

  it('two members that never meet have no mark and no dial reading', () => {
    const { solution } = solveAt(referenceSet('a'), { shaftAngleError: -30 });
    for (const flank of FLANKS) {
      expect(reportPatch(solution, flank)).toMatchObject({
        toeHeel: null,
        area: 0,
        edges: [],
        transmissionError: null,
        contactRatio: 0,
        gapShare: 1,
      });
    }
    expect(reportBacklash(solution)).toMatchObject({ normal: null, tangential: null, binding: false });
  });

  it.each(['face-milled', 'face-hobbed'] as const)('%s sets stay finite out to 1 mm (seed 88)', (method) => {
    const random = seededRandom(88);
    const mesh = drawMakeableMesh(random, method);
    const solver = new MeshSolver(mesh);
    const solution = solver.createSolution();
    for (let trial = 0; trial < 40; trial++) {
      const pose = {
        pinionIn: random.between(-1, 1),
        ringAway: random.between(-1, 1),
        offsetError: random.between(-1, 1),
        shaftAngleError: random.between(-0.5, 0.5),
      };
      solver.solve(pose, REFERENCE_FILM, solution);
      for (const flank of FLANKS) {
        const { area, length, height } = solution[flank].patch;
        for (const value of [area, length, height]) {
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThanOrEqual(1);
        }
      }
      expect(Number.isFinite(solution.backlash.normal)).toBe(true);
    }
  });
});
