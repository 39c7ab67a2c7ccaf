import { Matrix4, Mesh, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import type { DialDirection } from '../../sim/assembly/dial.ts';
import { FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import { DialDriver, type Play } from '../../src/stage/dial/dialDriver.ts';
import { createStand, heelOf, standAt } from '../../src/stage/dial/heel.ts';
import { cutMesh } from '../../src/stage/dial/section.ts';
import { samplePeriodic, trainOf, wrapTo } from '../../src/stage/kinematics.ts';
import { StageScene } from '../../src/stage/scene/stageScene.ts';
import { dialScale } from '../../src/units/dialScale.ts';
import { referenceSet } from '../support/referenceSets.ts';
import { loadSet, type StageSet } from './meshSet.ts';

const sets: StageSet[] = [];
beforeAll(() => {
  sets.push(loadSet(referenceSet('a')), loadSet(referenceSet('b')));
});

/** mm along the normal between the flanks near their contact at `roll`, the ring rocked, on the exact surfaces. */
function leastGap(set: StageSet, scene: StageScene, flank: FlankName, roll: number, phase: Float32Array) {
  const train = trainOf(set.solids, set.mesh.pitch.offset);
  const solution = set.solve();
  const { columns, rows } = solution.grid;
  const { tipClearance } = solution[flank];
  const toothTurn = (2 * Math.PI) / set.definition.pinionTeeth;
  scene.root.updateMatrixWorld(true);
  const pinion = scene.turn.children.find((child) => child.name === 'pinion');
  const intoPinion = new Matrix4().copy(pinion!.matrixWorld).invert();
  let least = Number.POSITIVE_INFINITY;
  let points = 0;
  for (let index = 0; index < columns * rows; index++) {
    const off = wrapTo(phase[index] - roll, train.pitch);
    if (Math.abs(off) > 0.004 || tipClearance[index] < 0) continue;
    const u = -1 + (2 * (index % columns)) / (columns - 1);
    const v = -1 + (2 * Math.floor(index / columns)) / (rows - 1);
    const { point, normal } = set.mesh.flanks[flank].ring.at(u, v);
    const turn = roll + Math.round((phase[index] - off - roll) / train.pitch) * train.pitch + scene.rock;
    const lever = (point[0] * normal[1] - point[1] * normal[0]) / train.ratio;
    const placed = new Vector3(...point)
      .applyMatrix4(new Matrix4().makeRotationZ(turn))
      .applyMatrix4(intoPinion);
    const opposite = set.mesh.flanks[flank].pinion.lookUp(placed.x, Math.hypot(placed.y, placed.z));
    if (!opposite.converged) continue;
    const extra = flank === 'coast' ? coastTurn(set) : 0;
    const gap = Math.sign(lever) * wrapTo(opposite.polar + extra - Math.atan2(placed.z, placed.y), toothTurn);
    least = Math.min(least, gap * Math.abs(lever));
    points += 1;
  }
  expect(points).toBeGreaterThan(20);
  return least;
}

/** rad by which the drawn coast flank of the pinion stands turned from the surface it stands for. */
function coastTurn(set: StageSet): number {
  const { positions, flankUv, surfaceKind } = set.solids.pinion.sector;
  for (let i = 0; i < surfaceKind.length; i++) {
    const [u, v] = [flankUv[2 * i], flankUv[2 * i + 1]];
    if (surfaceKind[i] !== 2 || Math.abs(u) > 0.3 || Math.abs(v) > 0.3) continue;
    const [x, y, z] = positions.slice(3 * i, 3 * i + 3);
    const at = set.mesh.flanks.coast.pinion.lookUp(x, Math.hypot(y, z), u, v);
    return wrapTo(Math.atan2(z, y) - at.polar, 2 * Math.PI);
  }
  throw new Error('no vertex near mid flank');
}

describe('the rocking ring', () => {
  for (const index of [0, 1]) {
    it(`goes from drive contact to coast contact on the exact surfaces, pinion held: set ${'ab'[index]}`, () => {
      const set = sets[index];
      const solution = set.solve();
      const train = trainOf(set.solids, set.mesh.pitch.offset);
      const scene = new StageScene();
      scene.setSolids(set.solids, set.mesh.pitch.offset, false);
      scene.setSolution(solution);
      const roll = 0.3 * train.pitch;
      scene.setRoll(roll, 0);
      const play = samplePeriodic(solution.freePlayCurve, train.pitch, roll);
      const gaps = (share: number) => {
        scene.setRock(-train.driveLever * share * play);
        return Object.fromEntries(
          FLANKS.map((flank) => [flank, leastGap(set, scene, flank, roll, solution[flank].phase)]),
        ) as Record<FlankName, number>;
      };
      const [start, middle, end] = [gaps(0), gaps(0.5), gaps(1)];
      // 2 µm: the grid's spacing along a contact line, and the curves' between two phases
      expect(Math.abs(start.drive)).toBeLessThan(0.002);
      expect(start.coast).toBeGreaterThan(0.05);
      expect(middle.drive).toBeGreaterThan(0.03);
      expect(middle.coast).toBeGreaterThan(0.03);
      expect(Math.abs(end.coast)).toBeLessThan(0.003);
      expect(end.drive).toBeGreaterThan(0.05);
      // the other way it would cut into the pinion
      expect(gaps(-0.5).drive).toBeLessThan(-0.03);
      scene.dispose();
    });
  }
});

describe('the dial at the heel', () => {
  const playOf = (set: StageSet, direction: DialDirection): Play => {
    const { normal, tangential, angle } = set.solve().backlash;
    return {
      angle: ((angle ?? 0) * Math.PI) / 180,
      reading: (direction === 'square' ? normal : tangential) ?? 0,
    };
  };

  for (const direction of ['square', 'tangential'] as const) {
    for (const mirrored of [false, true]) {
      it(`has its plunger follow the tooth by what the solver reads: ${direction}, mirrored ${mirrored}`, () => {
        for (const set of sets) {
          const heel = heelOf(set.solids);
          const { driveLever } = trainOf(set.solids, set.mesh.pitch.offset);
          const play = playOf(set, direction);
          const before = standAt(createStand(), heel, direction, 0.4, mirrored);
          const after = standAt(createStand(), heel, direction, 0.4 - driveLever * play.angle, mirrored);
          const moved = after.contact.clone().sub(before.contact);
          // away from the plunger, which comes out by as much; normals of the drawn facets are a degree off at a border
          const miss = Math.abs(-moved.dot(before.along) - play.reading) / play.reading;
          expect(miss).toBeLessThan(direction === 'square' ? 0.025 : 0.001);
        }
      });
    }
  }

  it('touches the heel end of the drive flank at mid height, square to it or along the turning direction', () => {
    for (const set of sets) {
      const heel = heelOf(set.solids);
      const { point, normal } = set.mesh.flanks.drive.ring.at(1, 0);
      expect(heel.point.distanceTo(new Vector3(...point))).toBeLessThan(0.1);
      expect(heel.square.dot(new Vector3(...normal))).toBeGreaterThan(0.999);
      expect(Math.abs(heel.tangential.dot(heel.point))).toBeLessThan(1e-6);
      expect(heel.tangential.z).toBeCloseTo(0, 12);
      expect(heel.tangential.dot(heel.square)).toBeGreaterThan(0.5);
    }
  });

  /** The driver as the picture uses it, without a canvas. */
  const drive = (set: StageSet, mirrored: boolean) => {
    const driver = new DialDriver();
    driver.setScale(dialScale('mm'));
    driver.setSolids(set.solids, set.definition.offset, mirrored);
    driver.setSolution(set.solve());
    driver.setPicture(800, 500);
    return driver;
  };

  it('turns the needle and moves the plunger with the ring; reads nothing while the ring turns on', () => {
    const driver = drive(sets[0], false);
    const play = playOf(sets[0], 'square');
    driver.setPlay(play);
    driver.setShare(0.5);
    expect(driver.out).toBeCloseTo(play.reading / 2, 12);
    const { driveLever, pitch } = driver.scene.train!;
    expect(driver.scene.rock).toBeCloseTo(-driveLever * 0.5 * play.angle, 12);

    driver.setPlace({ tooth: 5, phase: 0.02 });
    expect(driver.update(0.05)).toBe(true);
    expect(driver.out).toBe(0);
    expect(driver.scene.rock).toBeCloseTo(0, 12);
    for (let i = 0; i < 30; i++) driver.update(0.1);
    expect(driver.update(0.1)).toBe(false);
    expect(wrapTo(driver.ringAngle - (0.02 - 5 * pitch), 2 * Math.PI)).toBeCloseTo(0, 9);
    expect(driver.out).toBeCloseTo(play.reading / 2, 12);
    driver.dispose();
  });

  it('keeps its tip out of the teeth that pass while the ring turns on, held either way', () => {
    for (const set of sets) {
      for (const direction of ['square', 'tangential'] as const) {
        const driver = drive(set, false);
        driver.setDirection(direction);
        driver.setPlace({ tooth: 3, phase: 0.01 });
        // well on the way
        for (let i = 0; i < 5; i++) driver.update(0.1);
        driver.world.updateMatrixWorld(true);
        const tip = tipOf(driver.instrument.group);
        const teeth = pointsOfTeeth(set);
        const outer = Math.max(...teeth.map((point) => Math.hypot(point.x, point.y)));
        const top = Math.max(
          ...teeth
            .filter((point) => Math.abs(Math.hypot(point.x, point.y) - Math.hypot(tip.x, tip.y)) < 2)
            .map((point) => point.z),
          Number.NEGATIVE_INFINITY,
        );
        const outside = Math.hypot(tip.x, tip.y) - outer;
        expect(Math.max(outside, tip.z - top), direction).toBeGreaterThan(1);
        driver.dispose();
      }
    }
  });

  it('turns at once where motion is reduced, and has nothing to rock without play', () => {
    const driver = drive(sets[1], false);
    driver.reducedMotion = true;
    driver.setPlace({ tooth: 7, phase: 0 });
    expect(driver.update(0.1)).toBe(false);
    driver.setShare(1);
    driver.setPlay(null);
    expect(driver.out).toBe(0);
    expect(driver.scene.rock).toBeCloseTo(0, 12);
    driver.dispose();
  });

  it('stands clear of ring and pinion, tip at the tooth, face to the camera, for both hands and ways', () => {
    for (const set of sets) {
      for (const mirrored of [false, true]) {
        for (const direction of ['square', 'tangential'] as const) {
          const driver = drive(set, mirrored);
          driver.setDirection(direction);
          const { instrument, scene, view } = driver;
          driver.world.updateMatrixWorld(true);
          const ringPoints = pointsOf(scene.root, 'ring body');
          const outer = Math.max(...ringPoints.map((point) => Math.hypot(point.x, point.y)));
          const body = largestDisc(instrument.group);
          expect(Math.hypot(body.centre.x, body.centre.y)).toBeGreaterThan(outer + 5);
          const eye = new Vector3(0, 0, 1).applyQuaternion(view.orientation);
          expect(body.facing.dot(eye)).toBeGreaterThan(0.5);
          driver.dispose();
        }
      }
    }
  });
});

function pointsOf(root: StageScene['root'], name: string): Vector3[] {
  const points: Vector3[] = [];
  root.traverse((object) => {
    if (!(object instanceof Mesh) || object.name !== name) return;
    const { position } = object.geometry.attributes;
    for (let i = 0; i < position.count; i++) {
      points.push(new Vector3().fromBufferAttribute(position, i).applyMatrix4(object.matrixWorld));
    }
  });
  return points;
}

/** Middle of the ball that touches the tooth. */
function tipOf(group: DialDriver['instrument']['group']): Vector3 {
  const balls: { readonly radius: number; readonly at: Vector3 }[] = [];
  group.traverse((object) => {
    if (!(object instanceof Mesh) || object.geometry.type !== 'SphereGeometry') return;
    const at = new Vector3().setFromMatrixPosition(object.matrixWorld);
    balls.push({ radius: object.geometry.parameters.radius, at });
  });
  return balls.sort((a, b) => a.radius - b.radius)[0].at;
}

function pointsOfTeeth({ solids }: StageSet): Vector3[] {
  const { positions } = solids.ring.sector;
  return Array.from({ length: positions.length / 3 }, (_, i) => new Vector3().fromArray(positions, 3 * i));
}

/** The printed face: the largest circle of the instrument. */
function largestDisc(group: DialDriver['instrument']['group']): { centre: Vector3; facing: Vector3 } {
  let found: Mesh | null = null;
  let radius = 0;
  group.traverse((object) => {
    if (!(object instanceof Mesh) || object.geometry.type !== 'CircleGeometry') return;
    if (object.geometry.parameters.radius < radius) return;
    radius = object.geometry.parameters.radius;
    found = object;
  });
  const { matrixWorld } = found as unknown as Mesh;
  return {
    centre: new Vector3().setFromMatrixPosition(matrixWorld),
    facing: new Vector3(0, 0, 1).transformDirection(matrixWorld),
  };
}

describe('the section of the mesh', () => {
  const cutOf = (set: StageSet, mirrored = false) => {
    const solution = set.solve();
    const curves = { driveError: solution.drive.transmissionErrorCurve, freePlay: solution.freePlayCurve };
    return cutMesh(set.solids, set.definition.offset, mirrored, solution.pose, curves, 0.01);
  };

  it('cuts teeth of the ring and a pinion tooth in the slot between', () => {
    for (const set of sets) {
      const cut = cutOf(set);
      expect(cut.ring.length).toBeGreaterThanOrEqual(2);
      expect(cut.pinion.length).toBeGreaterThanOrEqual(1);
      // the slot's flanks look at each other, one on either side
      expect(Math.sign(cut.drive.x)).toBe(-Math.sign(cut.coast.x));
      expect(cut.drive.normal[0] * (cut.coast.x - cut.drive.x)).toBeGreaterThan(0);
      expect(cut.coast.normal[0] * (cut.drive.x - cut.coast.x)).toBeGreaterThan(0);
      // at mid height of the slot something of the pinion lies between
      const between = cut.pinion.flat().filter((_, i, all) => i % 2 === 0 && Math.abs(all[i + 1]) < 1.5);
      expect(between.some((x) => Math.abs(x) < Math.abs(cut.drive.x))).toBe(true);
    }
  });

  it('has the rock open the drive flank and close the coast flank, by the play', () => {
    for (const set of sets) {
      const cut = cutOf(set);
      const { angle, normal } = set.solve().backlash;
      const turn = ((angle ?? 0) * Math.PI) / 180;
      const along = ({ normal: [nx, ny] }: typeof cut.drive) =>
        turn * (cut.perRad[0] * nx + cut.perRad[1] * ny);
      expect(along(cut.drive)).toBeLessThan(-0.5 * (normal ?? 0));
      expect(along(cut.coast)).toBeGreaterThan(0.5 * (normal ?? 0));
    }
  });

  it('of a reverse-cut set is the mirror image', () => {
    const [cut, mirrored] = [cutOf(sets[0]), cutOf(sets[0], true)];
    expect(mirrored.drive.x).toBeCloseTo(-cut.drive.x, 9);
    expect(mirrored.drive.y).toBeCloseTo(cut.drive.y, 9);
    expect(mirrored.perRad[0]).toBeCloseTo(-cut.perRad[0], 9);
    expect(mirrored.ring[0][0]).toBeCloseTo(-cut.ring[0][0], 9);
  });
});
