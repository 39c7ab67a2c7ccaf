import {
  type DataTexture,
  DoubleSide,
  FrontSide,
  Group,
  InstancedBufferAttribute,
  InstancedMesh,
  type Matrix4,
  Mesh,
  type Object3D,
  type ShaderMaterial,
  type Vector2,
  type Vector3,
  type Vector4,
} from 'three';
import type { Pose } from '../../../sim/contact/pose.ts';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { GearSolids, MemberSolid } from '../../../sim/gearset/solids.ts';
import type { GridSize, SolveResult } from '../../../sim/worker/protocol.ts';
import {
  type ContactCurves,
  pinionAngle,
  pinionMatrix,
  ringMatrix,
  type Train,
  trainOf,
} from '../kinematics.ts';
import { LIGHT, type PaintColours, type StageTheme, screenColour } from './colours.ts';
import { createFlankTexture, packFlank } from './flankTexture.ts';
import { openness, toGeometry } from './geometry.ts';
import {
  createMemberMaterial,
  createMemberUniforms,
  createPaintUniforms,
  type MemberUniforms,
  NO_CUT,
} from './memberMaterial.ts';

/** Which teeth of the ring carry compound: all, or tooth numbers (0 is the tooth at the mesh at ring angle 0). */
export type PaintedTeeth = 'all' | readonly number[];

const DESIGN: Pose = { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 };
/** Grid of a pose not solved yet: it meets nowhere. */
const UNSOLVED: GridSize = { columns: 2, rows: 2 };

interface DrawnMember {
  readonly group: Group;
  readonly uniforms: MemberUniforms;
  readonly teethMaterial: ShaderMaterial;
  readonly bodyMaterial: ShaderMaterial;
  /** writes depth alone: drawn before a see-through member, so that only its nearest surface shows */
  readonly depthMaterial: ShaderMaterial;
  teeth: InstancedMesh | null;
  body: Mesh | null;
  depthTeeth: InstancedMesh | null;
  depthBody: Mesh | null;
}

/**
 * Everything drawn, as a plain three scene graph: no React, no renderer, so that tests can read it.
 *
 * root (mirrored for reverse-cut sets) › turn (the whole set turned about the ring axis, to ride with a tooth)
 * › ring, pinion (each posed by its own matrix) › teeth (instanced), body.
 */
export class StageScene {
  readonly root = new Group();
  readonly turn = new Group();
  /** null until a gear set is shown */
  train: Train | null = null;
  pose: Pose = DESIGN;
  /** −1 when the definition's offset is negative: the picture is its mirror image, where an offset error runs the other way */
  offsetSense: -1 | 1 = 1;
  /** rad, ring angle */
  roll = 0;
  /** rad, the whole set turned about the ring axis */
  ride = 0;
  /** rad, the ring turned on alone while the pinion stays where `roll` has it */
  rock = 0;

  private readonly paint = createPaintUniforms();
  private readonly ring = this.createMember('ring');
  private readonly pinion = this.createMember('pinion');
  private touching: FlankName = 'drive';
  private curves: ContactCurves | null = null;
  private textures: { drive: DataTexture; coast: DataTexture; columns: number; rows: number } | null = null;
  private paintedTeeth: PaintedTeeth = 'all';
  private pinionOpacity = 1;

  constructor() {
    this.root.add(this.turn);
    this.turn.add(this.ring.group, this.pinion.group);
    this.turn.matrixAutoUpdate = false;
    this.root.matrixAutoUpdate = false;
    this.setTheme('workshop');
    this.clearSolution();
  }

  private createMember(member: 'ring' | 'pinion'): DrawnMember {
    const group = new Group();
    group.name = member;
    group.matrixAutoUpdate = false;
    const uniforms = createMemberUniforms(this.paint, group.matrix);
    return {
      group,
      uniforms,
      teethMaterial: createMemberMaterial(uniforms, member, false),
      bodyMaterial: createMemberMaterial(uniforms, member, true),
      depthMaterial: depthOnly(createMemberMaterial(uniforms, member, false)),
      teeth: null,
      body: null,
      depthTeeth: null,
      depthBody: null,
    };
  }

  /** Shows a gear set; `offset` mm as the solids are built, `mirrored` for a reverse-cut set (y → −y). */
  setSolids(solids: GearSolids, offset: number, mirrored: boolean): void {
    this.train = trainOf(solids, offset);
    this.fill(this.ring, solids.ring, 'z');
    this.fill(this.pinion, solids.pinion, 'x');
    this.root.matrix.makeScale(1, mirrored ? -1 : 1, 1);
    this.root.matrixWorldNeedsUpdate = true;
    this.paint.uPitch.value = this.train.pitch;
    this.ring.uniforms.uCoastShift.value = this.train.coastShift;
    this.pinion.uniforms.uWrap.value = this.train.pitch * this.train.pinionTeeth;
    this.setNearness(solids);
    this.applyPainted();
    this.applyPinionOpacity();
    this.move();
  }

  private fill(member: DrawnMember, solid: MemberSolid, axis: 'x' | 'z'): void {
    this.empty(member);
    const tip = axis === 'z' ? 1 : -1;
    const teethGeometry = toGeometry(solid.sector, openness(solid.sector, tip));
    const bodyGeometry = toGeometry(solid.body, new Float32Array(solid.body.surfaceKind.length).fill(1));
    teethGeometry.setAttribute('painted', new InstancedBufferAttribute(new Float32Array(solid.count), 1));
    member.teeth = new InstancedMesh(teethGeometry, member.teethMaterial, solid.count);
    member.body = new Mesh(bodyGeometry, member.bodyMaterial);
    member.depthTeeth = new InstancedMesh(teethGeometry, member.depthMaterial, solid.count);
    member.depthBody = new Mesh(bodyGeometry, member.depthMaterial);
    member.depthTeeth.instanceMatrix = member.teeth.instanceMatrix;
    turnInstances(member.teeth, solid.count, axis);
    const drawn: Object3D[] = [member.depthTeeth, member.depthBody, member.teeth, member.body];
    drawn.forEach((object, order) => {
      object.frustumCulled = false;
      object.matrixAutoUpdate = false;
      // what is seen through comes after all that is solid, its depth first
      object.renderOrder = order < 2 ? 1 : 0;
      object.visible = order >= 2;
    });
    member.teeth.name = `${member.group.name} teeth`;
    member.body.name = `${member.group.name} body`;
    member.group.add(...drawn);
  }

  private empty(member: DrawnMember): void {
    member.teeth?.geometry.dispose();
    member.body?.geometry.dispose();
    member.teeth?.dispose();
    member.group.clear();
    member.teeth = null;
    member.body = null;
    member.depthTeeth = null;
    member.depthBody = null;
  }

  /** Extents by which each member darkens the other where they come close. */
  private setNearness(solids: GearSolids): void {
    const pinion = solids.pinion.sector.positions;
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < pinion.length; i += 3) {
      low = Math.min(low, pinion[i]);
      high = Math.max(high, pinion[i]);
    }
    let lowRadius = 0;
    let highRadius = 0;
    for (let i = 0; i < pinion.length; i += 3) {
      const radius = Math.hypot(pinion[i + 1], pinion[i + 2]);
      const part = (pinion[i] - low) / (high - low);
      if (part < 0.15) lowRadius = Math.max(lowRadius, radius);
      if (part > 0.85) highRadius = Math.max(highRadius, radius);
    }
    (this.ring.uniforms.uNearCone.value as Vector4).set(low, high, lowRadius, highRadius);
    const ring = solids.ring.sector.positions;
    let inner = Number.POSITIVE_INFINITY;
    let outer = 0;
    let top = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < ring.length; i += 3) {
      const radius = Math.hypot(ring[i], ring[i + 1]);
      inner = Math.min(inner, radius);
      outer = Math.max(outer, radius);
      top = Math.max(top, ring[i + 2]);
    }
    (this.pinion.uniforms.uNearRing.value as Vector4).set(inner, outer, top, 0);
  }

  /** Takes a solved pose: paint, contact lines and the place of the pinion. Copies what it needs. */
  setSolution(solution: SolveResult): void {
    const { drive, coast } = this.texturesFor(solution.grid);
    packFlank(drive.image.data as Float32Array, solution.drive);
    packFlank(coast.image.data as Float32Array, solution.coast);
    drive.needsUpdate = true;
    coast.needsUpdate = true;
    this.paint.uFilm.value = solution.film;
    const { pose } = solution;
    this.pose = { ...pose, offsetError: this.offsetSense * pose.offsetError };
    this.curves = { driveError: solution.drive.transmissionErrorCurve, freePlay: solution.freePlayCurve };
    this.move();
  }

  /** No solved pose: bare compound, pinion in the design position. */
  clearSolution(): void {
    this.textures?.drive.dispose();
    this.textures?.coast.dispose();
    this.textures = null;
    this.texturesFor(UNSOLVED);
    this.pose = DESIGN;
    this.curves = null;
    this.move();
  }

  private texturesFor(grid: GridSize): { drive: DataTexture; coast: DataTexture } {
    const { columns, rows } = grid;
    if (this.textures === null || this.textures.columns !== columns || this.textures.rows !== rows) {
      this.textures?.drive.dispose();
      this.textures?.coast.dispose();
      const drive = createFlankTexture(grid);
      const coast = createFlankTexture(grid);
      this.textures = { drive, coast, columns, rows };
      this.paint.uDrive.value = drive;
      this.paint.uCoast.value = coast;
      (this.paint.uGrid.value as Vector2).set(columns, rows);
    }
    return this.textures;
  }

  setTouching(flank: FlankName): void {
    this.touching = flank;
    this.move();
  }

  setPainted(teeth: PaintedTeeth): void {
    this.paintedTeeth = teeth;
    this.applyPainted();
  }

  private applyPainted(): void {
    const attribute = this.ring.teeth?.geometry.getAttribute('painted');
    if (attribute === undefined) return;
    for (let i = 0; i < attribute.count; i++) {
      attribute.setX(i, this.paintedTeeth === 'all' || this.paintedTeeth.includes(i) ? 1 : 0);
    }
    attribute.needsUpdate = true;
  }

  isPainted(tooth: number): boolean {
    return this.paintedTeeth === 'all' || this.paintedTeeth.includes(tooth);
  }

  setColours({ compound, mark }: PaintColours): void {
    screenColour(this.paint.uCompound.value as Vector3, compound);
    screenColour(this.paint.uMark.value as Vector3, mark);
  }

  setTheme(theme: StageTheme): void {
    const light = LIGHT[theme];
    (this.ring.uniforms.uSteel.value as Vector3).set(...light.ringSteel);
    (this.pinion.uniforms.uSteel.value as Vector3).set(...light.pinionSteel);
    (this.paint.uSky.value as Vector3).set(...light.sky);
    (this.paint.uGround.value as Vector3).set(...light.ground);
    (this.paint.uKey.value as Vector3).set(...light.key);
    this.paint.uFill.value = light.fill;
    this.paint.uGlow.value = light.glow;
    screenColour(this.paint.uSection.value as Vector3, light.section);
    screenColour(this.paint.uLine.value as Vector3, light.line);
    screenColour(this.paint.uLineCasing.value as Vector3, light.lineCasing);
  }

  /** Contact lines shown 0…1; `pixel` screen pixels per line width. */
  setLines(shown: number, pixel: number): void {
    this.paint.uLines.value = shown;
    this.paint.uPixel.value = pixel;
  }

  /** 1: compound takes the light a little, so that teeth read as solid; 0: compound in its exact colour everywhere. */
  setRelief(relief: number): void {
    this.paint.uRelief.value = relief;
  }

  /** 1 solid, 0 hidden, between: seen through. */
  setPinionOpacity(opacity: number): void {
    if (this.pinionOpacity === opacity) return;
    this.pinionOpacity = opacity;
    this.applyPinionOpacity();
  }

  private applyPinionOpacity(): void {
    const opacity = this.pinionOpacity;
    const glass = opacity < 1;
    this.pinion.uniforms.uOpacity.value = opacity;
    this.ring.uniforms.uOpacityOfOther.value = opacity;
    this.pinion.group.visible = opacity > 0;
    this.pinion.teethMaterial.transparent = glass;
    this.pinion.bodyMaterial.transparent = glass;
    if (this.pinion.depthTeeth) this.pinion.depthTeeth.visible = glass;
    if (this.pinion.depthBody) this.pinion.depthBody.visible = glass;
  }

  /**
   * Takes away what lies on the positive side of a plane of the ring at rest: normal·x > distance (mm);
   * the cut faces show in one flat colour. `distance` of NO_CUT shows everything.
   */
  setCut(x: number, y: number, z: number, distance: number): void {
    (this.ring.uniforms.uCut.value as Vector4).set(x, y, z, distance);
    const side = distance < NO_CUT ? DoubleSide : FrontSide;
    this.ring.teethMaterial.side = side;
    this.ring.bodyMaterial.side = side;
  }

  /** Turns ring and pinion together (rad of ring angle) and the whole set by `ride`. */
  setRoll(roll: number, ride: number): void {
    this.roll = roll;
    this.ride = ride;
    this.move();
  }

  /** Turns the ring alone by `rock` rad, the pinion held where the roll has it: rocks it within its free play. */
  setRock(rock: number): void {
    this.rock = rock;
    this.move();
  }

  private move(): void {
    if (this.train === null) return;
    this.turn.matrix.makeRotationZ(this.ride);
    this.turn.matrixWorldNeedsUpdate = true;
    ringMatrix(this.ring.group.matrix, this.roll + this.rock);
    this.ring.group.matrixWorldNeedsUpdate = true;
    const angle = pinionAngle(this.train, this.roll, this.touching, this.curves);
    const place = pinionMatrix(this.pinion.group.matrix, this.pose, this.train.offset, angle);
    this.pinion.group.matrixWorldNeedsUpdate = true;
    this.paint.uRoll.value = this.roll;
    const e = place.elements;
    (this.ring.uniforms.uNearAxis.value as Vector3).set(e[0], e[1], e[2]);
    (this.ring.uniforms.uNearOrigin.value as Vector3).set(e[12], e[13], e[14]);
  }

  /** World matrix of a ring tooth, mirror and ride included. */
  toothMatrix(out: Matrix4, tooth: number): Matrix4 {
    if (this.train === null) return out.identity();
    out.makeRotationZ(this.ride + this.roll + this.rock + tooth * this.train.pitch);
    return out.premultiply(this.root.matrix);
  }

  dispose(): void {
    this.empty(this.ring);
    this.empty(this.pinion);
    for (const member of [this.ring, this.pinion]) {
      member.teethMaterial.dispose();
      member.bodyMaterial.dispose();
      member.depthMaterial.dispose();
    }
    this.textures?.drive.dispose();
    this.textures?.coast.dispose();
    this.textures = null;
    this.train = null;
  }
}

function depthOnly(material: ShaderMaterial): ShaderMaterial {
  material.colorWrite = false;
  return material;
}

/** Instances one pitch apart about the member's axis. */
function turnInstances(mesh: InstancedMesh, count: number, axis: 'x' | 'z'): void {
  const matrix = mesh.matrix.clone();
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * i) / count;
    mesh.setMatrixAt(i, axis === 'z' ? matrix.makeRotationZ(angle) : matrix.makeRotationX(angle));
  }
  mesh.instanceMatrix.needsUpdate = true;
}
