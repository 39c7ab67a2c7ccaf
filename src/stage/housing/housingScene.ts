import {
  type Camera,
  Group,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  Raycaster,
  type ShaderMaterial,
  Vector2,
  type Vector3,
} from 'three';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import type { Pose } from '../../../sim/contact/pose.ts';
import type { GearSolids, SolidDetail } from '../../../sim/gearset/solids.ts';
import type { LargerMoves } from '../../../sim/worker/longProtocol.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import { pinionAngle, pinionMatrix } from '../kinematics.ts';
import { LIGHT, type PaintColours, type StageTheme } from '../scene/colours.ts';
import { StageScene } from '../scene/stageScene.ts';
import type { HousingLayout } from './layout.ts';
import { bodyGeometry, ROUND } from './partGeometry.ts';
import {
  createPartMaterial,
  createRoomUniforms,
  PART_COLOURS,
  setPartTheme,
  setRoom,
} from './partMaterial.ts';
import type { Body, PartName, Place, Rider } from './parts.ts';
import { movesOf, placesOf } from './places.ts';

/** One state of the axle, complete: nothing of it is drawn before all of it is there. */
export interface HousingState {
  readonly fitment: Fitment;
  readonly pose: Pose;
  /** the solved pose, true to size: the paint */
  readonly solution: SolveResult;
  readonly larger: LargerMoves;
  /** `larger` is not what was found: nothing could be, so moves are drawn true to size */
  readonly notFound?: true;
}

interface DrawnBody {
  readonly body: Body;
  readonly mesh: Mesh;
  readonly material: ShaderMaterial;
}

/** Linear between the tabulated factors, which are equally spaced from 0. */
export function alongFactors(larger: LargerMoves, curve: ArrayLike<number>, factor: number): number {
  const last = curve.length - 1;
  if (larger.largest === 0) return curve[0];
  const at = Math.min(Math.max(factor / larger.largest, 0), 1) * last;
  const low = Math.min(Math.floor(at), last - 1);
  return curve[low] + (at - low) * (curve[low + 1] - curve[low]);
}

/** opacity of a chosen part through what hides it */
const SEEN_THROUGH = 0.22;

/**
 * Gears and housing as a plain three scene graph. The gears are the stage's own; the housing hangs in the same root, so
 * that a reverse-cut set is mirrored whole.
 *
 * root › turn › ring, pinion; root › on the carrier's axis, on the pinion's axis › bodies.
 */
export class HousingScene {
  readonly gears = new StageScene();
  layout: HousingLayout | null = null;
  places: Readonly<Record<Rider, Place>> | null = null;
  /** factor that is drawn; at most what the state allows */
  factor = 1;
  state: HousingState | null = null;
  mirrored = false;

  private readonly carrierAxis = new Group();
  private readonly pinionAxis = new Group();
  private readonly room = createRoomUniforms();
  private bodies: readonly DrawnBody[] = [];
  private theme: StageTheme = 'workshop';
  private chosen: PartName | null = null;
  /** what is chosen, seen through all that stands before it */
  private readonly glow = new MeshBasicMaterial({
    transparent: true,
    opacity: SEEN_THROUGH,
    depthTest: false,
    depthWrite: false,
    toneMapped: false,
  });
  private glows: readonly Mesh[] = [];
  private readonly ray = new Raycaster();
  private readonly pointer = new Vector2();
  private readonly ringGroup: Group;
  private readonly pinionGroup: Group;

  constructor() {
    for (const group of [this.carrierAxis, this.pinionAxis]) {
      group.matrixAutoUpdate = false;
      this.gears.root.add(group);
    }
    this.ringGroup = this.gears.root.getObjectByName('ring') as Group;
    this.pinionGroup = this.gears.root.getObjectByName('pinion') as Group;
    this.gears.setLines(0, 1);
    setRoom(this.room, this.theme);
  }

  get root(): Group {
    return this.gears.root;
  }

  /** The housing's frame on the pinion's axis, errors of the housing included, before any mirroring. */
  get pinionFrame(): Matrix4 {
    return this.pinionAxis.matrix;
  }

  setAxle(solids: GearSolids, detail: SolidDetail, layout: HousingLayout): void {
    const { definedOffset: offset } = layout;
    this.mirrored = layout.mirrored;
    this.gears.offsetSense = offset < 0 ? -1 : 1;
    this.gears.setSolids(solids, Math.abs(offset), this.mirrored);
    this.layout = layout;
    this.state = null;
    this.empty();
    const pitch = 0.028 * layout.gears.ring.outer;
    this.bodies = [...layout.bodies, ...gearHulls(layout)].map((body): DrawnBody => {
      const material = createPartMaterial(
        this.room,
        LEAN[body.part] ?? 1,
        body.tone === 'cast' ? pitch : 0.6 * pitch,
      );
      setPartTheme(material, body.tone, this.theme);
      const mesh = new Mesh(bodyGeometry(body, ROUND[detail]), material);
      mesh.name = body.part;
      mesh.matrixAutoUpdate = false;
      mesh.frustumCulled = false;
      // the hulls of the gears are only for pointing at
      mesh.visible = !HULLS.has(body);
      (body.axis === 'pinion' ? this.pinionAxis : this.carrierAxis).add(mesh);
      if (body.axis === 'carrier' && body.rider === 'housing') {
        const { boss } = layout.pinionSide;
        (material.uniforms.uBore.value as Vector2).set(layout.gears.offset, (boss.inner + boss.outer) / 2);
      }
      return { body, mesh, material };
    });
    this.paintChosen();
    this.move();
  }

  /** Places everything for a state, its moves drawn `wanted` times as large or as large as bodies allow. */
  setState(state: HousingState | null, wanted: number): void {
    if (state !== this.state) {
      if (state === null) this.gears.clearSolution();
      else this.gears.setSolution(state.solution);
    }
    this.state = state;
    this.factor = state === null ? 1 : Math.min(wanted, state.larger.largest);
    this.move();
  }

  private move(): void {
    const { layout, state, factor } = this;
    const { train } = this.gears;
    if (layout === null || train === null) return;
    const fitment = state?.fitment ?? {
      pinionShim: layout.hardware.pinionShim.design,
      ringSide: layout.hardware.sides.ringSide.design,
      oppositeSide: layout.hardware.sides.oppositeSide.design,
    };
    const moves = movesOf(layout.hardware, fitment);
    this.places = placesOf(layout, moves, factor, fitment);
    for (const { body, mesh } of this.bodies) {
      placeMatrix(mesh.matrix, body.axis, this.places[body.rider]);
      mesh.matrixWorldNeedsUpdate = true;
    }
    for (const glow of this.glows) glow.matrixWorldNeedsUpdate = true;
    const errors = {
      pinionIn: 0,
      ringAway: 0,
      offsetError: this.gears.offsetSense * (state?.pose.offsetError ?? 0),
      shaftAngleError: state?.pose.shaftAngleError ?? 0,
    };
    pinionMatrix(this.pinionAxis.matrix, errors, train.offset, 0);
    this.pinionAxis.matrixWorldNeedsUpdate = true;

    // the ring goes away from the pinion; the pinion stands in the middle of its free play
    this.ringGroup.matrix.makeTranslation(0, 0, this.places.carrier.shift);
    this.ringGroup.matrixWorldNeedsUpdate = true;
    let angle = 0;
    if (state !== null) {
      const curves = {
        driveError: [alongFactors(state.larger, state.larger.driveError, factor)],
        freePlay: [alongFactors(state.larger, state.larger.freePlay, factor)],
      };
      angle = (pinionAngle(train, 0, 'drive', curves) + pinionAngle(train, 0, 'coast', curves)) / 2;
    }
    pinionMatrix(
      this.pinionGroup.matrix,
      { ...errors, pinionIn: -this.places.pinion.shift },
      train.offset,
      angle,
    );
    this.pinionGroup.matrixWorldNeedsUpdate = true;
  }

  setColours(colours: PaintColours): void {
    this.gears.setColours(colours);
  }

  setTheme(theme: StageTheme): void {
    this.theme = theme;
    this.gears.setTheme(theme);
    setRoom(this.room, theme);
    for (const { body, material } of this.bodies) setPartTheme(material, body.tone, theme);
    this.paintChosen();
  }

  /** Brings a part forward; null: all alike. */
  setChosen(part: PartName | null): void {
    this.chosen = part;
    this.paintChosen();
  }

  private paintChosen(): void {
    const { chosen } = this;
    this.room.uQuiet.value = chosen === null ? 0 : 1;
    for (const { body, material } of this.bodies)
      material.uniforms.uChosen.value = body.part === chosen ? 1 : 0;
    this.showGlow();
    // the paint keeps its colour whatever is chosen; the steel round it steps back
    const light = LIGHT[this.theme];
    for (const [group, part, steel] of [
      [this.ringGroup, 'ring', light.ringSteel],
      [this.pinionGroup, 'pinion', light.pinionSteel],
    ] as const) {
      const share = chosen === null || chosen === part ? 1 : PART_COLOURS[this.theme].quietGears;
      for (const child of group.children) {
        const uniform = ((child as Mesh).material as ShaderMaterial).uniforms.uSteel;
        (uniform.value as Vector3).set(...steel).multiplyScalar(chosen === part ? 1.25 : share);
      }
    }
  }

  private showGlow(): void {
    for (const glow of this.glows) glow.removeFromParent();
    this.glow.color.set(PART_COLOURS[this.theme].chosen);
    this.glows = this.bodies
      .filter(({ body, mesh }) => body.part === this.chosen && mesh.visible && body.tone !== 'mark')
      .map(({ mesh }) => {
        const glow = new Mesh(mesh.geometry, this.glow);
        glow.matrixAutoUpdate = false;
        glow.frustumCulled = false;
        // moves with the body it is the glow of
        glow.matrix = mesh.matrix;
        glow.renderOrder = 5;
        mesh.parent?.add(glow);
        return glow;
      });
  }

  /** The part nearest to the camera at a place of the picture (−1 … 1 each way); null: none. */
  pick(x: number, y: number, camera: Camera): PartName | null {
    this.root.updateMatrixWorld();
    this.ray.setFromCamera(this.pointer.set(x, y), camera);
    let nearest = Number.POSITIVE_INFINITY;
    let found: PartName | null = null;
    for (const { body, mesh } of this.bodies) {
      const [hit] = this.ray.intersectObject(mesh, false);
      if (hit === undefined || hit.distance >= nearest) continue;
      nearest = hit.distance;
      found = body.part;
    }
    return found;
  }

  private empty(): void {
    for (const glow of this.glows) glow.removeFromParent();
    this.glows = [];
    for (const { mesh, material } of this.bodies) {
      mesh.removeFromParent();
      mesh.geometry.dispose();
      material.dispose();
    }
    this.bodies = [];
  }

  dispose(): void {
    this.empty();
    this.glow.dispose();
    this.gears.dispose();
    this.layout = null;
    this.state = null;
  }
}

/** Neighbours in the section are hatched to different sides. */
const LEAN: Partial<Record<PartName, 1 | -1>> = {
  'head-bearing': -1,
  'tail-bearing': -1,
  'ring-bearing': -1,
  'opposite-bearing': -1,
  cartridge: -1,
};

/** Bodies that are never drawn. */
const HULLS = new WeakSet<Body>();

/** Coarse bodies of ring and pinion: thousands of teeth need not be searched for what lies under a finger. */
function gearHulls({ gears }: HousingLayout): readonly Body[] {
  const { ring, pinion } = gears;
  const hulls: readonly Body[] = [
    {
      part: 'ring',
      tone: 'steel',
      axis: 'carrier',
      rider: 'carrier',
      pieces: [
        {
          kind: 'turned',
          cut: false,
          section: [
            [ring.back, ring.bore],
            [ring.toe, ring.bore],
            [ring.toe, 0.9 * ring.outer],
            [ring.back, ring.outer],
          ],
        },
      ],
    },
    {
      part: 'pinion',
      tone: 'steel',
      axis: 'pinion',
      rider: 'pinion',
      pieces: [
        {
          kind: 'turned',
          cut: false,
          section: [
            [pinion.toe, 0],
            [pinion.shoulder, 0],
            [pinion.shoulder, 0.95 * pinion.tip],
            [pinion.toe, 0.95 * pinion.toeTip],
          ],
        },
      ],
    },
  ];
  for (const hull of hulls) HULLS.add(hull);
  return hulls;
}

const turned = new Matrix4();

/** axial' = shift + scale · axial, turned about the axis. */
function placeMatrix(out: Matrix4, axis: Body['axis'], { shift, scale, turn }: Place): Matrix4 {
  if (axis === 'pinion') {
    out.makeScale(scale, 1, 1).setPosition(shift, 0, 0);
    return turn === 0 ? out : out.multiply(turned.makeRotationX(turn));
  }
  out.makeScale(1, 1, scale).setPosition(0, 0, shift);
  return turn === 0 ? out : out.multiply(turned.makeRotationZ(turn));
}
