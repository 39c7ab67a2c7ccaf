import { describe, expect, it } from 'vitest';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import type { Fitment, SideDevice } from '../../sim/assembly/hardware.ts';
import { travelPerNotch } from '../../sim/assembly/sides.ts';
import { type HousingLayout, layOutHousing } from '../../src/stage/housing/layout.ts';
import { mostLarger, movesOf, placesOf, REACH } from '../../src/stage/housing/places.ts';
import { seededRandom } from '../support/random.ts';
import { drawMakeableMesh } from '../support/randomGearSet.ts';
import {
  axleSolids,
  borderPoints,
  depthInside,
  everyHardware,
  layoutOf,
  liesIn,
  type Standing,
  standing,
} from './housingSupport.ts';
import { loadSet } from './meshSet.ts';

/** mm that two bodies may share: what fits tightly is drawn touching */
const TOUCH = 0.12;

/** Bodies that are screwed or pressed into one another, or are one casting. */
const ONE = new Set(['pinion flange', 'flange pinion']);
const apart = (a: Standing, b: Standing): boolean =>
  a.body.part !== b.body.part && !ONE.has(`${a.body.part} ${b.body.part}`);

/** Arrows and marks are no bodies. */
const solid = (layout: HousingLayout, places: ReturnType<typeof placesOf>): Standing[] =>
  standing([...layout.pinionSide.bodies, ...layout.carrierSide.bodies], places);

function randomFitment(layout: HousingLayout, random: ReturnType<typeof seededRandom>): Fitment {
  const { pinionShim, sides } = layout.hardware;
  const side = (device: SideDevice): number => {
    const push = random.between(-0.25, 0.25);
    return device.kind === 'adjuster'
      ? device.design + Math.round(push / travelPerNotch(device))
      : device.design + push;
  };
  return {
    pinionShim: pinionShim.design + random.between(-0.3, 0.3),
    ringSide: side(sides.ringSide),
    oppositeSide: side(sides.oppositeSide),
  };
}

/** Moves at the ends of what is ever drawn. */
function extremes(layout: HousingLayout, seed: number): { fitment: Fitment; factor: number }[] {
  const random = seededRandom(seed);
  const { hardware } = layout;
  const design: Fitment = {
    pinionShim: hardware.pinionShim.design,
    ringSide: hardware.sides.ringSide.design,
    oppositeSide: hardware.sides.oppositeSide.design,
  };
  const out = [{ fitment: design, factor: 1 }];
  for (let i = 0; i < 2; i++) {
    const fitment = randomFitment(layout, random);
    out.push({ fitment, factor: mostLarger(layout, movesOf(hardware, fitment)) });
  }
  return out;
}

describe.each(AXLE_IDS)('bodies of the housing round %s', (id) => {
  const axles = everyHardware(id);

  it('on one axis, no section lies in another, however far the moves are drawn (seed 41)', () => {
    for (const { label, hardware } of axles) {
      const layout = layoutOf(id, hardware);
      for (const { fitment, factor } of extremes(layout, 41)) {
        const places = placesOf(layout, movesOf(hardware, fitment), factor, fitment);
        const all = solid(layout, places);
        for (const a of all) {
          const points = borderPoints(a.polygon, 2);
          for (const b of all) {
            if (a.body.axis !== b.body.axis || !apart(a, b)) continue;
            for (const [axial, radius] of points) {
              if (liesIn(b, axial, radius, TOUCH)) {
                const depth = depthInside(b.polygon, axial, radius);
                expect.fail(
                  `${label}: ${a.body.part} lies ${depth.toFixed(2)} mm in ${b.body.part} at ${axial.toFixed(1)}, ${radius.toFixed(1)}`,
                );
              }
            }
          }
        }
      }
    }
  });

  it('nothing on the pinion’s axis lies in anything on the ring’s, nor in the ring (seed 42)', () => {
    const solids = axleSolids(id);
    const step = 12;
    // each place of the pinion shim and each kind of side at least once
    for (const { label, hardware } of axles.filter((_, i) => i % 3 < 1)) {
      const layout = layoutOf(id, hardware);
      const { offset } = layout.gears;
      const { boss } = layout.pinionSide;
      for (const { fitment, factor } of extremes(layout, 42).slice(0, 2)) {
        const places = placesOf(layout, movesOf(hardware, fitment), factor, fitment);
        const all = solid(layout, places);
        const onPinion = all.filter(({ body }) => body.axis === 'pinion');
        const onCarrier = all.filter(({ body }) => body.axis === 'carrier');
        const bored = (x: number, y: number, z: number): boolean =>
          x > 0 && Math.hypot(y - offset, z) < (boss.inner + boss.outer) / 2;
        const complain = (a: string, b: string, x: number, y: number, z: number): never =>
          expect.fail(`${label}: ${a} lies in ${b} at ${[x, y, z].map((v) => v.toFixed(1)).join(', ')}`);

        /** A point of a body against all bodies of the other axis. */
        const check = (a: string, others: readonly Standing[], x: number, y: number, z: number): void => {
          for (const other of others) {
            const { body, cut } = other;
            if (body.part === a) continue;
            const pinion = body.axis === 'pinion';
            if (cut && (pinion ? y > offset : y > 0)) continue;
            if (!pinion && body.rider === 'housing' && bored(x, y, z)) continue;
            const [axial, radius] = pinion ? [x, Math.hypot(y - offset, z)] : [z, Math.hypot(x, y)];
            if (liesIn(other, axial, radius, TOUCH)) complain(a, body.part, x, y, z);
          }
        };
        for (const { body, cut, polygon } of all) {
          for (const [axial, radius] of borderPoints(polygon, 4)) {
            for (let k = 0; k < 40; k++) {
              const c = radius * Math.cos((2 * Math.PI * k) / 40);
              const s = radius * Math.sin((2 * Math.PI * k) / 40);
              const pinion = body.axis === 'pinion';
              const [x, y, z] = pinion ? [axial, offset + c, s] : [c, s, axial];
              if (cut && (pinion ? y > offset : y > 0)) continue;
              if (!pinion && body.rider === 'housing' && bored(x, y, z)) continue;
              check(body.part, pinion ? onCarrier : onPinion, x, y, z);
            }
          }
        }
        // the gears themselves, tooth by tooth
        const { ring, pinion } = solids;
        for (let tooth = 0; tooth < ring.count; tooth++) {
          const angle = (2 * Math.PI * tooth) / ring.count;
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const { positions } = ring.sector;
          for (let i = 0; i < positions.length; i += 3 * step) {
            const [x, y] = [positions[i] * c - positions[i + 1] * s, positions[i] * s + positions[i + 1] * c];
            check('ring', all, x, y, positions[i + 2] + places.carrier.shift);
          }
        }
        for (let tooth = 0; tooth < pinion.count; tooth++) {
          const angle = (2 * Math.PI * tooth) / pinion.count;
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const { positions } = pinion.sector;
          for (let i = 0; i < positions.length; i += 3 * step) {
            const [y, z] = [
              positions[i + 1] * c - positions[i + 2] * s,
              positions[i + 1] * s + positions[i + 2] * c,
            ];
            check('pinion', all, positions[i] + places.pinion.shift, offset + y, z);
          }
        }
      }
    }
  });

  it('a shim is drawn its factor times thicker at design, and grows with what it pushes (seed 43)', () => {
    const random = seededRandom(43);
    for (const { label, hardware } of axles) {
      const layout = layoutOf(id, hardware);
      for (let trial = 0; trial < 5; trial++) {
        const fitment = randomFitment(layout, random);
        const moves = movesOf(hardware, fitment);
        const factor = random.between(0, 1) * mostLarger(layout, moves);
        const places = placesOf(layout, moves, factor, fitment);
        const span = (rider: 'pinion-shim' | 'ring-side' | 'opposite-side', from: number, to: number) =>
          Math.abs(places[rider].scale * (to - from));
        const { shim } = layout.pinionSide;
        const thicker = fitment.pinionShim - hardware.pinionShim.design;
        expect(span('pinion-shim', shim.from, shim.to), label).toBeCloseTo(
          layout.drawn.pinionShim.factor * hardware.pinionShim.design + factor * thicker,
          6,
        );
        expect(places.pinion.shift).toBeCloseTo(
          (hardware.pinionShim.place === 'cartridge' ? 1 : -1) * factor * thicker,
          9,
        );
        for (const [rider, side] of [
          ['ring-side', 'ringSide'],
          ['opposite-side', 'oppositeSide'],
        ] as const) {
          const device = hardware.sides[side];
          const drawn = layout.drawn[side];
          if (device.kind === 'adjuster' || drawn === null) continue;
          const { from, to } = layout.carrierSide[side].device;
          expect(span(rider, from, to), label).toBeCloseTo(
            drawn.factor * device.design + factor * (fitment[side] - device.design),
            6,
          );
          expect(places[rider].scale).toBeGreaterThan(0.2);
        }
        // the ring goes where the solver has it
        expect(places.carrier.shift).toBeCloseTo(-factor * moves.ringAway, 12);
        expect(Math.abs(places.carrier.shift)).toBeLessThanOrEqual(REACH + 1e-9);
        expect(Math.abs(places.pinion.shift)).toBeLessThanOrEqual(REACH + 1e-9);
        expect(places['pinion-shim'].scale).toBeGreaterThan(0.2);
        expect(places.spacer.scale).toBeGreaterThan(0.5);
      }
    }
  });

  it('a shim touches what it lies between, and an adjuster its cup, wherever they stand (seed 44)', () => {
    const random = seededRandom(44);
    for (const { label, hardware } of axles) {
      const layout = layoutOf(id, hardware);
      const fitment = randomFitment(layout, random);
      const moves = movesOf(hardware, fitment);
      const places = placesOf(layout, moves, mostLarger(layout, moves), fitment);
      const all = solid(layout, places);
      const touches = (part: string, other: string): boolean => {
        const mine = all.filter(({ body }) => body.part === part);
        return all.some(
          ({ body, polygon }) =>
            body.part === other &&
            mine
              .flatMap((piece) => borderPoints(piece.polygon, 0.5))
              .some(([axial, radius]) => Math.abs(depthInside(polygon, axial, radius)) < 0.11),
        );
      };
      const { place } = hardware.pinionShim;
      expect(touches('pinion-shim', place === 'cartridge' ? 'cartridge' : 'head-bearing'), label).toBe(true);
      expect(touches('pinion-shim', place === 'head-bearing' ? 'pinion' : 'housing'), label).toBe(true);
      for (const [side, rider, bearing] of [
        ['ringSide', 'ring-side', 'ring-bearing'],
        ['oppositeSide', 'opposite-side', 'opposite-bearing'],
      ] as const) {
        expect(touches(rider, bearing), label).toBe(true);
        expect(
          touches(rider, hardware.sides[side].kind === 'inboard-shims' ? 'carrier' : 'housing'),
          label,
        ).toBe(true);
        expect(
          touches(bearing, hardware.sides[side].kind === 'inboard-shims' ? 'housing' : 'carrier'),
          label,
        ).toBe(true);
      }
      expect(touches('spacer', 'head-bearing'), label).toBe(true);
      expect(
        touches(hardware.spacer.kind === 'crush-sleeve' ? 'spacer' : 'spacer-stack', 'tail-bearing'),
        label,
      ).toBe(true);
    }
  });
});

it('the practice axles have what their files say, where they say it', () => {
  for (const id of AXLE_IDS) {
    const axle = AXLES[id];
    const layout = layoutOf(id);
    const parts = new Set(layout.bodies.map(({ part }) => part));
    expect(parts.has('cartridge'), id).toBe(axle.pinionShim.place === 'cartridge');
    expect(parts.has('spacer-stack'), id).toBe(axle.spacer.kind === 'solid-spacer');
    const { shim, head } = layout.pinionSide;
    const headBack = head.from + head.width;
    if (axle.pinionShim.place === 'head-bearing') expect(shim.to, id).toBeCloseTo(head.from, 9);
    else if (axle.pinionShim.place === 'behind-cup') expect(shim.from, id).toBeCloseTo(headBack, 9);
    else expect(shim.from, id).toBeGreaterThan(head.from);
    expect(layout.mirrored, id).toBe(axle.hand === 'reverse-cut');
  }
});

it('round gear sets drawn at random too, no section lies in another (seed 61)', () => {
  const random = seededRandom(61);
  for (const { label, hardware } of everyHardware('borrin').filter((_, i) => i % 2 === 0)) {
    const { definition } = drawMakeableMesh(random, random.pick(['face-milled', 'face-hobbed'] as const));
    const { solids } = loadSet(definition, 'reduced');
    const layout = layOutHousing(solids, definition.offset, hardware);
    for (const { fitment, factor } of extremes(layout, 61).slice(0, 2)) {
      const all = solid(layout, placesOf(layout, movesOf(hardware, fitment), factor, fitment));
      for (const a of all) {
        for (const b of all) {
          if (a.body.axis !== b.body.axis || !apart(a, b)) continue;
          const shared = borderPoints(a.polygon, 2).some(([axial, radius]) =>
            liesIn(b, axial, radius, TOUCH),
          );
          expect(shared, `${label}: ${a.body.part} in ${b.body.part}`).toBe(false);
        }
      }
    }
  }
});
