import {
  add,
  addScaled,
  cross,
  dot,
  scale,
  subtract,
  turnAbout,
  turnAboutZ,
  type Vec3,
} from '../math/vec3.ts';
import { type Blank, heightAt, lengthAlongFace } from './blank.ts';
import type { Cutter } from './cutter.ts';
import type { FlankName } from './definition.ts';
import { UnmakeableError } from './errors.ts';
import type { PitchPoint } from './pitchPoint.ts';

/** A point of the ring flank at ring angle 0: X mm, unit normal N out of the tooth into the slot. */
export interface FlankPoint {
  readonly point: Vec3;
  readonly normal: Vec3;
}

/** Where a flank point was cut: θ of the cutter (rad), x height of the blade over the root plane (mm). */
interface CutPlace {
  readonly theta: number;
  readonly height: number;
}

/**
 * The non-generated ring flank X(θ, x) and its inverse onto flank coordinates (u, v) (docs/model.md §4).
 * Immutable; points are found by Newton from the last place found nearby, so neighbouring calls are cheap.
 */
export class RingFlank {
  readonly flank: FlankName;
  readonly blank: Blank;
  private readonly cutter: Cutter;
  private readonly pitch: PitchPoint;
  /** s */
  private readonly side: -1 | 1;
  /** ω, fixed turn of a face-hobbed flank */
  private readonly slotTurn: number;
  private readonly bladeDirection: Vec3;
  private readonly bladeStart: Vec3;
  private readonly normalSign: number;

  constructor(flank: FlankName, pitch: PitchPoint, blank: Blank, cutter: Cutter) {
    this.flank = flank;
    this.blank = blank;
    this.cutter = cutter;
    this.pitch = pitch;
    this.side = flank === 'drive' ? -1 : 1;
    const tangent = Math.tan(cutter.bladeAngle[flank]);
    this.bladeDirection = add(scale(cutter.across, this.side * tangent), cutter.axis);
    if (cutter.indexing === 0) {
      this.slotTurn = 0;
      this.bladeStart = addScaled(cutter.rootPoint, cutter.across, (this.side * cutter.pointWidth) / 2);
    } else {
      const circumferential = scale(cross([0, 0, 1], pitch.point), 1 / pitch.ringRadius);
      this.slotTurn =
        (this.side * cutter.slotWidth) / 2 / (pitch.ringRadius * dot(circumferential, cutter.across));
      this.bladeStart = addScaled(cutter.rootPoint, cutter.across, -this.side * blank.ringDedendum * tangent);
    }
    const normal = this.crossTangents({ theta: 0, height: blank.ringDedendum });
    const reference = turnAboutZ(cutter.across, this.slotTurn);
    this.normalSign = Math.sign(dot(normal, reference)) * (flank === 'drive' ? 1 : -1);
  }

  private cutPoint({ theta, height }: CutPlace): Vec3 {
    const { center, axis, indexing } = this.cutter;
    const blade = addScaled(this.bladeStart, this.bladeDirection, height);
    const swept = add(center, turnAbout(subtract(blade, center), axis, theta));
    return indexing === 0 ? swept : turnAboutZ(swept, this.slotTurn - indexing * theta);
  }

  /** ∂X/∂θ and ∂X/∂x. */
  private tangents({ theta, height }: CutPlace): { alongCut: Vec3; alongBlade: Vec3 } {
    const { center, axis, indexing } = this.cutter;
    const blade = addScaled(this.bladeStart, this.bladeDirection, height);
    const arm = turnAbout(subtract(blade, center), axis, theta);
    let alongCut = cross(axis, arm);
    let alongBlade = turnAbout(this.bladeDirection, axis, theta);
    if (indexing !== 0) {
      const swept = add(center, arm);
      alongCut = subtract(alongCut, scale(cross([0, 0, 1], swept), indexing));
      const turn = this.slotTurn - indexing * theta;
      alongCut = turnAboutZ(alongCut, turn);
      alongBlade = turnAboutZ(alongBlade, turn);
    }
    return { alongCut, alongBlade };
  }

  private crossTangents(place: CutPlace): Vec3 {
    const { alongCut, alongBlade } = this.tangents(place);
    return cross(alongCut, alongBlade);
  }

  /** Axial coordinates (l, d) of a point of the ring, mm. */
  private axial(x: Vec3): readonly [number, number] {
    const radial = Math.hypot(x[0], x[1]) - this.pitch.ringRadius;
    const axial = x[2] - this.pitch.point[2];
    const sin = Math.sin(this.pitch.ringPitchAngle);
    const cos = Math.cos(this.pitch.ringPitchAngle);
    return [radial * sin - axial * cos, radial * cos + axial * sin];
  }

  private place(u: number, v: number, start: CutPlace): CutPlace | null {
    const l = lengthAlongFace(this.blank, u);
    const d = heightAt(this.blank, u, v);
    const sin = Math.sin(this.pitch.ringPitchAngle);
    const cos = Math.cos(this.pitch.ringPitchAngle);
    let { theta, height } = start;
    for (let i = 0; i < 40; i++) {
      const at = { theta, height };
      const x = this.cutPoint(at);
      const [lNow, dNow] = this.axial(x);
      const missL = l - lNow;
      const missD = d - dNow;
      if (Math.abs(missL) + Math.abs(missD) < 1e-11) return at;
      const { alongCut, alongBlade } = this.tangents(at);
      const rho = Math.hypot(x[0], x[1]);
      const rCut = (x[0] * alongCut[0] + x[1] * alongCut[1]) / rho;
      const rBlade = (x[0] * alongBlade[0] + x[1] * alongBlade[1]) / rho;
      const a = rCut * sin - alongCut[2] * cos;
      const b = rBlade * sin - alongBlade[2] * cos;
      const c = rCut * cos + alongCut[2] * sin;
      const e = rBlade * cos + alongBlade[2] * sin;
      const determinant = a * e - b * c;
      theta += (missL * e - missD * b) / determinant;
      height += (missD * a - missL * c) / determinant;
      if (!Number.isFinite(theta + height) || Math.abs(theta) > Math.PI) return null;
    }
    return null;
  }

  private lastPlace: CutPlace | null = null;

  /**
   * Point and normal at flank coordinates (u, v); v may go below −1 down to the root and beyond ±1 on any side.
   * Null where the cutter never reaches.
   */
  tryAt(u: number, v: number): FlankPoint | null {
    const home = { theta: 0, height: this.blank.ringDedendum };
    const place = this.place(u, v, this.lastPlace ?? home) ?? this.place(u, v, home);
    if (!place) return null;
    this.lastPlace = place;
    const normal = this.crossTangents(place);
    return {
      point: this.cutPoint(place),
      normal: scale(normal, this.normalSign / Math.sqrt(dot(normal, normal))),
    };
  }

  /**
   * As `tryAt`, for the flank proper.
   * @throws UnmakeableError when the cutter does not sweep the place.
   */
  at(u: number, v: number): FlankPoint {
    const found = this.tryAt(u, v);
    if (found) return found;
    throw new UnmakeableError(
      'bad-value',
      'cut.cutterRadius',
      'the cutter path does not sweep the whole face width',
      'use a larger cutter radius or a smaller faceWidth',
    );
  }
}
