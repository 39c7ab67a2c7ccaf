import type { PerspectiveCamera } from 'three';
import type { GearSolids, SolidDetail } from '../../../sim/gearset/solids.ts';
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
import { type HousingHome, housingHomeView } from './housingHomes.ts';
import { HousingScene } from './housingScene.ts';
import type { HousingLayout } from './layout.ts';

/** Seconds the camera takes from one home to another. */
const TRAVEL = 0.6;
const LONGEST_FRAME = 0.1;

/** Camera and scene of the housing. Holds no React state and allocates nothing per frame. */
export class HousingDriver implements Handled {
  readonly scene = new HousingScene();
  readonly view: View = createView();
  home: HousingHome = 'whole';
  reducedMotion = false;
  wake: () => void = () => {};
  /** the camera of the canvas that draws, for finding what lies under a pointer */
  camera: PerspectiveCamera | null = null;

  private readonly picture = { width: 1, height: 1 };
  private readonly from = createView();
  private readonly at = createView();
  private travelled = 1;
  /** true once a person has moved the camera away from its home */
  private wandered = false;

  get travelling(): boolean {
    return this.travelled < 1;
  }

  /** mm, farthest anything lies from the middle of the mesh */
  get extent(): number {
    const { layout } = this.scene;
    return layout === null ? 1 : layout.pinionSide.end + layout.carrierSide.bowlOuter;
  }

  setAxle(solids: GearSolids, detail: SolidDetail, layout: HousingLayout): void {
    this.scene.setAxle(solids, detail, layout);
    this.arrive();
  }

  /** Fits the picture's size, CSS pixels; a camera that is at home stays there. */
  setPicture(width: number, height: number): void {
    if (!(width > 0 && height > 0)) return;
    this.picture.width = width;
    this.picture.height = height;
    if (this.wandered || this.travelling) this.lookHome();
    else this.arrive();
    this.wake();
  }

  goHome(home: HousingHome): void {
    this.home = home;
    this.wandered = false;
    if (!this.lookHome()) return;
    copyView(this.from, this.view);
    this.travelled = this.reducedMotion ? 1 : 0;
    if (this.reducedMotion) copyView(this.view, this.at);
    this.wake();
  }

  private lookHome(): boolean {
    const { layout, mirrored } = this.scene;
    if (layout === null) return false;
    housingHomeView(this.at, this.home, layout, mirrored, this.picture);
    return true;
  }

  private arrive(): void {
    this.wandered = false;
    this.travelled = 1;
    if (this.lookHome()) copyView(this.view, this.at);
    this.wake();
  }

  turnBy(sideways: number, over: number): void {
    if (this.takeOver()) orbit(this.view, sideways, over);
  }

  zoomBy(factor: number): void {
    if (this.takeOver()) zoom(this.view, factor, 0.25 * this.extent, 12 * this.extent);
  }

  panBy(right: number, up: number): void {
    if (this.takeOver()) pan(this.view, right, up, this.at.target, this.extent);
  }

  private takeOver(): boolean {
    if (this.scene.layout === null) return false;
    this.travelled = 1;
    this.wandered = true;
    this.wake();
    return true;
  }

  /** Advances by `seconds`; true when another frame is wanted. */
  update(seconds: number): boolean {
    if (!this.travelling) return false;
    this.travelled = Math.min(1, this.travelled + Math.min(seconds, LONGEST_FRAME) / TRAVEL);
    between(this.view, this.from, this.at, ease(this.travelled));
    if (this.travelled === 1) copyView(this.view, this.at);
    return this.travelling;
  }

  placeCamera(camera: PerspectiveCamera): void {
    placeCamera(camera, this.view, 1.5 * this.extent);
  }

  dispose(): void {
    this.scene.dispose();
  }
}
