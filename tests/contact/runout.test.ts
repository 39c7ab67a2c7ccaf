import { describe, expect, it } from 'vitest';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { frameOfSolver, readRoundRing } from '../../sim/contact/ringReadings.ts';
import {
  awayAtMesh,
  poseWithRunout,
  type RingRunout,
  runoutFrame,
  turnedOfTooth,
} from '../../sim/contact/runout.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { reportGeometry } from '../../sim/gearset/geometryReport.ts';
import { RAD_PER_DEG, TURN } from '../../sim/math/angles.ts';
import { dot, length, scale, subtract, turnAbout, turnAboutZ, type Vec3 } from '../../sim/math/vec3.ts';
import { NAMED_SETS } from '../support/namedSets.ts';
import { type Random, seededRandom } from '../support/random.ts';

const drawPose = (random: Random): Pose => ({
  pinionIn: random.between(-0.2, 0.2),
  ringAway: random.between(-0.05, 0.2),
  offsetError: random.between(-0.08, 0.08),
  shaftAngleError: random.between(-0.05, 0.05),
});

const drawRunout = (random: Random): RingRunout => ({
  amplitude: random.between(0.005, 0.06),
  highAt: random.between(0, TURN),
});

/** Held as its mirror image: the same in its own frame, offset errors turned. */
const MIRRORED = NAMED_SETS.slice(2, 3).map((set) => ({
  ...set,
  label: `${set.label}, mirrored`,
  definition: { ...set.definition, offset: -set.definition.offset },
}));

describe.each([...NAMED_SETS, ...MIRRORED])('ring runout of $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const solver = new MeshSolver(mesh);
  const scratch = solver.createSolution();
  const frame = frameOfSolver(solver);

  it('the tilted ring sees the pinion as the straight one sees the answered pose (seed 88)', () => {
    const random = seededRandom(88);
    const hand = mesh.mirrored ? -1 : 1;
    const axisOf = (pose: Pose): { origin: Vec3; direction: Vec3 } => {
      const sigma = pose.shaftAngleError * RAD_PER_DEG;
      return {
        origin: [-pose.pinionIn, mesh.pitch.offset + hand * pose.offsetError, pose.ringAway],
        direction: [Math.cos(sigma), 0, Math.sin(sigma)],
      };
    };
    /** how far along the pinion's axis and how far from it */
    const place = (point: Vec3, pose: Pose): readonly [number, number] => {
      const { origin, direction } = axisOf(pose);
      const from = subtract(point, origin);
      const along = dot(from, direction);
      return [along, length(subtract(from, scale(direction, along)))];
    };
    for (let i = 0; i < 20; i++) {
      const pose = drawPose(random);
      const runout = drawRunout(random);
      const turned = random.between(0, TURN);
      const answered = poseWithRunout(frame, pose, runout, turned);
      // The ring's own points: tilted so that the high place sinks, about the middle at the mean point's height.
      const [px, py, pz] = mesh.pitch.point;
      const high = Math.atan2(py, px) + turned - runout.highAt;
      const middle: Vec3 = [0, 0, pz];
      const tilt = Math.atan(runout.amplitude / (definition.ringOuterDiameter / 2));
      const tilted = (point: Vec3): Vec3 => {
        const [x, y, z] = turnAbout(subtract(point, middle), [-Math.sin(high), Math.cos(high), 0], tilt);
        return [x, y, z + pz];
      };
      const edge: Vec3 = [Math.cos(high) * frame.backFaceRadius, Math.sin(high) * frame.backFaceRadius, pz];
      expect(pz - tilted(edge)[2]).toBeCloseTo(runout.amplitude, 6);
      // Straight again, the ring may have been turned by a little: found from one point, then right for all.
      const points = Array.from(
        { length: 6 },
        (): Vec3 => [
          px + random.between(-20, 20),
          py + random.between(-20, 20),
          pz + random.between(-10, 10),
        ],
      );
      const miss = (point: Vec3, turn: number): number => {
        const [x, rho] = place(tilted(point), pose);
        const [xToo, rhoToo] = place(turnAboutZ(point, turn), answered);
        return Math.hypot(x - xToo, rho - rhoToo);
      };
      let turn = 0;
      for (let step = 1e-3; step > 1e-13; step *= 0.5) {
        for (const next of [turn - step, turn + step]) {
          if (miss(points[0], next) < miss(points[0], turn)) turn = next;
        }
      }
      for (const point of points) expect(miss(point, turn)).toBeLessThan(1e-8);
    }
  });

  it('readings round the ring are those of direct solves; without runout they are all one (seed 89)', () => {
    const random = seededRandom(89);
    const direct = new MeshSolver(mesh);
    const check = direct.createSolution();
    const pose = drawPose(random);
    const runout = drawRunout(random);
    const { places, variation } = readRoundRing(solver, pose, runout, 7, scratch);
    expect(places.map(({ turned }) => turned)).toEqual([0, 1, 2, 3, 4, 5, 6].map((k) => (TURN * k) / 7));
    const squares: number[] = [];
    for (const reading of places) {
      direct.solve(poseWithRunout(frame, pose, runout, reading.turned), film, check);
      expect(reading.square).toBeCloseTo(check.backlash.normal, 10);
      expect(reading.tangential).toBeCloseTo(check.backlash.tangential, 10);
      expect(reading.angle).toBeCloseTo(check.backlash.angle, 10);
      squares.push(check.backlash.normal);
    }
    expect(variation.square).toBeCloseTo(Math.max(...squares) - Math.min(...squares), 10);
    expect(variation.tangential / variation.square).toBeCloseTo(direct.dialRadius / direct.dialLever, 6);

    const straight = readRoundRing(solver, pose, { amplitude: 0, highAt: 1 }, 5, scratch);
    direct.solve(pose, film, check);
    for (const { square } of straight.places) expect(square).toBeCloseTo(check.backlash.normal, 10);
    expect(straight.variation).toEqual({ square: 0, tangential: 0 });
  });

  it('the dial goes once up and down per turn, most where the ring stands farthest away', () => {
    const runout = { amplitude: 0.03, highAt: turnedOfTooth(10, definition.ringTeeth) };
    const teeth = Array.from({ length: definition.ringTeeth }, (_, tooth) => tooth);
    const readings = teeth.map((tooth) => {
      const turned = turnedOfTooth(tooth, definition.ringTeeth);
      solver.solve(poseWithRunout(frame, DESIGN_POSE, runout, turned), film, scratch);
      return scratch.backlash.normal;
    });
    const most = readings.indexOf(Math.max(...readings));
    expect(Math.abs(most - 10)).toBeLessThanOrEqual(1);
    const turns = readings.map((reading, tooth) =>
      Math.sign(reading - (readings.at(tooth - 1) ?? Number.NaN)),
    );
    expect(turns.filter((sign, tooth) => sign !== turns.at(tooth - 1))).toHaveLength(2);
    // As far as an axial move of the ring by as much as it stands away there, to a hundredth of the reading.
    for (const tooth of teeth) {
      const away = awayAtMesh(frame, runout, turnedOfTooth(tooth, definition.ringTeeth));
      solver.solve({ ...DESIGN_POSE, ringAway: away }, film, scratch);
      expect(Math.abs(readings[tooth] - scratch.backlash.normal)).toBeLessThan(0.001);
    }
  });

  it('the pattern wanders from tooth to tooth and comes back after a turn; the tilt adds to the axial move', () => {
    const runout = { amplitude: 0.03, highAt: 0 };
    const marksAt = (pose: Pose): number[] => {
      solver.solve(pose, film, scratch);
      return [scratch.drive.patch.toeHeel, scratch.coast.patch.toeHeel, scratch.drive.patch.rootFace];
    };
    const differ = (a: readonly number[], b: readonly number[]) =>
      Math.max(...a.map((x, i) => Math.abs(x - b[i])));
    const near = marksAt(poseWithRunout(frame, DESIGN_POSE, runout, 0));
    const far = marksAt(poseWithRunout(frame, DESIGN_POSE, runout, Math.PI));
    expect(differ(near, far)).toBeGreaterThan(0.015);
    expect(differ(near, marksAt(poseWithRunout(frame, DESIGN_POSE, runout, TURN)))).toBeLessThan(1e-9);
    const axial = marksAt({ ...DESIGN_POSE, ringAway: awayAtMesh(frame, runout, 0) });
    expect(differ(near, axial)).toBeGreaterThan(0.005);
  });

  it('the app’s frame is the solver’s', () => {
    const fromReport = runoutFrame(definition, reportGeometry(mesh).meanPoint);
    expect(fromReport).toEqual(frame);
  });

  it('names a count of places that is none', () => {
    const runout = { amplitude: 0.01, highAt: 0 };
    expect(() => readRoundRing(solver, DESIGN_POSE, runout, 0, scratch)).toThrow(/places: 0/);
  });
});
