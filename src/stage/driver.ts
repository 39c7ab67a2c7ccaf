import { MathUtils, type PerspectiveCamera, Vector3 } from 'three';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { GearSolids } from '../../sim/gearset/solids.ts';
import { type GearFacts, readFacts } from './camera/facts.ts';
import { followView } from './camera/follow.ts';
import { homeView, type StageHome, squareFlank } from './camera/homes.ts';
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
} from './camera/rig.ts';
import { toothAtMesh, wrapTo } from './kinematics.ts';
import { NO_CUT } from './scene/memberMaterial.ts';
import { StageScene } from './scene/stageScene.ts';

/** Seconds the camera takes from one home to another. */
const TRAVEL = 0.75;
/** mm in front of a flank that stay when the teeth before it are cut away. */
const CUT_CLEARANCE = 0.3;
/** Ring pitches per second at speed 1, and per step with reduced motion. */
const PITCHES_PER_SECOND = 0.35;
const STEP_PITCHES = 0.125;
/** Longest time one frame may stand for, s: a page that was hidden does not leap. */
const LONGEST_FRAME = 0.1;

/** Shares of a travel at which the home left and the home reached are in force. */
interface Manner {
  pinion: number;
  relief: number;
  /** 1: the set turns so that the tooth stays where the camera looks */
  ride: number;
  /** 1: teeth before the flank are cut away */
  cut: number;
}

/**
 * What moves on the stage: camera, roll, cut and the pinion's solidity, advanced by `update`. Holds no React state and
 * allocates nothing per frame; `wake` is called whenever something changed that a frame must show.
 */
export class StageDriver {
  readonly scene = new StageScene();
  readonly view: View = createView();
  facts: GearFacts | null = null;
  home: StageHome;
  /** number of the ring tooth the square-on homes look at and the labels sit on */
  tooth = 0;
  playing = false;
  /** ring pitches per second over PITCHES_PER_SECOND */
  speed = 1;
  reducedMotion = false;
  private readonly solidity: Record<StageHome, number> = { whole: 1, mesh: 1, drive: 0, coast: 0 };
  mirrored = false;
  /** true once a person has moved the camera away from its home */
  wandered = false;
  wake: () => void = () => {};
  /** called after a person, or the gears as they roll, moved something that another stage may follow */
  onMoved: (what: 'camera' | 'roll') => void = () => {};
  /** true while nobody can see the stage: nothing moves */
  suspended = false;

  private readonly picture = { width: 1, height: 1 };
  private readonly from = createView();
  private readonly at = createView();
  private leaving: StageHome;
  private travelled = 1;
  private readonly mannerFrom: Manner = { pinion: 1, relief: 1, ride: 0, cut: 0 };
  private readonly manner: Manner = { pinion: 1, relief: 1, ride: 0, cut: 0 };
  private roll = 0;
  private sinceStep = 0;
  private readonly cutNormal = new Vector3();

  constructor(home: StageHome = 'whole') {
    this.home = home;
    this.leaving = home;
  }

  /** rad, ring angle, 0 … 2π */
  get ringAngle(): number {
    return this.roll;
  }

  /** number of the ring tooth now nearest the middle of the mesh */
  get toothInMesh(): number {
    return this.scene.train === null ? 0 : toothAtMesh(this.scene.train, this.roll);
  }

  /** rad about z by which the tooth looked at stands turned from the ring sector at rest (before any mirroring) */
  get toothAngle(): number {
    return this.scene.ride + this.roll + this.tooth * (this.scene.train?.pitch ?? 0);
  }

  /** True while the camera is between two homes. */
  get travelling(): boolean {
    return this.travelled < 1;
  }

  /** `offset` mm as defined: solids are built for its magnitude, a negative one is the mirror image. */
  setSolids(solids: GearSolids, offset: number, reverseCut: boolean): void {
    const distance = Math.abs(offset);
    this.mirrored = reverseCut !== offset < 0;
    this.scene.offsetSense = offset < 0 ? -1 : 1;
    this.facts = readFacts(solids, distance);
    this.scene.setSolids(solids, distance, this.mirrored);
    this.chooseTooth();
    this.wandered = false;
    this.arrive();
  }

  /** Fits the picture's size, CSS pixels; a camera that is at home stays there. */
  setPicture(width: number, height: number): void {
    if (!(width > 0 && height > 0)) return;
    this.picture.width = width;
    this.picture.height = height;
    if (this.facts === null) return;
    homeView(this.at, this.home, this.facts, this.mirrored, this.picture);
    if (!this.wandered && !this.travelling) copyView(this.view, this.at);
    this.wake();
  }

  /** Sends the camera to a home; at once when motion is reduced. */
  goHome(home: StageHome): void {
    this.leaving = this.home;
    this.home = home;
    this.wandered = false;
    if (squareFlank(home) !== null && home !== this.leaving) this.chooseTooth();
    if (this.facts === null) return;
    homeView(this.at, home, this.facts, this.mirrored, this.picture);
    copyView(this.from, this.view);
    Object.assign(this.mannerFrom, this.manner);
    this.travelled = this.reducedMotion ? 1 : 0;
    if (this.reducedMotion) copyView(this.view, this.at);
    this.apply();
    this.wake();
  }

  private chooseTooth(): void {
    const train = this.scene.train;
    if (train === null) return;
    // of a slot's two flanks the coast one belongs to another tooth
    const shift = this.home === 'coast' ? -train.coastShift : 0;
    const middle = toothAtMesh(train, this.roll) + shift + train.ringTeeth;
    this.tooth = middle % train.ringTeeth;
    for (let away = 0; away < train.ringTeeth; away++) {
      for (const side of [1, -1]) {
        const candidate = (middle + side * away + train.ringTeeth) % train.ringTeeth;
        if (!this.scene.isPainted(candidate)) continue;
        this.tooth = candidate;
        return;
      }
    }
  }

  private arrive(): void {
    if (this.facts === null) return;
    homeView(this.at, this.home, this.facts, this.mirrored, this.picture);
    copyView(this.view, this.at);
    this.travelled = 1;
    this.leaving = this.home;
    this.apply();
    this.wake();
  }

  /** Opacity of the pinion in the two homes that show it. */
  setPinionSolidity(whole: number, mesh: number): void {
    this.solidity.whole = whole;
    this.solidity.mesh = mesh;
    this.apply();
    this.wake();
  }

  /** Turns the ring to an angle, rad; any value. */
  setRingAngle(angle: number): void {
    this.roll = MathUtils.euclideanModulo(angle, 2 * Math.PI);
    this.apply();
    this.wake();
    this.onMoved('roll');
  }

  /** Looks at this set as `leader` looks at its own: the same home, and as far from it. */
  followCamera(leader: StageDriver): void {
    if (this.facts === null || leader.facts === null) return;
    if (this.home !== leader.home || (this.wandered && !leader.wandered)) this.goHome(leader.home);
    if (!leader.wandered) return;
    this.travelled = 1;
    this.wandered = true;
    followView(this.view, this.at, leader.view, leader.at, this.mirrored !== leader.mirrored);
    this.apply();
    this.wake();
  }

  /** Rolls as many pitches as `leader` has rolled, the way that is forward here. */
  followRoll(leader: StageDriver): void {
    const train = this.scene.train;
    const leading = leader.scene.train;
    if (train === null || leading === null) return;
    const pitches = (leader.roll / leading.pitch) * leader.forward * this.forward;
    this.roll = MathUtils.euclideanModulo(pitches * train.pitch, 2 * Math.PI);
    this.apply();
    this.wake();
  }

  setPlaying(playing: boolean): void {
    this.playing = playing;
    this.sinceStep = 0;
    this.wake();
  }

  turnBy(sideways: number, over: number): void {
    if (!this.stopTravel()) return;
    orbit(this.view, sideways, over);
    this.onMoved('camera');
  }

  zoomBy(factor: number): void {
    if (this.facts === null || !this.stopTravel()) return;
    zoom(this.view, factor, this.facts.faceWidth * 0.8, this.facts.extent * 12);
    this.onMoved('camera');
  }

  panBy(right: number, up: number): void {
    if (this.facts === null || !this.stopTravel()) return;
    pan(this.view, right, up, this.at.target, this.facts.extent);
    this.onMoved('camera');
  }

  private stopTravel(): boolean {
    if (this.facts === null) return false;
    if (this.travelling) {
      this.travelled = 1;
      this.apply();
    }
    this.wandered = true;
    this.wake();
    return true;
  }

  /** Direction the ring turns when the pinion drives it forward: the drive flank is pushed along −N. */
  get forward(): number {
    return -(this.scene.train?.driveLever ?? 1);
  }

  /**
   * Advances by `seconds`; true when another frame is wanted.
   */
  update(seconds: number): boolean {
    const dt = Math.min(seconds, LONGEST_FRAME);
    const train = this.scene.train;
    if (train === null || this.facts === null || this.suspended) return false;
    if (this.playing) {
      let pitches = PITCHES_PER_SECOND * this.speed * dt;
      if (this.reducedMotion) {
        // single steps instead of motion
        this.sinceStep += dt * this.speed * PITCHES_PER_SECOND;
        pitches = this.sinceStep >= STEP_PITCHES ? STEP_PITCHES : 0;
        if (pitches > 0) this.sinceStep = 0;
      }
      this.roll = MathUtils.euclideanModulo(this.roll + this.forward * pitches * train.pitch, 2 * Math.PI);
    }
    if (this.travelling) {
      this.travelled = Math.min(1, this.travelled + dt / TRAVEL);
      between(this.view, this.from, this.at, ease(this.travelled));
      if (this.travelled === 1) copyView(this.view, this.at);
    }
    this.apply();
    if (this.playing) this.onMoved('roll');
    return this.playing || this.travelling;
  }

  private apply(): void {
    const { train } = this.scene;
    const facts = this.facts;
    if (train === null || facts === null) return;
    const t = ease(this.travelled);
    const square = squareFlank(this.home);
    const was = squareFlank(this.leaving);
    const { manner, mannerFrom } = this;
    manner.pinion = MathUtils.lerp(mannerFrom.pinion, this.solidity[this.home], t);
    manner.relief = MathUtils.lerp(mannerFrom.relief, square === null ? 1 : 0, t);
    manner.ride = MathUtils.lerp(mannerFrom.ride, square === null ? 0 : 1, t);
    // The cut of the home left opens during the first half, that of the home reached closes during the second.
    if (t < 0.5 && was !== null && was !== square) this.cut(was, mannerFrom.cut * (1 - 2 * t));
    else if (square !== null)
      this.cut(square, was === square ? MathUtils.lerp(mannerFrom.cut, 1, t) : 2 * t - 1);
    else this.cut('drive', 0);
    this.scene.setPinionOpacity(manner.pinion);
    this.scene.setRelief(manner.relief);
    this.scene.setRoll(this.roll, -manner.ride * wrapTo(this.roll + this.tooth * train.pitch, 2 * Math.PI));
  }

  private cut(flank: FlankName, amount: number): void {
    this.manner.cut = Math.max(amount, 0);
    const { facts, cutNormal } = this;
    const train = this.scene.train;
    if (amount <= 0 || facts === null || train === null) {
      this.scene.setCut(0, 0, 0, NO_CUT);
      return;
    }
    const place = facts[flank];
    let farthest = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < place.points.length; i += 3) {
      farthest = Math.max(
        farthest,
        place.normal.x * place.points[i] +
          place.normal.y * place.points[i + 1] +
          place.normal.z * place.points[i + 2],
      );
    }
    const angle = this.tooth * train.pitch;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    cutNormal.set(
      place.normal.x * c - place.normal.y * s,
      place.normal.x * s + place.normal.y * c,
      place.normal.z,
    );
    const away = (1 - amount) * facts.extent * 2;
    this.scene.setCut(cutNormal.x, cutNormal.y, cutNormal.z, farthest + CUT_CLEARANCE + away);
  }

  placeCamera(camera: PerspectiveCamera): void {
    placeCamera(camera, this.view, 2.2 * (this.facts?.extent ?? 1));
  }

  dispose(): void {
    this.scene.dispose();
    this.facts = null;
  }
}
