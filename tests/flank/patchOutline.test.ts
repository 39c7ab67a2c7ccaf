import { describe, expect, it } from 'vitest';
import type { Pose } from '../../sim/contact/pose.ts';
import { EDGES, type FlankResult, type SolveResult } from '../../sim/worker/protocol.ts';
import { type BorderKind, type BorderRing, borderRuns, traceRegion } from '../../src/flank/patchOutline.ts';
import { smoothBorders } from '../../src/flank/smoothBorder.ts';
import { measureRings } from './outlineMeasures.ts';
import { randomPoses } from './randomPoses.ts';
import { solvedSet } from './solved.ts';

const GRID = { columns: 61, rows: 31 };

/** A field given by formulas on the display grid. */
function fieldOf(separation: (u: number, v: number) => number, tip: (u: number, v: number) => number) {
  const out = {
    separation: new Float32Array(GRID.columns * GRID.rows),
    tipClearance: new Float32Array(GRID.columns * GRID.rows),
  };
  for (let row = 0; row < GRID.rows; row++) {
    for (let column = 0; column < GRID.columns; column++) {
      const u = -1 + (2 * column) / (GRID.columns - 1);
      const v = -1 + (2 * row) / (GRID.rows - 1);
      out.separation[row * GRID.columns + column] = separation(u, v);
      out.tipClearance[row * GRID.columns + column] = tip(u, v);
    }
  }
  return out;
}

const EVERYWHERE = () => 1;

function kindsOf(rings: readonly BorderRing[]): Set<BorderKind> {
  return new Set(rings.flatMap(({ kind }) => kind));
}

describe('border of a region given by a formula', () => {
  it('an ellipse inside the flank: one ring of equal separation with the exact area, centre and extents', () => {
    const field = fieldOf((u, v) => ((u + 0.2) / 0.5) ** 2 + ((v - 0.1) / 0.4) ** 2, EVERYWHERE);
    const rings = traceRegion(field, GRID, 1);
    expect(rings).toHaveLength(1);
    expect([...kindsOf(rings)]).toEqual(['level']);
    const exact = (Math.PI * 0.5 * 0.4) / 4;
    const measures = measureRings(smoothBorders(rings));
    expect(Math.abs(measures.area - exact)).toBeLessThan(0.005 * exact);
    // the cubic takes back what chords cut off
    expect(measures.area).toBeGreaterThan(measureRings(rings).area);
    expect(measures.toeHeel).toBeCloseTo(-0.2, 3);
    expect(measures.rootFace).toBeCloseTo(0.1, 3);
    expect(measures.length).toBeCloseTo(0.5, 2);
    expect(measures.height).toBeCloseTo(0.4, 2);
  });

  it('smoothing keeps every traced point and every straight border', () => {
    const field = fieldOf((u, v) => (u + 0.9) ** 2 + (v - 0.2) ** 2, EVERYWHERE);
    const [traced] = traceRegion(field, GRID, 0.25);
    const [smooth] = smoothBorders([traced]);
    const key = (u: number, v: number) => `${u.toFixed(12)} ${v.toFixed(12)}`;
    const kept = new Set(Array.from(smooth.u, (u, i) => key(u, smooth.v[i])));
    for (let i = 0; i < traced.u.length; i++) expect(kept).toContain(key(traced.u[i], traced.v[i]));
    const alongToe = (ring: BorderRing) => ring.kind.filter((kind) => kind === 'toe').length;
    expect(alongToe(smooth)).toBe(alongToe(traced));
    expect(alongToe(traced)).toBeGreaterThan(5);
    for (let i = 0; i < smooth.u.length; i++) {
      if (smooth.kind[i] !== 'level') continue;
      expect(Math.abs(Math.hypot(smooth.u[i] + 0.9, smooth.v[i] - 0.2) - 0.5)).toBeLessThan(0.003);
    }
  });

  it('runs counter-clockwise, and a hole clockwise', () => {
    const field = fieldOf((u, v) => Math.abs(Math.hypot(u, v) - 0.6), EVERYWHERE);
    const rings = traceRegion(field, GRID, 0.2);
    expect(rings).toHaveLength(2);
    const areas = rings.map((ring) => measureRings([ring]).area).sort((a, b) => a - b);
    expect(areas[0]).toBeCloseTo((-Math.PI * 0.4 ** 2) / 4, 2);
    expect(areas[1]).toBeCloseTo((Math.PI * 0.8 ** 2) / 4, 2);
  });

  it('the whole flank: a border of exactly the four edges', () => {
    const rings = traceRegion(
      fieldOf(() => 0, EVERYWHERE),
      GRID,
      1,
    );
    expect(rings).toHaveLength(1);
    expect(kindsOf(rings)).toEqual(new Set(EDGES));
    expect(measureRings(rings).area).toBeCloseTo(1, 12);
  });

  it('no region: no ring', () => {
    expect(
      traceRegion(
        fieldOf(() => 2, EVERYWHERE),
        GRID,
        1,
      ),
    ).toEqual([]);
    expect(
      traceRegion(
        fieldOf(
          () => 0,
          () => -1,
        ),
        GRID,
        1,
      ),
    ).toEqual([]);
  });

  it('ends on the straight line of the tip’s reach, not on the grid nodes', () => {
    // reach: v ≥ −0.317 + 0.21 u, crossing every row of nodes at odd places
    const reach = (u: number) => -0.317 + 0.21 * u;
    const rings = traceRegion(
      fieldOf(
        (u, v) => (u / 0.7) ** 2 + ((v + 0.3) / 0.5) ** 2,
        (u, v) => 5 * (v - reach(u)),
      ),
      GRID,
      1,
    );
    expect(rings).toHaveLength(1);
    expect(kindsOf(rings)).toEqual(new Set<BorderKind>(['level', 'tip']));
    const [run, ...others] = borderRuns(rings, ['tip']);
    expect(others).toEqual([]);
    for (let i = 0; i < run.u.length; i++) expect(run.v[i]).toBeCloseTo(reach(run.u[i]), 4);
    // nothing of the region lies beyond the reach
    const ring = rings[0];
    for (let i = 0; i < ring.u.length; i++) expect(ring.v[i]).toBeGreaterThan(reach(ring.u[i]) - 1e-4);
  });

  it('two marks that touch neither each other nor an edge stay two; a saddle is decided by the cell’s middle', () => {
    const twoHills = (u: number, v: number) =>
      Math.min((u + 0.5) ** 2, (u - 0.5) ** 2) / 0.04 + (v * v) / 0.09;
    expect(traceRegion(fieldOf(twoHills, EVERYWHERE), GRID, 1)).toHaveLength(2);
    const saddle = { columns: 2, rows: 2 };
    const tipClearance = new Float32Array([1, 1, 1, 1]);
    const open = traceRegion({ separation: new Float32Array([0, 1, 1, 0]), tipClearance }, saddle, 0.4);
    expect(open).toHaveLength(2);
    const joined = traceRegion({ separation: new Float32Array([0, 1, 1, 0]), tipClearance }, saddle, 0.6);
    expect(joined).toHaveLength(1);
  });
});

function expectSameMark(flank: FlankResult, result: SolveResult, where: string): void {
  const rings = traceRegion(flank, result.grid, result.film);
  if (flank.toeHeel === null || flank.rootFace === null) {
    expect(measureRings(rings).area, where).toBeLessThan(0.002);
    return;
  }
  for (const [what, borders] of [
    ['traced', rings],
    ['drawn', smoothBorders(rings)],
  ] as const) {
    const measures = measureRings(borders);
    const label = `${where}, ${what}`;
    expect(Math.abs(measures.area - flank.area), `area: ${label}`).toBeLessThan(0.01);
    expect(Math.abs(measures.toeHeel - flank.toeHeel), `toeHeel: ${label}`).toBeLessThan(0.01);
    expect(Math.abs(measures.rootFace - flank.rootFace), `rootFace: ${label}`).toBeLessThan(0.01);
    expect(Math.abs(measures.length - flank.length), `length: ${label}`).toBeLessThan(0.01);
    expect(Math.abs(measures.height - flank.height), `height: ${label}`).toBeLessThan(0.01);
  }
  const kinds = kindsOf(rings);
  for (const edge of ['toe', 'heel', 'face'] as const) {
    expect(kinds.has(edge), `${edge}: ${where}`).toBe(flank.edges.includes(edge));
  }
  if (kinds.has('root') || kinds.has('tip')) expect(flank.edges, `root: ${where}`).toContain('root');
}

const WORKED: readonly Partial<Pose>[] = [
  {},
  { pinionIn: 0.1 },
  { pinionIn: -0.1 },
  { ringAway: 0.1 },
  { ringAway: -0.1 },
  { pinionIn: 0.2 },
  { pinionIn: -0.2, ringAway: 0.15 },
  { offsetError: 0.05 },
  { shaftAngleError: 0.05 },
];

describe.each(['a', 'b'] as const)('border of the solved mark, set %s', (set) => {
  const { solve } = solvedSet(set);

  it.each(WORKED)('agrees with the report at %j', (pose) => {
    const result = solve(pose);
    for (const flank of ['drive', 'coast'] as const) expectSameMark(result[flank], result, flank);
  });

  it('agrees with the report on 60 random poses and films (seed 20261124)', () => {
    const met = new Set<string>();
    for (const { pose, film } of randomPoses(20261124, 60)) {
      const result = solve(pose, film);
      for (const flank of ['drive', 'coast'] as const) {
        expectSameMark(result[flank], result, `${flank} ${JSON.stringify(pose)} film ${film}`);
        for (const edge of result[flank].edges) met.add(edge);
      }
    }
    // the sample is worth something only when marks ran out over every edge somewhere
    expect(met).toEqual(new Set(EDGES));
  });
});
