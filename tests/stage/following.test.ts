import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { FIELD_OF_VIEW } from '../../src/stage/camera/rig.ts';
import { StageDriver } from '../../src/stage/driver.ts';
import { seededRandom } from '../support/random.ts';
import { referenceSet } from '../support/referenceSets.ts';
import { loadSet } from './meshSet.ts';

const SEED = 20261125;
const SETS = { a: loadSet(referenceSet('a')), b: loadSet(referenceSet('b')) };
const PICTURE = { width: 480, height: 300 };

function stageOf(set: 'a' | 'b', mirrored: boolean): StageDriver {
  const driver = new StageDriver('mesh');
  driver.reducedMotion = true;
  driver.setPicture(PICTURE.width, PICTURE.height);
  driver.setSolids(SETS[set].solids, SETS[set].mesh.pitch.offset, mirrored);
  return driver;
}

/** Where a point of the world stands in the picture, −1…1 each way. */
function seen(driver: StageDriver, point: Vector3): Vector3 {
  const camera = new PerspectiveCamera(FIELD_OF_VIEW, PICTURE.width / PICTURE.height, 1, 1e5);
  driver.placeCamera(camera);
  return point.clone().project(camera);
}

const moves = (random: ReturnType<typeof seededRandom>) =>
  Array.from({ length: 12 }, () => ({
    how: random.pick(['turn', 'zoom', 'pan'] as const),
    a: random.between(-0.4, 0.4),
    b: random.between(-0.4, 0.4),
  }));

function move(driver: StageDriver, { how, a, b }: ReturnType<typeof moves>[number]): void {
  if (how === 'turn') driver.turnBy(a, b);
  if (how === 'zoom') driver.zoomBy(1 + a);
  if (how === 'pan') driver.panBy(a / 4, b / 4);
}

describe(`a stage that follows another (seed ${SEED})`, () => {
  for (const home of ['whole', 'mesh', 'drive', 'coast'] as const) {
    it(`sees the same picture of the same set, and the mirror image of its mirror image: ${home}`, () => {
      const random = seededRandom(SEED);
      const leader = stageOf('a', false);
      const twin = stageOf('a', false);
      const mirror = stageOf('a', true);
      for (const driver of [leader, twin, mirror]) driver.goHome(home);
      leader.onMoved = () => {
        for (const driver of [twin, mirror]) driver.followCamera(leader);
      };
      for (const one of moves(random)) {
        move(leader, one);
        for (let k = 0; k < 4; k++) {
          const point = new Vector3(
            random.between(-90, 90),
            random.between(-90, 90),
            random.between(-40, 10),
          );
          const here = seen(leader, point);
          const there = seen(twin, point);
          expect(there.distanceTo(here)).toBeLessThan(1e-6);
          const reflected = seen(mirror, point.clone().setY(-point.y));
          expect(Math.abs(reflected.x + here.x)).toBeLessThan(1e-6);
          expect(Math.abs(reflected.y - here.y)).toBeLessThan(1e-6);
        }
      }
    });
  }

  it('keeps in proportion on another set, comes home with it, and follows back', () => {
    const random = seededRandom(SEED);
    const leader = stageOf('a', false);
    const other = stageOf('b', false);
    const atHome = { distance: other.view.distance, target: other.view.target.clone() };
    const share = other.view.distance / leader.view.distance;
    leader.onMoved = () => other.followCamera(leader);
    for (const one of moves(random)) move(leader, one);
    expect(other.view.distance / leader.view.distance).toBeCloseTo(share, 9);
    expect(other.view.target.distanceTo(atHome.target)).toBeGreaterThan(1);

    leader.goHome('mesh');
    other.followCamera(leader);
    expect(other.view.distance).toBeCloseTo(atHome.distance, 9);
    expect(other.view.target.distanceTo(atHome.target)).toBeLessThan(1e-9);

    leader.onMoved = () => {};
    other.turnBy(0.3, -0.2);
    leader.followCamera(other);
    expect(leader.view.orientation.angleTo(other.view.orientation)).toBeLessThan(1e-6);
  });

  it('rolls as many pitches the way that is forward for it', () => {
    for (const mirrored of [false, true]) {
      const leader = stageOf('a', false);
      const other = stageOf('b', mirrored);
      leader.onMoved = () => other.followRoll(leader);
      const pitches = 3.25 * leader.forward;
      leader.setRingAngle((pitches * (2 * Math.PI)) / (leader.scene.train?.ringTeeth ?? 1));
      const train = other.scene.train;
      if (train === null) throw new Error('no train');
      const rolled = (other.ringAngle / train.pitch) * other.forward;
      const teeth = train.ringTeeth;
      expect((((rolled - 3.25) % teeth) + teeth) % teeth).toBeCloseTo(0, 6);
    }
  });
});
