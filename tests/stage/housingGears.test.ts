import { type InstancedMesh, Matrix4, type Mesh, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import { SEARCH_GRID } from '../../sim/contact/grid.ts';
import { findLargerMoves } from '../../sim/contact/largerMoves.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { SolidDetail } from '../../sim/gearset/solids.ts';
import { alongFactors, HousingScene, type HousingState } from '../../src/stage/housing/housingScene.ts';
import { layOutHousing } from '../../src/stage/housing/layout.ts';
import { mostLarger, movesOf, SPARE } from '../../src/stage/housing/places.ts';
import type { AxleId } from './housingSupport.ts';
import { loadSet } from './meshSet.ts';

interface Triangle {
  readonly corners: readonly [Vector3, Vector3, Vector3];
  readonly low: Vector3;
  readonly high: Vector3;
}

/** Triangles of a member's teeth as they stand in the world, those within a box. */
function teethOf(scene: HousingScene, member: 'ring' | 'pinion', low: Vector3, high: Vector3): Triangle[] {
  const mesh = scene.root.getObjectByName(`${member} teeth`) as InstancedMesh;
  scene.root.updateMatrixWorld(true);
  const { position } = mesh.geometry.attributes;
  const index = mesh.geometry.index!;
  const out: Triangle[] = [];
  const instance = new Matrix4();
  for (let k = 0; k < mesh.count; k++) {
    mesh.getMatrixAt(k, instance);
    const world = (mesh as Mesh).matrixWorld.clone().multiply(instance);
    for (let i = 0; i < index.count; i += 3) {
      const corner = (at: number) =>
        new Vector3().fromBufferAttribute(position, index.getX(at)).applyMatrix4(world);
      const corners = [corner(i), corner(i + 1), corner(i + 2)] as const;
      const least = corners[0].clone().min(corners[1]).min(corners[2]);
      const most = corners[0].clone().max(corners[1]).max(corners[2]);
      if (most.x < low.x || most.y < low.y || most.z < low.z) continue;
      if (least.x > high.x || least.y > high.y || least.z > high.z) continue;
      out.push({ corners, low: least, high: most });
    }
  }
  return out;
}

const e1 = new Vector3();
const e2 = new Vector3();
const across = new Vector3();
const along = new Vector3();
const toStart = new Vector3();
const q = new Vector3();

/** How deep an edge passes through a triangle, mm: the lesser of the lengths on its two sides; 0 when it does not. */
function edgeThrough(from: Vector3, to: Vector3, [a, b, c]: Triangle['corners']): number {
  along.subVectors(to, from);
  e1.subVectors(b, a);
  e2.subVectors(c, a);
  across.crossVectors(along, e2);
  const det = e1.dot(across);
  if (Math.abs(det) < 1e-12) return 0;
  toStart.subVectors(from, a);
  const u = toStart.dot(across) / det;
  if (u < 0 || u > 1) return 0;
  q.crossVectors(toStart, e1);
  const v = along.dot(q) / det;
  if (v < 0 || u + v > 1) return 0;
  const t = e2.dot(q) / det;
  if (t <= 0 || t >= 1) return 0;
  // distance of the nearer end from the triangle's plane
  const normal = e1.cross(e2).normalize();
  return Math.min(Math.abs(normal.dot(along)) * t, Math.abs(normal.dot(along)) * (1 - t));
}

/** The deepest that ring and pinion are drawn one in the other, mm. */
function deepest(scene: HousingScene): number {
  const far = 1e6;
  const all = new Vector3(far, far, far);
  const none = all.clone().negate();
  const bounds = (triangles: readonly Triangle[]) => {
    const low = all.clone();
    const high = none.clone();
    for (const triangle of triangles) {
      low.min(triangle.low);
      high.max(triangle.high);
    }
    return { low, high };
  };
  const pinionBox = bounds(teethOf(scene, 'pinion', none, all));
  const ring = teethOf(scene, 'ring', pinionBox.low, pinionBox.high);
  const ringBox = bounds(ring);
  const pinion = teethOf(scene, 'pinion', ringBox.low, ringBox.high);
  let depth = 0;
  const edges = [
    [0, 1],
    [1, 2],
    [2, 0],
  ] as const;
  for (const r of ring) {
    for (const p of pinion) {
      if (
        r.low.x > p.high.x ||
        r.high.x < p.low.x ||
        r.low.y > p.high.y ||
        r.high.y < p.low.y ||
        r.low.z > p.high.z ||
        r.high.z < p.low.z
      ) {
        continue;
      }
      for (const [i, j] of edges) {
        depth = Math.max(
          depth,
          edgeThrough(r.corners[i], r.corners[j], p.corners),
          edgeThrough(p.corners[i], p.corners[j], r.corners),
        );
      }
    }
  }
  return depth;
}

/** mm: what flat triangles may share of a curve */
const SHARED: Readonly<Record<SolidDetail, number>> = { full: 0.002, reduced: 0.1 };

function sceneOf(id: AxleId, detail: SolidDetail) {
  const axle = AXLES[id];
  const set = loadSet(axle.gearset, detail);
  const layout = layOutHousing(set.solids, axle.gearset.offset, axle);
  const solver = new MeshSolver(set.mesh, SEARCH_GRID);
  const scratch = solver.createSolution();
  const scene = new HousingScene();
  scene.setAxle(set.solids, detail, layout);
  /** the state with a pinion shim that moves the pinion by `inward` mm, the sides as at design */
  const stateFor = (inward: number): HousingState => {
    const fitment: Fitment = {
      pinionShim: axle.pinionShim.design + (axle.pinionShim.place === 'cartridge' ? -inward : inward),
      ringSide: axle.sides.ringSide.design,
      oppositeSide: axle.sides.oppositeSide.design,
    };
    const moves = movesOf(axle, fitment);
    const pose = { pinionIn: moves.pinionIn, ringAway: moves.ringAway, offsetError: 0, shaftAngleError: 0 };
    const larger = findLargerMoves(solver, pose, mostLarger(layout, moves), SPARE[detail], scratch);
    return { fitment, pose, solution: set.solve(pose), larger };
  };
  return { scene, stateFor };
}

describe.each(AXLE_IDS)('ring and pinion of %s in the housing', (id) => {
  it.each(['full', 'reduced'] as const)(
    'never stand one in the other, drawn as large as is allowed: %s',
    (detail) => {
      const { scene, stateFor } = sceneOf(id, detail);
      for (const inward of [0.04, -0.1]) {
        const state = stateFor(inward);
        expect(state.larger.largest).toBeGreaterThan(1);
        scene.setState(state, Number.POSITIVE_INFINITY);
        expect(scene.factor).toBe(state.larger.largest);
        expect(deepest(scene)).toBeLessThan(SHARED[detail]);
      }
    },
  );

  it('would do so half as far again, where the teeth are what ends it', () => {
    const { scene, stateFor } = sceneOf(id, 'reduced');
    const state = stateFor(0.08);
    expect(state.larger.endedBy).toBe('teeth');
    const { larger } = state;
    const beyond = 1.5 * larger.largest;
    const row = (value: number) => Float64Array.of(value, value);
    scene.setState(
      {
        ...state,
        larger: {
          ...larger,
          largest: beyond,
          factors: Float64Array.of(0, beyond),
          freePlay: row(alongFactors(larger, larger.freePlay, larger.largest)),
          driveError: row(alongFactors(larger, larger.driveError, larger.largest)),
        },
      },
      beyond,
    );
    expect(deepest(scene)).toBeGreaterThan(SHARED.reduced);
  });

  it('keep the paint of the true pose, and stand where the moves are multiplied', () => {
    const { scene, stateFor } = sceneOf(id, 'reduced');
    const state = stateFor(-0.1);
    scene.setState(state, 7);
    expect(scene.factor).toBe(Math.min(7, state.larger.largest));
    expect(scene.gears.pose.pinionIn).toBeCloseTo(-0.1, 9);
    const pinion = scene.root.getObjectByName('pinion');
    expect(pinion?.matrix.elements[12]).toBeCloseTo(0.1 * scene.factor, 9);
    scene.setState(state, 1);
    expect(pinion?.matrix.elements[12]).toBeCloseTo(0.1, 9);
  });
});
