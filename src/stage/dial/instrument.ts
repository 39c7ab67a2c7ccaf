import {
  BoxGeometry,
  type BufferGeometry,
  CircleGeometry,
  CylinderGeometry,
  Group,
  type IUniform,
  Mesh,
  MeshBasicMaterial,
  Quaternion,
  type ShaderMaterial,
  SphereGeometry,
  type Texture,
  TorusGeometry,
  Vector3,
} from 'three';
import { LIGHT, type StageTheme } from '../scene/colours.ts';
import type { Stand } from './heel.ts';
import { createLightUniforms, createPartMaterial } from './material.ts';

/** Measures of the instrument for a ring of 110 mm radius; larger rings get a larger one, so that it can be read. mm. */
const TIP = 1.6;
const PLUNGER = 2.1;
const STEM = 4.2;
const BODY = 27;
const DEPTH = 15;
const STEM_FROM = 17;
const STEM_TO = 36;
/** how far the rod of a hooked foot runs beside the contact */
const HOOK = 11;
const POST = 5.5;
const BASE = { wide: 42, high: 30 };

const Y = new Vector3(0, 1, 0);
const UP = new Vector3(0, 0, 1);

/** Sense of the stem's own axes in the picture, from its contact outward. */
interface Axes {
  /** along the stem */
  readonly x: Vector3;
  readonly y: Vector3;
  /** out of the face */
  readonly z: Vector3;
}

/**
 * A dial indicator on a stand with a magnetic foot, plain and of our own drawing. Its plunger touches a tooth and
 * follows it; the needle turns with the plunger.
 *
 * Its own frame: x along the plunger out of the tooth, from where the tip touches; z out of the face.
 */
export class Instrument {
  readonly group = new Group();
  /** outline for framing, packed xyz, mm; after `place` */
  outline = new Float32Array(0);
  private readonly light: Record<string, IUniform> = createLightUniforms();
  private readonly paint = createPartMaterial(this.light, [0.05, 0.09, 0.085], 0.25);
  private readonly steel = createPartMaterial(this.light, [0.62, 0.63, 0.65], 0.9);
  private readonly dark = createPartMaterial(this.light, [0.06, 0.062, 0.066], 0.35);
  private readonly flange = createPartMaterial(this.light, [0.2, 0.2, 0.2], 0.25);
  private readonly face = new MeshBasicMaterial({ toneMapped: false });
  private readonly ink = new MeshBasicMaterial({ color: '#a3301c', toneMapped: false });
  private readonly head = new Group();
  private readonly plunger = new Group();
  private readonly needle = new Group();
  private readonly stand = new Group();
  private size = 1;
  private readonly contact = new Vector3();
  /** way a hooked tip is lifted, over the teeth; null: along the stem */
  private over: Vector3 | null = null;

  constructor() {
    this.group.add(this.head, this.stand);
    this.head.matrixAutoUpdate = false;
  }

  setTheme(theme: StageTheme): void {
    const { sky, ground, key, fill } = LIGHT[theme];
    (this.light.uSky.value as Vector3).set(...sky);
    (this.light.uGround.value as Vector3).set(...ground);
    (this.light.uKey.value as Vector3).set(...key);
    this.light.uFill.value = fill;
  }

  setFace(texture: Texture): void {
    this.face.map?.dispose();
    this.face.map = texture;
    this.face.needsUpdate = true;
  }

  /**
   * Builds the instrument at a contact. `toward` is where the face looks, `hooked` whether the tip reaches round the
   * teeth (the rod then runs over them), `floor` z of what the foot stands on, `ringRadius` mm.
   */
  place(stand: Stand, toward: Vector3, hooked: boolean, floor: number, ringRadius: number): void {
    this.size = Math.min(Math.max(ringRadius / 110, 0.8), 1.4);
    this.contact.copy(stand.contact);
    this.over = hooked ? stand.clear.clone() : null;
    const axes = axesOf(stand, toward);
    this.buildHead(stand, axes, hooked);
    this.buildStand(stand, axes, hooked, floor, ringRadius);
    this.setOut(0, 0);
  }

  private buildHead(stand: Stand, { x, y, z }: Axes, hooked: boolean): void {
    empty(this.head);
    empty(this.plunger);
    empty(this.needle);
    const k = this.size;
    this.head.matrix.makeBasis(x, y, z).setPosition(stand.contact);
    this.head.matrixWorldNeedsUpdate = true;
    // the clear way over the teeth, in the instrument's own frame
    const off = hooked
      ? new Vector3(0, stand.clear.dot(y), stand.clear.dot(z)).normalize().multiplyScalar(HOOK * k)
      : new Vector3();
    const tip = this.part(new SphereGeometry(TIP * k, 20, 14), this.steel, this.plunger);
    tip.position.x = TIP * k;
    if (hooked) {
      const from = new Vector3(TIP * k, 0, 0);
      this.rod(this.plunger, this.steel, from, from.clone().add(off), 1.1 * k);
    }
    const rod = (from: number, to: number, radius: number, parent: Group, material: ShaderMaterial) =>
      this.rod(
        parent,
        material,
        new Vector3(from * k, 0, 0).add(off),
        new Vector3(to * k, 0, 0).add(off),
        radius * k,
      );
    rod(hooked ? 0.4 : TIP, STEM_TO, PLUNGER, this.plunger, this.steel);
    rod(STEM_FROM, STEM_TO + 3, STEM, this.head, this.steel);

    const centre = new Vector3((STEM_TO + BODY) * k, 0, 0).add(off);
    const body = new Group();
    body.position.copy(centre);
    const barrel = this.part(
      new CylinderGeometry(BODY * k, BODY * 0.96 * k, DEPTH * k, 64),
      this.paint,
      body,
    );
    barrel.rotation.x = Math.PI / 2;
    const rim = this.part(new TorusGeometry(BODY * 0.95 * k, 1.9 * k, 14, 72), this.steel, body);
    rim.position.z = (DEPTH / 2) * k;
    const printed = new Mesh(new CircleGeometry(BODY * 0.93 * k, 64), this.face);
    printed.position.z = (DEPTH / 2 + 0.2) * k;
    // upright on the screen: zero away from the stem's foot would depend on how it is held
    body.add(printed);
    this.needle.position.z = (DEPTH / 2 + 1.2) * k;
    this.needle.add(needleBlade(BODY * k, this.ink));
    const hub = new Mesh(new CircleGeometry(2.6 * k, 24), this.ink);
    hub.position.z = 0.3 * k;
    this.needle.add(hub);
    body.add(this.needle);
    this.dialTurn = uprightTurn(y, x);
    printed.rotation.z = this.dialTurn;
    this.head.add(this.plunger, body);
  }

  /** rad the face stands turned in its body, so that zero is at the top of the picture */
  private dialTurn = 0;

  private buildStand(
    stand: Stand,
    { x, y, z }: Axes,
    hooked: boolean,
    floor: number,
    ringRadius: number,
  ): void {
    empty(this.stand);
    const k = this.size;
    const back = stand.contact.clone().addScaledVector(x, (STEM_TO + BODY) * k);
    if (hooked) {
      const off = new Vector3()
        .addScaledVector(y, stand.clear.dot(y))
        .addScaledVector(z, stand.clear.dot(z))
        .normalize();
      back.addScaledVector(off, HOOK * k);
    }
    // the foot stands past the dial, on the line of its stem, never nearer than the ring leaves room
    const level = Math.min(floor, back.z - (BODY + 12) * k);
    const way = new Vector3(x.x, x.y, 0).normalize();
    const post = back.clone().addScaledVector(way, (BODY + 30) * k);
    const radius = Math.hypot(post.x, post.y);
    const least = ringRadius + BASE.wide * 0.8 * k;
    if (radius < least) post.multiply(new Vector3(least / radius, least / radius, 1));
    const joint = new Vector3(post.x, post.y, back.z);
    const top = new Vector3(post.x, post.y, back.z + 14 * k);
    const foot = new Vector3(post.x, post.y, level + BASE.high * k);
    const rim = back.clone().addScaledVector(x, BODY * 0.9 * k);
    this.rod(this.stand, this.dark, foot, top, POST * k);
    this.rod(this.stand, this.dark, rim, joint, POST * 0.75 * k);
    this.part(new SphereGeometry(POST * 1.5 * k, 24, 16), this.steel, this.stand).position.copy(joint);
    const turn = Math.atan2(post.y, post.x);
    const block = (wide: number, high: number, z0: number, material: ShaderMaterial) => {
      const mesh = this.part(new BoxGeometry(wide * k, wide * k, high * k), material, this.stand);
      mesh.position.set(post.x, post.y, z0 + (high / 2) * k);
      mesh.rotation.z = turn;
    };
    block(BASE.wide, BASE.high * 0.55, level, this.dark);
    block(BASE.wide * 0.98, BASE.high * 0.42, level + BASE.high * 0.58 * k, this.paint);
    // a piece of the housing's machined face
    block(BASE.wide * 1.7, 6, level - 6 * k, this.flange);
    const knob = this.rod(
      this.stand,
      this.steel,
      new Vector3(Math.cos(turn), Math.sin(turn), 0)
        .multiplyScalar(BASE.wide * 0.48 * k)
        .add(new Vector3(post.x, post.y, level + BASE.high * 0.5 * k)),
      new Vector3(Math.cos(turn), Math.sin(turn), 0)
        .multiplyScalar(BASE.wide * 0.62 * k)
        .add(new Vector3(post.x, post.y, level + BASE.high * 0.5 * k)),
      6 * k,
    );
    knob.name = 'switch of the magnet';
    this.measure();
  }

  private measure(): void {
    const points: number[] = [];
    const corner = new Vector3();
    this.group.updateMatrixWorld(true);
    this.group.traverse((object) => {
      if (!(object instanceof Mesh)) return;
      object.geometry.computeBoundingBox();
      const { min, max } = object.geometry.boundingBox;
      for (let i = 0; i < 8; i++) {
        corner.set(i & 1 ? min.x : max.x, i & 2 ? min.y : max.y, i & 4 ? min.z : max.z);
        corner.applyMatrix4(object.matrixWorld);
        points.push(corner.x, corner.y, corner.z);
      }
    });
    this.outline = Float32Array.from(points);
  }

  /** The plunger `out` mm further out of the dial than at zero, lifted off the tooth by `lift` mm; the needle as `turn` rad clockwise. */
  setOut(out: number, lift: number, turn = 0): void {
    const { contact, over } = this;
    this.plunger.position.x = (over === null ? lift : 0) - out;
    if (over !== null) {
      // the next tooth is in the way of the stem: the whole dial is lifted
      const { matrix } = this.head;
      matrix.setPosition(contact.x + over.x * lift, contact.y + over.y * lift, contact.z + over.z * lift);
      this.head.matrixWorldNeedsUpdate = true;
    }
    this.needle.rotation.z = this.dialTurn - turn;
  }

  private part(geometry: BufferGeometry, material: ShaderMaterial, parent: Group): Mesh {
    const mesh = new Mesh(geometry, material);
    parent.add(mesh);
    return mesh;
  }

  private rod(parent: Group, material: ShaderMaterial, from: Vector3, to: Vector3, radius: number): Mesh {
    const way = to.clone().sub(from);
    const length = way.length();
    const mesh = this.part(new CylinderGeometry(radius, radius, length, 28), material, parent);
    mesh.quaternion.copy(new Quaternion().setFromUnitVectors(Y, way.divideScalar(length)));
    mesh.position.copy(from).add(to).multiplyScalar(0.5);
    return mesh;
  }

  dispose(): void {
    for (const group of [this.head, this.plunger, this.needle, this.stand]) empty(group);
    for (const material of [this.paint, this.steel, this.dark, this.flange, this.face, this.ink])
      material.dispose();
    this.face.map?.dispose();
  }
}

/** The face looks as nearly as it can where the eye is. */
function axesOf(stand: Stand, toward: Vector3): Axes {
  const x = stand.along.clone();
  const z = toward.clone().addScaledVector(x, -toward.dot(x));
  if (z.lengthSq() < 1e-6) z.copy(UP).addScaledVector(x, -UP.dot(x));
  z.normalize();
  return { x, y: new Vector3().crossVectors(z, x), z };
}

/** Turn about the face's own axis that brings what is up in the picture to the top of the face. */
const uprightTurn = (y: Vector3, x: Vector3): number => Math.atan2(-UP.dot(x), UP.dot(y));

function needleBlade(radius: number, material: MeshBasicMaterial): Mesh {
  const blade = new Mesh(new BoxGeometry(1, 1, 1), material);
  blade.scale.set(radius * 0.055, radius * 1.02, radius * 0.02);
  blade.position.y = radius * 0.3;
  return blade;
}

function empty(group: Group): void {
  group.traverse((object) => {
    if (object instanceof Mesh) object.geometry.dispose();
  });
  group.clear();
}
