import { type InstancedMesh, Matrix4, type Mesh, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { NOT_MEETING } from '../../sim/worker/protocol.ts';
import { screenColour } from '../../src/stage/scene/colours.ts';
import { createFlankTexture, packFlank, sampleFlank, TEXEL } from '../../src/stage/scene/flankTexture.ts';
import { openness } from '../../src/stage/scene/geometry.ts';
import { StageScene } from '../../src/stage/scene/stageScene.ts';
import { referenceSet } from '../support/referenceSets.ts';
import { loadSet, type StageSet } from './meshSet.ts';

let set: StageSet;
beforeAll(() => {
  set = loadSet(referenceSet('a'));
});

interface Drawn {
  readonly name: string;
  /** world positions, and triangle normals as the renderer takes them to face, per drawn triangle's first vertex */
  readonly points: Vector3[];
  readonly fronts: Vector3[];
  readonly normals: Vector3[];
}

/** Every vertex as it stands in the world, and which way the triangles face after the renderer's rule for mirrored objects. */
function drawnGeometry(mirrored: boolean): Drawn[] {
  const scene = new StageScene();
  scene.setSolids(set.solids, set.mesh.pitch.offset, mirrored);
  scene.setSolution(set.solve({ pinionIn: 0.2, ringAway: 0.1 }));
  scene.setRoll(0.31, -0.12);
  scene.root.updateMatrixWorld(true);
  const out: Drawn[] = [];
  scene.root.traverse((object) => {
    const mesh = object as Mesh;
    if (!mesh.isMesh || !mesh.visible) return;
    const instanced = object as InstancedMesh;
    const { position, normal } = mesh.geometry.attributes;
    const index = mesh.geometry.index!;
    const drawn: Drawn = { name: mesh.name, points: [], fronts: [], normals: [] };
    const instance = new Matrix4();
    const count = instanced.isInstancedMesh ? instanced.count : 1;
    // three takes triangles as front-facing the other way round when the object's own matrix mirrors
    const flip = Math.sign(mesh.matrixWorld.determinant());
    for (let k = 0; k < count; k += 5) {
      if (instanced.isInstancedMesh) instanced.getMatrixAt(k, instance);
      const world = mesh.matrixWorld.clone().multiply(instance);
      const turnNormal = world.clone().invert().transpose();
      const corner = (at: number) =>
        new Vector3().fromBufferAttribute(position, index.getX(at)).applyMatrix4(world);
      for (let i = 0; i < index.count; i += 3) {
        const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
        drawn.points.push(a);
        drawn.fronts.push(b.clone().sub(a).cross(c.clone().sub(a)).multiplyScalar(flip));
        const n = new Vector3().fromBufferAttribute(normal, index.getX(i));
        drawn.normals.push(n.transformDirection(turnNormal));
      }
    }
    out.push(drawn);
  });
  scene.dispose();
  return out;
}

describe('a reverse-cut set', () => {
  it('is drawn as the mirror image, vertex by vertex, ring and pinion', () => {
    const standard = drawnGeometry(false);
    const reverse = drawnGeometry(true);
    expect(standard.map((part) => part.name)).toEqual([
      'ring teeth',
      'ring body',
      'pinion teeth',
      'pinion body',
    ]);
    for (const [i, part] of standard.entries()) {
      let worst = 0;
      for (const [k, point] of part.points.entries()) {
        const other = reverse[i].points[k];
        worst = Math.max(
          worst,
          Math.abs(other.x - point.x),
          Math.abs(other.y + point.y),
          Math.abs(other.z - point.z),
        );
      }
      expect(worst).toBeLessThan(1e-9);
      // and it really is another shape in space
      expect(part.points.some((point) => Math.abs(point.y) > 5)).toBe(true);
    }
  });

  for (const mirrored of [false, true]) {
    it(`has its triangles face outward ${mirrored ? 'when mirrored' : 'as built'}`, () => {
      for (const part of drawnGeometry(mirrored)) {
        let outward = 0;
        let area = 0;
        for (const [k, front] of part.fronts.entries()) {
          area += front.length();
          if (front.dot(part.normals[k]) > 0) outward += front.length();
        }
        expect(outward / area, part.name).toBeGreaterThan(0.98);
      }
    });
  }
});

describe('members', () => {
  it('have one tooth per pitch, all the way round', () => {
    const scene = new StageScene();
    scene.setSolids(set.solids, set.mesh.pitch.offset, false);
    const teeth = (name: string) => {
      let found: InstancedMesh | undefined;
      scene.root.traverse((object) => {
        if (object.name === `${name} teeth`) found = object as InstancedMesh;
      });
      return found!;
    };
    expect(teeth('ring').count).toBe(43);
    expect(teeth('pinion').count).toBe(12);
    const matrix = new Matrix4();
    teeth('pinion').getMatrixAt(3, matrix);
    const turned = new Vector3(1, 5, 0).applyMatrix4(matrix);
    expect(turned.distanceTo(new Vector3(1, 0, 5))).toBeLessThan(1e-6);
    teeth('ring').getMatrixAt(1, matrix);
    const next = new Vector3(7, 0, 2).applyMatrix4(matrix);
    expect(Math.atan2(next.y, next.x)).toBeCloseTo((2 * Math.PI) / 43, 6);
    scene.dispose();
  });

  for (const detail of ['full', 'reduced'] as const) {
    it(`stay within the triangles a slow device draws: ${detail}`, () => {
      const { solids } = loadSet(referenceSet('b'), detail);
      let triangles = 0;
      for (const { sector, count, body } of [solids.ring, solids.pinion]) {
        triangles += (sector.indices.length / 3) * count + body.indices.length / 3;
      }
      // a see-through pinion is drawn twice
      const pinion =
        (solids.pinion.sector.indices.length / 3) * solids.pinion.count +
        solids.pinion.body.indices.length / 3;
      expect(triangles + pinion).toBeLessThanOrEqual(detail === 'full' ? 120_000 : 60_000);
    });
  }

  it('are darkest at the bottom of their own slots', () => {
    for (const [member, tip] of [
      ['ring', 1],
      ['pinion', -1],
    ] as const) {
      const { sector } = set.solids[member];
      const open = openness(sector, tip);
      const axis = member === 'ring' ? 2 : 0;
      const place = (i: number) => {
        const p = [sector.positions[3 * i], sector.positions[3 * i + 1], sector.positions[3 * i + 2]];
        return member === 'ring' ? p[axis] : Math.hypot(p[1], p[2]);
      };
      const mean = (wanted: (value: number) => boolean) => {
        const found = Array.from(open.keys()).filter((i) => wanted(open[i]));
        expect(found.length).toBeGreaterThan(10);
        return found.reduce((sum, i) => sum + place(i), 0) / found.length;
      };
      expect(mean((value) => value > 0.9)).toBeGreaterThan(mean((value) => value < 0.25));
    }
  });
});

describe('the paint texture', () => {
  it('gives the grid back at its nodes and a straight blend between', () => {
    const solution = set.solve();
    const { grid } = solution;
    const data = createFlankTexture(grid).image.data as Float32Array;
    expect(sampleFlank(data, grid, 0, 0)[0]).toBe(NOT_MEETING);
    packFlank(data, solution.drive);
    for (const [column, row] of [
      [0, 0],
      [60, 30],
      [17, 5],
      [60, 0],
    ]) {
      const [separation, tip, phase] = sampleFlank(data, grid, -1 + column / 30, -1 + row / 15);
      const i = row * grid.columns + column;
      expect(separation).toBeCloseTo(solution.drive.separation[i], 9);
      expect(tip).toBeCloseTo(solution.drive.tipClearance[i], 9);
      expect(phase).toBeCloseTo(solution.drive.phase[i], 9);
    }
    const between = sampleFlank(data, grid, -1 + 10.25 / 30, -1 + 7.5 / 15)[0];
    const s = (c: number, r: number) => solution.drive.separation[r * grid.columns + c];
    expect(between).toBeCloseTo(
      0.5 * (0.75 * s(10, 7) + 0.25 * s(11, 7)) + 0.5 * (0.75 * s(10, 8) + 0.25 * s(11, 8)),
      7,
    );
    expect(sampleFlank(data, grid, -4, 9)[0]).toBeCloseTo(s(0, 30), 9);
  });

  it('lets one corner that never meets blank its whole cell', () => {
    const grid = { columns: 3, rows: 2 };
    const fields = {
      separation: Float32Array.from([0, 0, 0, 0, 0, NOT_MEETING]),
      tipClearance: new Float32Array(6).fill(1),
      phase: new Float32Array(6),
    };
    const data = new Float32Array(TEXEL * 6);
    packFlank(data, fields);
    expect(sampleFlank(data, grid, -0.5, 0)[0]).toBe(0);
    expect(sampleFlank(data, grid, 0.5, 0)[0]).toBe(NOT_MEETING);
  });

  for (const pose of [{}, { pinionIn: 0.1 }, { ringAway: 0.1 }]) {
    it(`covers the area the solver reports: ${JSON.stringify(pose)}`, () => {
      const film = 0.0127;
      const solution = set.solve(pose, film);
      const { grid } = solution;
      for (const flank of ['drive', 'coast'] as const) {
        const data = new Float32Array(TEXEL * grid.columns * grid.rows);
        packFlank(data, solution[flank]);
        let rubbed = 0;
        const n = 240;
        for (let i = 0; i < n; i++) {
          for (let k = 0; k < n; k++) {
            const [separation, tip] = sampleFlank(
              data,
              grid,
              -1 + (2 * (i + 0.5)) / n,
              -1 + (2 * (k + 0.5)) / n,
            );
            if (separation <= film && tip >= 0) rubbed += 1;
          }
        }
        expect(rubbed / (n * n)).toBeGreaterThan(0.05);
        expect(Math.abs(rubbed / (n * n) - solution[flank].area)).toBeLessThan(0.01);
      }
    });
  }
});

describe('paint colours', () => {
  it('are the values of the screen, not linear light', () => {
    const colour = screenColour(new Vector3(), '#e3b62c');
    expect(colour.toArray().map((part) => Math.round(part * 255))).toEqual([0xe3, 0xb6, 0x2c]);
  });

  it('refuse what is not #rrggbb', () => {
    for (const wrong of ['yellow', '#fff', '#12345g', '']) {
      expect(() => screenColour(new Vector3(), wrong)).toThrow(/#rrggbb/);
    }
  });
});
