import { Matrix4, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import {
  pinionAngle,
  pinionMatrix,
  ringMatrix,
  samplePeriodic,
  toothAtMesh,
  trainOf,
  wrapTo,
} from '../../src/stage/kinematics.ts';
import { packFlank, sampleFlank, TEXEL } from '../../src/stage/scene/flankTexture.ts';
import { StageScene } from '../../src/stage/scene/stageScene.ts';
import { seededRandom } from '../support/random.ts';
import { referenceSet } from '../support/referenceSets.ts';
import { loadSet, type StageSet } from './meshSet.ts';

const POSES: readonly Partial<Pose>[] = [
  {},
  { pinionIn: 0.12, ringAway: -0.05 },
  { pinionIn: -0.1, ringAway: 0.08, offsetError: 0.05, shaftAngleError: 0.03 },
];

let set: StageSet;
beforeAll(() => {
  set = loadSet(referenceSet('a'));
});

describe('pose matrices', () => {
  it('put the pinion axis where docs/model.md §2 says', () => {
    const pose = { pinionIn: 0.3, ringAway: 0.2, offsetError: -0.1, shaftAngleError: 1.5 };
    const sigma = (1.5 * Math.PI) / 180;
    const matrix = pinionMatrix(new Matrix4(), pose, 34, 0.7);
    const origin = new Vector3(0, 0, 0).applyMatrix4(matrix);
    expect(origin.x).toBeCloseTo(-0.3, 12);
    expect(origin.y).toBeCloseTo(33.9, 12);
    expect(origin.z).toBeCloseTo(0.2, 12);
    const along = new Vector3(1, 0, 0).transformDirection(matrix);
    expect(along.distanceTo(new Vector3(Math.cos(sigma), 0, Math.sin(sigma)))).toBeLessThan(1e-12);
  });

  it('turn the pinion about its own axis, ŷ toward A×ŷ', () => {
    const sigma = (2 * Math.PI) / 180;
    const pose = { ...DESIGN_POSE, shaftAngleError: 2 };
    const quarter = pinionMatrix(new Matrix4(), pose, 0, Math.PI / 2);
    const turned = new Vector3(0, 1, 0).transformDirection(quarter);
    expect(turned.distanceTo(new Vector3(-Math.sin(sigma), 0, Math.cos(sigma)))).toBeLessThan(1e-12);
    expect(quarter.determinant()).toBeCloseTo(1, 12);
  });

  it('turn the ring about z and leave it where it is', () => {
    const matrix = ringMatrix(new Matrix4(), 0.4);
    const point = new Vector3(2, 0, -7).applyMatrix4(matrix);
    expect(point.distanceTo(new Vector3(2 * Math.cos(0.4), 2 * Math.sin(0.4), -7))).toBeLessThan(1e-12);
  });
});

describe('periodic curves', () => {
  it('are read between samples, across the end of the pitch, and over gaps', () => {
    const curve = [0, 1, 2, 3];
    expect(samplePeriodic(curve, 4, 1.5)).toBeCloseTo(1.5, 12);
    expect(samplePeriodic(curve, 4, 3.5)).toBeCloseTo(1.5, 12);
    expect(samplePeriodic(curve, 4, -0.5)).toBeCloseTo(1.5, 12);
    expect(samplePeriodic([Number.NaN, 5], 2, 0.2)).toBe(5);
    expect(samplePeriodic([Number.NaN, Number.NaN], 2, 0.2)).toBe(0);
  });

  it('wrap into half a period either way', () => {
    expect(wrapTo(0.6, 1)).toBeCloseTo(-0.4, 12);
    expect(wrapTo(-0.5, 1)).toBeCloseTo(0.5, 12);
    expect(wrapTo(7.25, 2)).toBeCloseTo(-0.75, 12);
  });
});

describe('the tooth in mesh', () => {
  it('is the one whose place at rest the roll brings back', () => {
    const train = trainOf(set.solids, 34);
    expect(toothAtMesh(train, 0)).toBe(0);
    expect(toothAtMesh(train, train.pitch)).toBe(train.ringTeeth - 1);
    expect(toothAtMesh(train, -2.2 * train.pitch)).toBe(2);
  });
});

/** Surface points of a flank that touch near ring angle `roll`, turned there, with the number of their ring tooth. */
function* pointsNearContact(
  flank: FlankName,
  roll: number,
  phase: Float32Array,
  columns: number,
  rows: number,
) {
  const pitch = (2 * Math.PI) / set.definition.ringTeeth;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const off = wrapTo(phase[row * columns + column] - roll, pitch);
      if (Math.abs(off) > 0.004) continue;
      const u = -1 + (2 * column) / (columns - 1);
      const v = -1 + (2 * row) / (rows - 1);
      const { point } = set.mesh.flanks[flank].ring.at(u, v);
      const teeth = Math.round((phase[row * columns + column] - off - roll) / pitch);
      yield { point: new Vector3(...point), turn: roll + teeth * pitch, index: row * columns + column };
    }
  }
}

describe('drawn contact', () => {
  // Drawn pinion flank against the surface it stands for: how far the coast side is turned to leave the backlash.
  const drawnTurn = (flank: FlankName): number => {
    const { positions, flankUv, surfaceKind } = set.solids.pinion.sector;
    const kind = flank === 'drive' ? 1 : 2;
    for (let i = 0; i < surfaceKind.length; i++) {
      if (surfaceKind[i] !== kind || Math.abs(flankUv[2 * i]) > 0.3 || Math.abs(flankUv[2 * i + 1]) > 0.3)
        continue;
      const radius = Math.hypot(positions[3 * i + 1], positions[3 * i + 2]);
      const at = set.mesh.flanks[flank].pinion.lookUp(
        positions[3 * i],
        radius,
        flankUv[2 * i],
        flankUv[2 * i + 1],
      );
      expect(at.converged).toBe(true);
      return wrapTo(Math.atan2(positions[3 * i + 2], positions[3 * i + 1]) - at.polar, 2 * Math.PI);
    }
    throw new Error('no vertex near mid flank');
  };

  for (const [number, pose] of POSES.entries()) {
    for (const flank of FLANKS) {
      it(`has the ${flank} flanks touching and never crossing, pose ${number}`, () => {
        const solution = set.solve(pose);
        const scene = new StageScene();
        scene.setSolids(set.solids, set.mesh.pitch.offset, false);
        scene.setSolution(solution);
        scene.setTouching(flank);
        const train = trainOf(set.solids, set.mesh.pitch.offset);
        const { columns, rows } = solution.grid;
        const { phase, tipClearance } = solution[flank];
        const toothTurn = (2 * Math.PI) / set.definition.pinionTeeth;
        const extra = drawnTurn(flank);
        for (const part of [0, 0.37, 0.71]) {
          const roll = part * train.pitch + 3 * train.pitch;
          scene.setRoll(roll, 0);
          scene.root.updateMatrixWorld(true);
          const pinion = scene.turn.children.find((child) => child.name === 'pinion');
          const intoPinion = new Matrix4().copy(pinion!.matrixWorld).invert();
          let least = Number.POSITIVE_INFINITY;
          let points = 0;
          for (const { point, turn, index } of pointsNearContact(flank, roll, phase, columns, rows)) {
            if (tipClearance[index] < 0) continue;
            const normal = set.mesh.flanks[flank].ring.at(
              -1 + (2 * (index % columns)) / (columns - 1),
              -1 + (2 * Math.floor(index / columns)) / (rows - 1),
            ).normal;
            const lever = (point.x * normal[1] - point.y * normal[0]) / train.ratio;
            const placed = point
              .clone()
              .applyMatrix4(new Matrix4().makeRotationZ(turn))
              .applyMatrix4(intoPinion);
            const radius = Math.hypot(placed.y, placed.z);
            const polar = Math.atan2(placed.z, placed.y);
            const opposite = set.mesh.flanks[flank].pinion.lookUp(placed.x, radius);
            if (!opposite.converged) continue;
            const gap =
              Math.sign(lever) * wrapTo(opposite.polar + extra - polar, toothTurn) * Math.abs(lever);
            least = Math.min(least, gap);
            points += 1;
          }
          expect(points).toBeGreaterThan(20);
          // 2 µm: the grid's spacing along a contact line, and the curves' between two phases
          expect(Math.abs(least)).toBeLessThan(0.002);
        }
        scene.dispose();
      });
    }
  }

  it('opens by the free play when the other flanks are pressed together', () => {
    const solution = set.solve();
    const train = trainOf(set.solids, set.mesh.pitch.offset);
    const curves = { driveError: solution.drive.transmissionErrorCurve, freePlay: solution.freePlayCurve };
    const between = pinionAngle(train, 0.1, 'coast', curves) - pinionAngle(train, 0.1, 'drive', curves);
    expect(Math.abs(between) / train.ratio).toBeCloseTo(samplePeriodic(curves.freePlay, train.pitch, 0.1), 9);
  });
});

describe('contact lines', () => {
  for (const name of ['a', 'b'] as const) {
    it(`are drawn where ring and pinion have the same speed across the flank: set ${name}, seed 11`, () => {
      const other = loadSet(referenceSet(name));
      const pose = { ...DESIGN_POSE, pinionIn: 0.08, ringAway: 0.05, shaftAngleError: 0.02 };
      const solution = other.solve(pose);
      const train = trainOf(other.solids, other.mesh.pitch.offset);
      const random = seededRandom(11);
      const { positions, normals, flankUv, surfaceKind } = other.solids.ring.sector;
      const data = {
        drive: new Float32Array(TEXEL * solution.drive.phase.length),
        coast: new Float32Array(TEXEL * solution.coast.phase.length),
      };
      for (const flank of FLANKS) packFlank(data[flank], solution[flank]);
      const axis = pinionMatrix(new Matrix4(), pose, train.offset, 0);
      const origin = new Vector3().setFromMatrixPosition(axis);
      const along = new Vector3(1, 0, 0).transformDirection(axis);
      const counted = { drive: 0, coast: 0 };
      for (let i = 0; i < surfaceKind.length; i++) {
        if (surfaceKind[i] === 0 || flankUv[2 * i + 1] < -1) continue;
        const flank = surfaceKind[i] === 1 ? 'drive' : 'coast';
        const tooth = random.whole(0, train.ringTeeth - 1);
        const phase = sampleFlank(data[flank], solution.grid, flankUv[2 * i], flankUv[2 * i + 1])[2];
        // the ring angle at which the shader draws its line through this vertex of that tooth
        const number = tooth + (flank === 'coast' ? train.coastShift : 0);
        const roll = phase - number * train.pitch;
        const turn = new Matrix4().makeRotationZ(roll + tooth * train.pitch);
        const point = new Vector3().fromArray(positions, 3 * i).applyMatrix4(turn);
        const normal = new Vector3().fromArray(normals, 3 * i).transformDirection(turn);
        const ringSpeed = new Vector3(0, 0, 1).cross(point);
        const pinionSpeed = along.clone().cross(point.clone().sub(origin)).multiplyScalar(train.ratio);
        const across = ringSpeed.clone().sub(pinionSpeed).dot(normal);
        // vertex normals come from the triangles, good to about half a degree; a tooth out is 0.14 of the speed and more
        expect(Math.abs(across) / ringSpeed.length()).toBeLessThan(0.02);
        counted[flank] += 1;
      }
      expect(counted.drive).toBeGreaterThan(50);
      expect(counted.coast).toBeGreaterThan(50);
    });
  }
});
