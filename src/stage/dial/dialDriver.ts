import { Group, MathUtils, type PerspectiveCamera, Vector3 } from 'three';
import type { DialDirection } from '../../../sim/assembly/dial.ts';
import type { GearSolids } from '../../../sim/gearset/solids.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import { type DialScale, needleTurn } from '../../units/dialScale.ts';
import { type GearFacts, readFacts } from '../camera/facts.ts';
import { frame, type Margins } from '../camera/frame.ts';
import { lookFrom } from '../camera/homes.ts';
import {
  between,
  copyView,
  createView,
  ease,
  orbit,
  pan,
  placeCamera,
  type View,
  zoom,
} from '../camera/rig.ts';
import type { Handled } from '../camera/useHands.ts';
import { wrapTo } from '../kinematics.ts';
import type { PaintColours, StageTheme } from '../scene/colours.ts';
import { StageScene } from '../scene/stageScene.ts';
import { createStand, type Heel, heelOf, standAt } from './heel.ts';
import { Instrument } from './instrument.ts';

export const DIAL_HOMES = ['bench', 'tip'] as const;
/** Where the camera is at home: the set with the dial at it, or close to the plunger's tip. */
export type DialHome = (typeof DIAL_HOMES)[number];

/** Seconds the camera takes between homes, and the ring from one place to the next. */
const TRAVEL = 0.75;
const TURN = 1.1;
const LONGEST_FRAME = 0.1;
/** Azimuth of the tooth under the dial from the middle of the mesh, rad, before any mirroring. */
const DIAL_AT = MathUtils.degToRad(-95);
/** mm the tip is lifted while the ring turns on. */
const LIFT = 13;
/** Toward the camera from what it looks at, before any mirroring. */
const TOWARD: Readonly<Record<DialHome, Vector3>> = {
  bench: new Vector3(0.5, -0.6, 0.62).normalize(),
  tip: new Vector3(0.45, -0.62, 0.75).normalize(),
};
const UP = new Vector3(0, 0, 1);

/** How far the ring rocks, and what the dial reads then. */
export interface Play {
  /** rad of ring from drive contact to coast contact */
  readonly angle: number;
  /** mm the plunger moves */
  readonly reading: number;
}

/** The tooth in mesh, and where in its pitch the ring stands. */
export interface RingPlace {
  readonly tooth: number;
  /** rad of ring angle past the tooth's own place */
  readonly phase: number;
}

const NO_PLAY: Play = { angle: 0, reading: 0 };

/**
 * The dial at the ring: moves the camera, turns the ring from place to place and rocks it. Holds no React state and
 * allocates nothing per frame; `wake` is called whenever something changed that a frame must show.
 */
export class DialDriver implements Handled {
  readonly scene = new StageScene();
  readonly instrument = new Instrument();
  /** all that is drawn */
  readonly world = new Group();
  readonly view: View = createView();
  home: DialHome = 'bench';
  reducedMotion = false;
  suspended = false;
  wake: () => void = () => {};

  private facts: GearFacts | null = null;
  private heel: Heel | null = null;
  private direction: DialDirection = 'square';
  private scale: DialScale | null = null;
  private mirrored = false;
  private floor = 0;
  private ringRadius = 1;
  private readonly stand = createStand();
  private readonly toward = new Vector3();
  private readonly picture = { width: 1, height: 1 };
  private readonly from = createView();
  private readonly at = createView();
  private travelled = 1;
  private wandered = false;
  private play: Play = NO_PLAY;
  private share = 0;
  private place: RingPlace = { tooth: 0, phase: 0 };
  private roll = 0;
  private rollFrom = 0;
  private rollTo = 0;
  private turned = 1;

  constructor() {
    this.world.add(this.scene.root, this.instrument.group);
    this.scene.setPainted([]);
    this.scene.setLines(0, 1);
    this.scene.setPinionOpacity(1);
  }

  /** rad of ring angle at drive contact */
  get ringAngle(): number {
    return this.roll;
  }

  /** mm the plunger is out from zero */
  get out(): number {
    return this.turning ? 0 : this.share * this.play.reading;
  }

  private get turning(): boolean {
    return this.turned < 1;
  }

  private get travelling(): boolean {
    return this.travelled < 1;
  }

  /** `offset` mm as defined: solids are built for its magnitude, a negative one is the mirror image. */
  setSolids(solids: GearSolids, offset: number, reverseCut: boolean): void {
    const distance = Math.abs(offset);
    this.mirrored = reverseCut !== offset < 0;
    this.scene.offsetSense = offset < 0 ? -1 : 1;
    this.facts = readFacts(solids, distance);
    this.heel = heelOf(solids);
    const extents = extentsOf(solids);
    this.floor = extents.lowest;
    this.ringRadius = extents.radius;
    this.scene.setSolids(solids, distance, this.mirrored);
    this.roll = this.angleOf(this.place);
    this.turned = 1;
    this.setUp();
    this.arrive();
  }

  setSolution(solution: SolveResult | null): void {
    if (solution === null) this.scene.clearSolution();
    else this.scene.setSolution(solution);
    this.apply();
  }

  setColours(colours: PaintColours, theme: StageTheme): void {
    this.scene.setColours(colours);
    this.scene.setTheme(theme);
    this.instrument.setTheme(theme);
    this.wake();
  }

  setDirection(direction: DialDirection): void {
    if (direction === this.direction) return;
    this.direction = direction;
    this.setUp();
    this.reframe();
  }

  setScale(scale: DialScale): void {
    this.scale = scale;
    this.apply();
  }

  setPlay(play: Play | null): void {
    this.play = play ?? NO_PLAY;
    this.apply();
  }

  /** 0 drive contact … 1 coast contact. */
  setShare(share: number): void {
    this.share = share;
    this.apply();
  }

  /** Turns the ring on until this tooth is in mesh, the tip lifted meanwhile; at once when motion is reduced. */
  setPlace(place: RingPlace): void {
    if (place.tooth === this.place.tooth && place.phase === this.place.phase) return;
    const same = place.tooth === this.place.tooth;
    this.place = place;
    const train = this.scene.train;
    if (train === null) return;
    const to = this.angleOf(place);
    if (same || this.reducedMotion) {
      this.roll = to;
      this.turned = 1;
    } else {
      this.rollFrom = this.roll;
      this.rollTo = this.roll + wrapTo(to - this.roll, 2 * Math.PI);
      this.turned = 0;
    }
    this.setUp();
  }

  goHome(home: DialHome): void {
    this.home = home;
    this.wandered = false;
    if (this.facts === null) return;
    this.homeView(this.at);
    copyView(this.from, this.view);
    this.travelled = this.reducedMotion ? 1 : 0;
    if (this.reducedMotion) copyView(this.view, this.at);
    this.wake();
  }

  setPicture(width: number, height: number): void {
    if (!(width > 0 && height > 0)) return;
    this.picture.width = width;
    this.picture.height = height;
    this.reframe();
  }

  turnBy(sideways: number, over: number): void {
    if (this.stopTravel()) orbit(this.view, sideways, over);
  }

  zoomBy(factor: number): void {
    if (this.facts !== null && this.stopTravel())
      zoom(this.view, factor, this.facts.faceWidth * 0.8, this.facts.extent * 12);
  }

  panBy(right: number, up: number): void {
    if (this.facts !== null && this.stopTravel())
      pan(this.view, right, up, this.at.target, this.facts.extent);
  }

  /** Advances by `seconds`; true when another frame is wanted. */
  update(seconds: number): boolean {
    if (this.facts === null || this.suspended) return false;
    const dt = Math.min(seconds, LONGEST_FRAME);
    if (this.turning) {
      this.turned = Math.min(1, this.turned + dt / TURN);
      this.roll = MathUtils.lerp(this.rollFrom, this.rollTo, ease(this.turned));
      if (this.turned === 1) this.roll = MathUtils.euclideanModulo(this.rollTo, 2 * Math.PI);
      this.move();
    }
    if (this.travelling) {
      this.travelled = Math.min(1, this.travelled + dt / TRAVEL);
      between(this.view, this.from, this.at, ease(this.travelled));
      if (this.travelled === 1) copyView(this.view, this.at);
    }
    return this.turning || this.travelling;
  }

  placeCamera(camera: PerspectiveCamera): void {
    placeCamera(camera, this.view, 3.2 * (this.facts?.extent ?? 1));
  }

  dispose(): void {
    this.scene.dispose();
    this.instrument.dispose();
    this.facts = null;
    this.heel = null;
  }

  private angleOf({ tooth, phase }: RingPlace): number {
    const pitch = this.scene.train?.pitch ?? 0;
    return MathUtils.euclideanModulo(phase - tooth * pitch, 2 * Math.PI);
  }

  /** Brings the instrument to the heel of the tooth that comes to stand where the dial is. */
  private setUp(): void {
    const { heel, facts } = this;
    const train = this.scene.train;
    if (heel === null || facts === null || train === null) return;
    const teeth = Math.round((DIAL_AT - this.place.phase) / train.pitch);
    const angle = this.place.phase + teeth * train.pitch;
    standAt(this.stand, heel, this.direction, angle, this.mirrored);
    this.towardCamera('bench');
    this.instrument.place(
      this.stand,
      this.toward,
      this.direction === 'tangential',
      this.floor,
      this.ringRadius,
    );
    this.apply();
  }

  private towardCamera(home: DialHome): void {
    this.toward.copy(TOWARD[home]);
    if (this.mirrored) this.toward.y *= -1;
  }

  private arrive(): void {
    this.wandered = false;
    this.travelled = 1;
    this.homeView(this.at);
    copyView(this.view, this.at);
    this.wake();
  }

  /** A camera that is at home stays there when what it looks at, or the picture, changes. */
  private reframe(): void {
    if (this.facts === null) return;
    this.homeView(this.at);
    if (!this.wandered && !this.travelling) copyView(this.view, this.at);
    this.wake();
  }

  private homeView(out: View): void {
    const { facts, picture } = this;
    if (facts === null) return;
    this.towardCamera(this.home);
    out.up.copy(UP);
    lookFrom(out.orientation, this.toward, out.up);
    const points = this.home === 'bench' ? this.wholePoints(facts) : this.tipPoints(facts);
    const margins: Margins = { left: 0.03, right: 0.03, top: 0.06, bottom: 0.1 };
    frame(out, points, picture.width / picture.height, margins);
  }

  private wholePoints(facts: GearFacts): Float32Array {
    const { outline } = this.instrument;
    const points = new Float32Array(facts.outline.length + outline.length);
    points.set(facts.outline);
    if (this.mirrored) for (let i = 1; i < facts.outline.length; i += 3) points[i] *= -1;
    points.set(outline, facts.outline.length);
    return points;
  }

  private tipPoints(facts: GearFacts): Float32Array {
    const reach = facts.faceWidth * 0.55;
    const { contact } = this.stand;
    const points: number[] = [];
    for (const x of [-1, 1])
      for (const y of [-1, 1])
        for (const z of [-1, 1])
          points.push(contact.x + reach * x, contact.y + reach * y, contact.z + 0.6 * reach * z);
    return Float32Array.from(points);
  }

  private stopTravel(): boolean {
    if (this.facts === null) return false;
    this.travelled = 1;
    this.wandered = true;
    this.wake();
    return true;
  }

  private apply(): void {
    this.move();
    this.wake();
  }

  private move(): void {
    const { train } = this.scene;
    if (train === null) return;
    // the ring leaves drive contact the way it turns when driven forward
    const rock = this.turning ? 0 : -train.driveLever * this.share * this.play.angle;
    this.scene.setRoll(this.roll, 0);
    this.scene.setRock(rock);
    const lift = this.turning ? LIFT * Math.min(1, 5 * this.turned, 5 * (1 - this.turned)) : 0;
    this.instrument.setOut(this.out, lift, this.scale === null ? 0 : needleTurn(this.scale, this.out));
  }
}

/** Lowest z and largest radius of the ring, mm. */
function extentsOf({ ring }: GearSolids): { lowest: number; radius: number } {
  let lowest = Number.POSITIVE_INFINITY;
  let radius = 0;
  for (const { positions } of [ring.body, ring.sector]) {
    for (let i = 0; i < positions.length; i += 3) {
      lowest = Math.min(lowest, positions[i + 2]);
      radius = Math.max(radius, Math.hypot(positions[i], positions[i + 1]));
    }
  }
  return { lowest, radius };
}
