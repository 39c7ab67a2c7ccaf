import { MathUtils, PerspectiveCamera, Quaternion, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { type GearFacts, readFacts } from '../../src/stage/camera/facts.ts';
import { frame } from '../../src/stage/camera/frame.ts';
import { homeView, STAGE_HOMES } from '../../src/stage/camera/homes.ts';
import {
  between,
  createView,
  FIELD_OF_VIEW,
  orbit,
  pan,
  placeCamera,
  type View,
  zoom,
} from '../../src/stage/camera/rig.ts';
import { StageDriver } from '../../src/stage/driver.ts';
import { seededRandom } from '../support/random.ts';
import { referenceSet } from '../support/referenceSets.ts';
import { loadSet, type StageSet } from './meshSet.ts';

const PICTURES = [
  { width: 980, height: 420 },
  { width: 390, height: 250 },
  { width: 390, height: 700 },
  { width: 1900, height: 900 },
];

function cameraOf(view: View, aspect: number): PerspectiveCamera {
  const camera = new PerspectiveCamera(FIELD_OF_VIEW, aspect, 1, 1e5);
  placeCamera(camera, view, 1e4);
  return camera;
}

const sets: Record<'a' | 'b', StageSet> = {} as Record<'a' | 'b', StageSet>;
const facts: Record<'a' | 'b', GearFacts> = {} as Record<'a' | 'b', GearFacts>;
beforeAll(() => {
  for (const name of ['a', 'b'] as const) {
    sets[name] = loadSet(referenceSet(name));
    facts[name] = readFacts(sets[name].solids, sets[name].mesh.pitch.offset);
  }
});

describe('framing', () => {
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    it(`keeps any points inside the margins, touching them one way: seed ${seed}`, () => {
      const random = seededRandom(seed);
      const points = Array.from({ length: 60 }, () => random.between(-80, 120));
      const view = createView();
      view.orientation.copy(
        new Quaternion(
          random.between(-1, 1),
          random.between(-1, 1),
          random.between(-1, 1),
          random.between(0.1, 1),
        ).normalize(),
      );
      const aspect = random.between(0.4, 2.6);
      const margins = {
        left: random.between(0, 0.2),
        right: random.between(0, 0.2),
        top: random.between(0, 0.2),
        bottom: random.between(0, 0.2),
      };
      frame(view, points, aspect, margins);
      const camera = cameraOf(view, aspect);
      let low = [2, 2];
      let high = [-2, -2];
      for (let i = 0; i < points.length; i += 3) {
        const seen = new Vector3(points[i], points[i + 1], points[i + 2]).project(camera);
        low = [Math.min(low[0], seen.x), Math.min(low[1], seen.y)];
        high = [Math.max(high[0], seen.x), Math.max(high[1], seen.y)];
      }
      const free = [
        low[0] - (-1 + 2 * margins.left),
        1 - 2 * margins.right - high[0],
        low[1] - (-1 + 2 * margins.bottom),
        1 - 2 * margins.top - high[1],
      ];
      for (const room of free) expect(room).toBeGreaterThan(-1e-6);
      // one pair of sides is touched on both sides, the other has room
      expect(Math.min(Math.max(free[0], free[1]), Math.max(free[2], free[3]))).toBeLessThan(1e-6);
    });
  }
});

describe('homes', () => {
  for (const name of ['a', 'b'] as const) {
    for (const picture of PICTURES) {
      it(`show what they are for, set ${name}, ${picture.width}×${picture.height}`, () => {
        const aspect = picture.width / picture.height;
        const view = createView();
        for (const home of STAGE_HOMES) {
          homeView(view, home, facts[name], false, picture);
          const camera = cameraOf(view, aspect);
          const points =
            home === 'whole'
              ? facts[name].outline
              : home === 'mesh'
                ? facts[name].mesh
                : facts[name][home].points;
          let reach = 0;
          for (let i = 0; i < points.length; i += 3) {
            const seen = new Vector3().fromArray(points, i).project(camera);
            reach = Math.max(reach, Math.abs(seen.x), Math.abs(seen.y));
          }
          expect(reach, home).toBeLessThanOrEqual(1);
          expect(reach, home).toBeGreaterThan(0.55);
        }
      });
    }

    it(`look square at the flanks, face up: set ${name}`, () => {
      const view = createView();
      for (const flank of ['drive', 'coast'] as const) {
        homeView(view, flank, facts[name], false, PICTURES[0]);
        const camera = cameraOf(view, PICTURES[0].width / PICTURES[0].height);
        const back = new Vector3(0, 0, 1).applyQuaternion(view.orientation);
        expect(back.angleTo(facts[name][flank].normal)).toBeLessThan(1e-6);
        const see = (point: Vector3) => point.clone().project(camera);
        expect(see(facts[name][flank].face).y).toBeGreaterThan(see(facts[name][flank].root).y + 0.1);
        const toe = see(facts[name][flank].toe);
        const heel = see(facts[name][flank].heel);
        // toe and heel level, one at each side
        expect(Math.abs(toe.x - heel.x)).toBeGreaterThan(0.9);
        expect(Math.abs(toe.y - heel.y)).toBeLessThan(0.25);
      }
    });
  }

  it('of a reverse-cut set see the mirror image', () => {
    const picture = PICTURES[0];
    const aspect = picture.width / picture.height;
    const standard = createView();
    const reverse = createView();
    for (const home of STAGE_HOMES) {
      homeView(standard, home, facts.a, false, picture);
      homeView(reverse, home, facts.a, true, picture);
      for (let i = 0; i < facts.a.outline.length; i += 33) {
        const point = new Vector3().fromArray(facts.a.outline, i);
        const seen = point.clone().project(cameraOf(standard, aspect));
        const other = new Vector3(point.x, -point.y, point.z).project(cameraOf(reverse, aspect));
        expect(other.x).toBeCloseTo(-seen.x, 6);
        expect(other.y).toBeCloseTo(seen.y, 6);
      }
    }
  });
});

describe('the camera in the hand', () => {
  it('turns about what it looks at, stopping short of the poles', () => {
    const view = createView();
    homeView(view, 'whole', facts.a, false, PICTURES[0]);
    const { distance } = view;
    const target = view.target.clone();
    orbit(view, 0.7, 0);
    const elevation = () => Math.asin(new Vector3(0, 0, 1).applyQuaternion(view.orientation).dot(view.up));
    const before = elevation();
    orbit(view, -0.2, 0.1);
    expect(elevation()).toBeCloseTo(before + 0.1, 9);
    for (let i = 0; i < 50; i++) orbit(view, 0.05, 0.3);
    expect(elevation()).toBeCloseTo(Math.PI / 2 - MathUtils.degToRad(3), 6);
    for (let i = 0; i < 50; i++) orbit(view, 0, -0.3);
    expect(elevation()).toBeCloseTo(-Math.PI / 2 + MathUtils.degToRad(3), 6);
    expect(view.distance).toBe(distance);
    expect(view.target.distanceTo(target)).toBe(0);
    // level: the camera's right stays square to the axis it turns about
    expect(new Vector3(1, 0, 0).applyQuaternion(view.orientation).dot(view.up)).toBeCloseTo(0, 9);
  });

  it('zooms and shifts within bounds', () => {
    const view = createView();
    view.distance = 100;
    zoom(view, 0.001, 20, 500);
    expect(view.distance).toBe(20);
    zoom(view, 1e6, 20, 500);
    expect(view.distance).toBe(500);
    const home = new Vector3(1, 2, 3);
    view.target.copy(home);
    for (let i = 0; i < 200; i++) pan(view, 0.5, 0.2, home, 60);
    expect(view.target.distanceTo(home)).toBeCloseTo(60, 6);
  });

  it('starts and ends a journey exactly at its homes', () => {
    const from = createView();
    const to = createView();
    const out = createView();
    homeView(from, 'whole', facts.a, false, PICTURES[0]);
    homeView(to, 'coast', facts.a, false, PICTURES[0]);
    between(out, from, to, 0);
    expect(out.target.distanceTo(from.target)).toBeLessThan(1e-9);
    expect(out.distance).toBeCloseTo(from.distance, 9);
    between(out, from, to, 1);
    expect(out.target.distanceTo(to.target)).toBeLessThan(1e-9);
    expect(Math.abs(out.orientation.dot(to.orientation))).toBeCloseTo(1, 12);
    between(out, from, to, 0.5);
    expect(out.distance).toBeCloseTo(Math.sqrt(from.distance * to.distance), 6);
  });
});

describe('the stage at work', () => {
  const started = (): StageDriver => {
    const driver = new StageDriver('whole');
    driver.setPicture(980, 420);
    driver.setSolids(sets.a.solids, 34, false);
    driver.scene.setSolution(sets.a.solve());
    return driver;
  };

  it('asks for no frame at rest', () => {
    const driver = started();
    expect(driver.update(0.016)).toBe(false);
    let woken = 0;
    driver.wake = () => {
      woken += 1;
    };
    driver.turnBy(0.1, 0);
    expect(woken).toBe(1);
    expect(driver.update(0.016)).toBe(false);
  });

  it('travels between homes, at once when motion is reduced', () => {
    const driver = started();
    driver.goHome('drive');
    expect(driver.travelling).toBe(true);
    let frames = 0;
    while (driver.update(0.03)) {
      frames += 1;
      expect(frames).toBeLessThan(100);
    }
    expect(frames).toBeGreaterThan(10);
    const arrived = driver.view.orientation.clone();
    const still = started();
    still.reducedMotion = true;
    still.goHome('drive');
    expect(still.travelling).toBe(false);
    expect(still.view.orientation.angleTo(arrived)).toBeLessThan(1e-6);
    expect(still.update(0.03)).toBe(false);
  });

  it('rolls while playing, not while nobody sees it, and in steps when motion is reduced', () => {
    const driver = started();
    driver.setPlaying(true);
    expect(driver.update(0.05)).toBe(true);
    const first = driver.ringAngle;
    expect(first).not.toBe(0);
    driver.suspended = true;
    expect(driver.update(0.05)).toBe(false);
    expect(driver.ringAngle).toBe(first);
    driver.suspended = false;
    // a long pause between two frames is not made up for
    driver.update(60);
    expect(Math.abs(driver.ringAngle - first)).toBeLessThan(0.1 * ((2 * Math.PI) / 43));
    driver.setPlaying(false);
    expect(driver.update(0.05)).toBe(false);

    const stepped = started();
    stepped.reducedMotion = true;
    stepped.setPlaying(true);
    const angles = new Set<number>();
    for (let i = 0; i < 60; i++) {
      stepped.update(0.016);
      angles.add(stepped.ringAngle);
    }
    expect(angles.size).toBeGreaterThan(1);
    expect(angles.size).toBeLessThan(6);
  });

  it('keeps the tooth looked at in place while the gears roll, square on', () => {
    for (const home of ['drive', 'coast'] as const) {
      const driver = started();
      driver.reducedMotion = true;
      driver.setRingAngle(2.03);
      driver.goHome(home);
      expect(Math.abs(driver.toothAngle % (2 * Math.PI))).toBeLessThan(1e-9);
      driver.setRingAngle(2.41);
      const away = Math.abs(driver.toothAngle);
      expect(Math.min(away, 2 * Math.PI - away)).toBeLessThan(1e-9);
    }
  });

  it('looks at a tooth that carries compound', () => {
    const driver = started();
    driver.scene.setPainted([11, 12, 30]);
    driver.goHome('drive');
    expect([11, 12, 30]).toContain(driver.tooth);
    driver.goHome('whole');
    driver.setRingAngle(-30 * ((2 * Math.PI) / 43));
    driver.goHome('drive');
    expect(driver.tooth).toBe(30);
  });

  it('keeps a view moved by hand when the picture changes size, and home otherwise', () => {
    const driver = started();
    const home = driver.view.distance;
    driver.setPicture(390, 700);
    expect(driver.view.distance).not.toBe(home);
    driver.turnBy(0.4, 0.1);
    const moved = driver.view.distance;
    driver.setPicture(980, 420);
    expect(driver.view.distance).toBe(moved);
  });
});
