import { describe, expect, it } from 'vitest';
import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { type MeshSolution, MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE } from '../../sim/contact/pose.ts';
import {
  createShimMap,
  orderShimMap,
  poseOfCell,
  SHIM_MAP_AXIS,
  type ShimMap,
  type ShimMapPlane,
  solveShimMap,
} from '../../sim/contact/shimMap.ts';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { SHIPPED_SETS } from '../support/namedSets.ts';
import { seededRandom } from '../support/random.ts';

const PLANE: Omit<ShimMapPlane, 'film'> = {
  pinionIn: SHIM_MAP_AXIS,
  ringAway: SHIM_MAP_AXIS,
  offsetError: 0.03,
  shaftAngleError: -0.02,
};
const CELLS = 61 * 61;
/** A search-grid map may miss the display grid by this: flank coordinates, mm. */
const CENTRE_MISS = 0.025;
const DIAL_MISS = 0.0006;

/** Digits: two solvers built of one mesh may differ in the last bits, as the engine's power function does. */
const EQUAL = 11;

const expectCell = (map: ShimMap, cell: number, direct: MeshSolution): void => {
  for (const flank of FLANKS) {
    expect(map[flank].toeHeel[cell]).toBeCloseTo(direct[flank].patch.toeHeel, EQUAL);
    expect(map[flank].rootFace[cell]).toBeCloseTo(direct[flank].patch.rootFace, EQUAL);
    expect(map[flank].edges[cell]).toBe(direct[flank].patch.edges);
  }
  expect(map.dial[cell]).toBeCloseTo(direct.backlash.normal, EQUAL);
  expect(map.dialMean[cell]).toBeCloseTo(direct.backlash.normalMean, EQUAL);
  expect(map.binding[cell]).toBe(direct.backlash.normal <= 0 ? 1 : 0);
};

describe.each(SHIPPED_SETS)('shim map of $label', ({ definition, film }) => {
  const mesh = buildGearMesh(definition);
  const solver = new MeshSolver(mesh, SEARCH_GRID);
  const display = new MeshSolver(mesh);
  const map = createShimMap({ ...PLANE, film });
  const chunks = [...solveShimMap(solver, map, solver.createSolution(), 100)];

  it('is finished with every cell solved, the teeth binding in some and free in others', () => {
    expect(chunks.at(-1)).toMatchObject({ to: CELLS, total: CELLS, covered: 1 });
    expect(map.solved.every((solved) => solved === 1)).toBe(true);
    const bound = map.binding.reduce((sum, one) => sum + one, 0);
    expect(bound).toBeGreaterThan(0);
    expect(bound).toBeLessThan(CELLS / 2);
  });

  it('has the values of direct solves (seed 6161)', () => {
    const random = seededRandom(6161);
    const other = new MeshSolver(mesh, SEARCH_GRID);
    const direct = other.createSolution();
    const seen = new Set<number>();
    for (let i = 0; i < 60; i++) {
      const column = random.whole(0, 60);
      const row = random.whole(0, 60);
      const pose = {
        pinionIn: -0.3 + (0.6 * column) / 60,
        ringAway: -0.3 + (0.6 * row) / 60,
        offsetError: 0.03,
        shaftAngleError: -0.02,
      };
      other.solve(pose, film, direct);
      expectCell(map, row * 61 + column, direct);
      seen.add(direct.backlash.normal);
    }
    expect(seen.size).toBeGreaterThan(50);
  });

  it('the search grid is good enough for a map: near the display grid (seed 6162)', () => {
    const random = seededRandom(6162);
    const direct = display.createSolution();
    let edgesDiffer = 0;
    for (let i = 0; i < 60; i++) {
      const cell = random.whole(0, CELLS - 1);
      display.solve(poseOfCell(map, cell), film, direct);
      for (const flank of FLANKS) {
        const { patch } = direct[flank];
        expect(Math.abs(map[flank].toeHeel[cell] - patch.toeHeel)).toBeLessThan(CENTRE_MISS);
        expect(Math.abs(map[flank].rootFace[cell] - patch.rootFace)).toBeLessThan(CENTRE_MISS);
        if (map[flank].edges[cell] !== patch.edges) edgesDiffer++;
      }
      expect(Math.abs(map.dial[cell] - direct.backlash.normal)).toBeLessThan(DIAL_MISS);
    }
    expect(edgesDiffer).toBeLessThan(0.1 * 120);
  });
});

describe('the order of a shim map', () => {
  const { definition, film } = SHIPPED_SETS[0];
  const solver = new MeshSolver(buildGearMesh(definition), SEARCH_GRID);
  const scratch = solver.createSolution();

  it('the first pass covers the whole plane within a tenth of the cells', () => {
    const map = createShimMap({ ...PLANE, film });
    let chunk = { to: 0, covered: null as number | null };
    for (const next of solveShimMap(solver, map, scratch, 50)) {
      chunk = next;
      if (next.covered !== null) break;
    }
    expect(chunk.covered).toBe(8);
    const solvedCells = [...map.solved.keys()].filter((cell) => map.solved[cell]);
    expect(solvedCells).toHaveLength(chunk.to);
    expect(solvedCells.length).toBeLessThanOrEqual(CELLS / 10);
    // no cell is farther than half a stride from a solved one, in either direction
    for (let cell = 0; cell < CELLS; cell++) {
      const near = solvedCells.some(
        (other) =>
          Math.abs((other % 61) - (cell % 61)) <= 4 &&
          Math.abs(Math.floor(other / 61) - Math.floor(cell / 61)) <= 4,
      );
      expect(near).toBe(true);
    }
  });

  it.each([
    [61, 61],
    [61, 13],
    [2, 2],
    [9, 30],
  ])('%i × %i cells: each once, passes end in order', (columns, rows) => {
    const { cells, passes } = orderShimMap({ columns, rows });
    expect([...cells].sort((a, b) => a - b)).toEqual(Array.from({ length: columns * rows }, (_, i) => i));
    expect(passes.map(({ stride }) => stride)).toEqual([8, 4, 2, 1]);
    expect(passes.map(({ end }) => end)).toEqual(passes.map(({ end }) => end).sort((a, b) => a - b));
    expect(passes[3].end).toBe(columns * rows);
  });

  it('chunks join without gaps, end with the passes and never exceed the asked size', () => {
    const plane = { ...PLANE, pinionIn: { low: -0.1, high: 0.1, count: 17 }, film };
    const map = createShimMap({ ...plane, ringAway: { low: 0, high: 0.2, count: 11 } });
    const ends = orderShimMap(map).passes.map(({ end }) => end);
    let from = 0;
    for (const chunk of solveShimMap(solver, map, scratch, 7)) {
      expect(chunk.from).toBe(from);
      expect(chunk.to - chunk.from).toBeLessThanOrEqual(7);
      expect(map.solved.reduce((sum, one) => sum + one, 0)).toBe(chunk.to);
      from = chunk.to;
      const passed = [8, 4, 2, 1].filter((_, i) => ends[i] <= chunk.to);
      expect(chunk.covered).toBe(passed.at(-1) ?? null);
    }
    expect(from).toBe(17 * 11);
  });

  it('stopping cancels; going on later gives the same map, other solves in between or not', () => {
    const small = { ...PLANE, pinionIn: { low: -0.2, high: 0.2, count: 13 }, film };
    const straight = createShimMap(small);
    for (const _ of solveShimMap(solver, straight, scratch, 1000));
    const broken = createShimMap(small);
    for (const chunk of solveShimMap(solver, broken, scratch, 20)) if (chunk.to >= 100) break;
    const solvedThen = broken.solved.slice();
    expect(solvedThen.reduce((sum, one) => sum + one, 0)).toBeLessThan(130);
    expect(broken.dial.every((dial, cell) => solvedThen[cell] === 1 || Number.isNaN(dial))).toBe(true);
    for (const _ of solveShimMap(solver, broken, scratch, 20)) solver.solve(DESIGN_POSE, 0.02, scratch);
    expect(broken).toEqual(straight);
  });

  it('names an axis or chunk it cannot work with', () => {
    const plane = { ...PLANE, film };
    expect(() => createShimMap({ ...plane, pinionIn: { low: 0.1, high: 0.1, count: 9 } })).toThrow(
      /pinionIn/,
    );
    expect(() => createShimMap({ ...plane, ringAway: { low: 0, high: 0.1, count: 1 } })).toThrow(
      /ringAway\.count: 1/,
    );
    const map = createShimMap(plane);
    expect(() => solveShimMap(solver, map, scratch, 0).next()).toThrow(/chunkCells: 0/);
  });
});
