import { type BufferGeometry, type Mesh, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { fittedAtDesign } from '../../sim/assembly/hardware.ts';
import { HousingScene } from '../../src/stage/housing/housingScene.ts';
import { labelAnchors } from '../../src/stage/housing/labelAnchors.ts';
import { bodyGeometry, ROUND } from '../../src/stage/housing/partGeometry.ts';
import { describeParts, describePushes } from '../../src/stage/housing/partWords.ts';
import {
  createSpot,
  leadersCross,
  placeLabel,
  type Spot,
  throughBox,
} from '../../src/stage/housing/placeLabels.ts';
import { movesOf, placesOf } from '../../src/stage/housing/places.ts';
import { sectionShapes } from '../../src/stage/housing/sectionShapes.ts';
import { housing } from '../../src/text/en/housing.ts';
import { addTexts, createTranslate } from '../../src/text/translate.ts';
import { seededRandom } from '../support/random.ts';
import { axleSolids, everyHardware, layoutOf } from './housingSupport.ts';

beforeAll(() => addTexts(housing));

/** Volume by the divergence theorem, over triangles as they are wound. */
function volume(geometry: BufferGeometry): number {
  const { position } = geometry.attributes;
  let sum = 0;
  const [a, b, c] = [new Vector3(), new Vector3(), new Vector3()];
  for (let i = 0; i < position.count; i += 3) {
    a.fromBufferAttribute(position, i);
    b.fromBufferAttribute(position, i + 1);
    c.fromBufferAttribute(position, i + 2);
    sum += a.dot(b.cross(c)) / 6;
  }
  return sum;
}

describe('geometry of bodies', () => {
  // a ring of 10 × 4 mm about a radius of 30 mm
  const section = [
    [5, 28],
    [15, 28],
    [15, 32],
    [5, 32],
  ] as const;
  const detail = { turn: 240, roller: 12 };
  const exact = 10 * 4 * 2 * Math.PI * 30;

  for (const axis of ['pinion', 'carrier'] as const) {
    it(`is closed and faces outward, about the ${axis}'s axis`, () => {
      const whole = bodyGeometry({ axis, pieces: [{ kind: 'turned', cut: false, section }] }, detail);
      expect(volume(whole) / exact).toBeCloseTo(1, 3);
      const reversed = bodyGeometry(
        { axis, pieces: [{ kind: 'turned', cut: false, section: [...section].reverse() }] },
        detail,
      );
      expect(volume(reversed) / exact).toBeCloseTo(1, 3);
      const half = bodyGeometry({ axis, pieces: [{ kind: 'turned', cut: true, section }] }, detail);
      expect(volume(half) / exact).toBeCloseTo(0.5, 3);
      const lugs = bodyGeometry(
        { axis, pieces: [{ kind: 'turned', cut: false, section, arcs: { count: 60, share: 0.25 } }] },
        detail,
      );
      expect(volume(lugs) / exact).toBeCloseTo(0.25, 3);
    });

    it(`keeps the half behind, its cut faces toward the eye, about the ${axis}'s axis`, () => {
      const half = bodyGeometry({ axis, pieces: [{ kind: 'turned', cut: true, section }] }, detail);
      const { position, normal, cut } = half.attributes;
      let faces = 0;
      for (let i = 0; i < position.count; i++) {
        expect(position.getY(i)).toBeLessThan(1e-6);
        if (cut.getX(i) !== 1) continue;
        faces += 1;
        expect(normal.getY(i)).toBe(1);
        expect(position.getY(i)).toBeCloseTo(0, 5);
      }
      expect(faces).toBeGreaterThan(0);
    });

    it(`rollers and bolts are closed bodies where they should be, about the ${axis}'s axis`, () => {
      const peg = bodyGeometry(
        { axis, pieces: [{ kind: 'pegs', count: 4, circle: 30, size: 2, from: 5, to: 9, cut: false }] },
        detail,
      );
      const hexagon = (3 * Math.sqrt(3) * 2 ** 2) / 2;
      expect(volume(peg)).toBeCloseTo(4 * hexagon * 4, 3);
      const rollers = bodyGeometry(
        {
          axis,
          pieces: [
            { kind: 'rollers', count: 7, big: { at: [0, 20], size: 3 }, small: { at: [12, 20], size: 3 } },
          ],
        },
        { turn: 40, roller: 400 },
      );
      expect(volume(rollers) / (7 * 12 * Math.PI * 9)).toBeCloseTo(1, 3);
    });
  }
});

it('every axle stays within 120 000 triangles and 40 draw calls', () => {
  for (const id of AXLE_IDS) {
    for (const detail of ['full', 'reduced'] as const) {
      const scene = new HousingScene();
      scene.setAxle(axleSolids(id, detail), detail, layoutOf(id));
      scene.setChosen('ring-side');
      let triangles = 0;
      let calls = 0;
      scene.root.traverseVisible((object) => {
        const mesh = object as Mesh & { count?: number };
        if (!mesh.isMesh) return;
        const { index, attributes } = mesh.geometry;
        triangles += ((index ?? attributes.position).count / 3) * (mesh.count ?? 1);
        calls += 1;
      });
      expect(triangles, `${id} ${detail}`).toBeLessThanOrEqual(120_000);
      expect(calls, `${id} ${detail}`).toBeLessThanOrEqual(40);
      if (detail === 'reduced') expect(triangles, id).toBeLessThan(50_000);
      scene.dispose();
    }
  }
  expect(ROUND.reduced.turn).toBeLessThan(ROUND.full.turn);
});

describe('labels', () => {
  it('never lie over one another, nor does a leader cross a box or a leader (seed 51)', () => {
    const random = seededRandom(51);
    let placed = 0;
    let left = 0;
    for (let trial = 0; trial < 200; trial++) {
      const [width, height] = [random.between(250, 1200), random.between(200, 800)];
      const taken: Spot[] = [];
      for (let i = 0; i < 17; i++) {
        const spot = createSpot();
        spot.px = random.between(0, width);
        spot.py = random.between(0, height);
        spot.halfWidth = random.between(20, 90);
        spot.halfHeight = random.between(9, 14);
        const angle = random.between(0, 2 * Math.PI);
        if (placeLabel(spot, Math.cos(angle), Math.sin(angle), taken, taken.length, width, height)) {
          taken.push(spot);
          placed += 1;
        } else left += 1;
      }
      for (const [i, a] of taken.entries()) {
        expect(a.x - a.halfWidth).toBeGreaterThanOrEqual(0);
        expect(a.x + a.halfWidth).toBeLessThanOrEqual(width);
        expect(a.y - a.halfHeight).toBeGreaterThanOrEqual(0);
        expect(a.y + a.halfHeight).toBeLessThanOrEqual(height);
        for (const b of taken.slice(i + 1)) {
          const boxes =
            Math.abs(a.x - b.x) < a.halfWidth + b.halfWidth &&
            Math.abs(a.y - b.y) < a.halfHeight + b.halfHeight;
          expect(boxes || leadersCross(a, b) || throughBox(a, b) || throughBox(b, a)).toBe(false);
        }
      }
    }
    // there are cases of both kinds
    expect(placed).toBeGreaterThan(1000);
    expect(left).toBeGreaterThan(100);
  });

  it('every part of every axle has one, on the part itself or the housing round it', () => {
    for (const id of AXLE_IDS) {
      const layout = layoutOf(id);
      const anchored = new Set(labelAnchors(layout).map(({ id: name }) => name));
      for (const { part } of layout.bodies) expect(anchored.has(part), `${id} ${part}`).toBe(true);
    }
  });
});

describe('words', () => {
  const t = createTranslate('en');

  it('say what each part does, with its real thickness, in either unit, for whatever an axle has', () => {
    for (const id of AXLE_IDS) {
      for (const { label, hardware } of everyHardware(id)) {
        const layout = layoutOf(id, hardware);
        const fitment = {
          pinionShim: hardware.pinionShim.design + 0.05,
          ringSide: hardware.sides.ringSide.fitted,
          oppositeSide: hardware.sides.oppositeSide.fitted,
        };
        for (const unit of ['mm', 'in'] as const) {
          const parts = describeParts(layout, fitment, unit, t);
          for (const { title, words } of parts) {
            expect(title.length, label).toBeGreaterThan(2);
            expect(words.join(' ').length, `${label} ${title}`).toBeGreaterThan(20);
            expect(`${title} ${words.join(' ')}`, label).not.toMatch(/undefined|NaN|[{}]/);
          }
          const shim = parts.find(({ name }) => name === 'pinion-shim');
          const mm = fitment.pinionShim;
          const shown = Number.parseFloat(shim?.value ?? '');
          expect(unit === 'mm' ? shown : shown * 25.4, label).toBeCloseTo(mm, 2);
          expect(shim?.value?.endsWith(unit)).toBe(true);
          const pinion = parts.find(({ name }) => name === 'pinion');
          const way = hardware.pinionShim.place === 'cartridge' ? 'out' : 'in';
          expect(pinion?.value?.endsWith(` ${way}`), label).toBe(true);
          expect(describePushes(layout, t)['pinion-shim']).toBe(`thicker: pinion ${way}`);
        }
      }
    }
  });
});

it('the flat section is of the same bodies: one shape or more for every part, none not a number', () => {
  for (const id of AXLE_IDS) {
    const layout = layoutOf(id);
    const fitment = fittedAtDesign(AXLES[id]);
    const shapes = sectionShapes(layout, placesOf(layout, movesOf(AXLES[id], fitment), 1, fitment));
    const drawn = new Set(shapes.map(({ part }) => part));
    for (const { part } of layout.bodies) expect(drawn.has(part), `${id} ${part}`).toBe(true);
    for (const { points } of shapes) {
      for (const [x, z] of points) expect(Number.isFinite(x) && Number.isFinite(z)).toBe(true);
    }
  }
});
