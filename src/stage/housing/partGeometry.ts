import { BufferAttribute, BufferGeometry, ShapeUtils, Vector2 } from 'three';
import type { Body, Pegs, Piece, Rollers, SectionPoint, Turned } from './parts.ts';

/** Flat sides of a full turn, for bodies and for rollers. */
export interface RoundDetail {
  readonly turn: number;
  readonly roller: number;
}

export const ROUND: Readonly<Record<'full' | 'reduced', RoundDetail>> = {
  full: { turn: 48, roller: 8 },
  reduced: { turn: 40, roller: 6 },
};

/** How much light reaches a face that looks toward the axis: the inside of a bore. */
const INSIDE = 0.6;

type Point = readonly [number, number, number];

/**
 * Triangles in the part's own frame. An `x` axis starts its angle at +y, a `z` axis at +x; the half of a cut piece is
 * the one at negative y, whichever the axis.
 */
class Writer {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly cut: number[] = [];
  private readonly open: number[] = [];
  private readonly axis: Body['axis'];

  constructor(axis: Body['axis']) {
    this.axis = axis;
  }

  /** angle at which the kept half of a cut piece begins; it ends half a turn later */
  get halfFrom(): number {
    return this.axis === 'pinion' ? Math.PI / 2 : Math.PI;
  }

  point(axial: number, radius: number, angle: number): Point {
    const c = radius * Math.cos(angle);
    const s = radius * Math.sin(angle);
    return this.axis === 'pinion' ? [axial, c, s] : [c, s, axial];
  }

  /** Three corners in any order: they are wound to face along their normals. */
  triangle(a: Point, b: Point, c: Point, na: Point, nb: Point, nc: Point, cut: 0 | 1, open: number): void {
    const ux = b[0] - a[0];
    const uy = b[1] - a[1];
    const uz = b[2] - a[2];
    const vx = c[0] - a[0];
    const vy = c[1] - a[1];
    const vz = c[2] - a[2];
    const fx = uy * vz - uz * vy;
    const fy = uz * vx - ux * vz;
    const fz = ux * vy - uy * vx;
    if (Math.hypot(fx, fy, fz) < 1e-10) return;
    const along = fx * (na[0] + nb[0] + nc[0]) + fy * (na[1] + nb[1] + nc[1]) + fz * (na[2] + nb[2] + nc[2]);
    const corners: readonly (readonly [Point, Point])[] =
      along >= 0
        ? [
            [a, na],
            [b, nb],
            [c, nc],
          ]
        : [
            [a, na],
            [c, nc],
            [b, nb],
          ];
    for (const [p, n] of corners) {
      this.positions.push(...p);
      this.normals.push(...n);
      this.cut.push(cut);
      this.open.push(open);
    }
  }

  quad(a: Point, b: Point, c: Point, d: Point, n: readonly [Point, Point, Point, Point], open = 1): void {
    this.triangle(a, b, c, n[0], n[1], n[2], 0, open);
    this.triangle(a, c, d, n[0], n[2], n[3], 0, open);
  }

  finish(): BufferGeometry {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(this.positions), 3));
    geometry.setAttribute('normal', new BufferAttribute(Float32Array.from(this.normals), 3));
    geometry.setAttribute('cut', new BufferAttribute(Float32Array.from(this.cut), 1));
    geometry.setAttribute('open', new BufferAttribute(Float32Array.from(this.open), 1));
    geometry.computeBoundingSphere();
    return geometry;
  }
}

/** Twice the signed area: positive when the outline runs counter-clockwise with the axis to the right. */
const turnOf = (section: readonly SectionPoint[]): number =>
  section.reduce((sum, [a, r], i) => {
    const [nextA, nextR] = section[(i + 1) % section.length];
    return sum + a * nextR - nextA * r;
  }, 0);

function writeTurned(writer: Writer, piece: Turned, detail: RoundDetail): void {
  const section = turnOf(piece.section) < 0 ? [...piece.section].reverse() : piece.section;
  if (piece.arcs === undefined) {
    const from = piece.cut ? writer.halfFrom : 0;
    const span = piece.cut ? Math.PI : 2 * Math.PI;
    const sides = piece.sides ?? (piece.cut ? detail.turn / 2 : detail.turn);
    sweep(writer, section, from, span, sides, piece.sides !== undefined);
    if (piece.cut) {
      cap(writer, section, from, 1);
      cap(writer, section, from + span, 1);
    }
    return;
  }
  const { count, share } = piece.arcs;
  const pitch = (2 * Math.PI) / count;
  for (let i = 0; i < count; i++) {
    sweep(writer, section, i * pitch, share * pitch, 1, false);
    cap(writer, section, i * pitch, 0, -1);
    cap(writer, section, i * pitch + share * pitch, 0, 1);
  }
}

/** `flat`: every side faces its own way, as the sides of a nut. */
function sweep(
  writer: Writer,
  section: readonly SectionPoint[],
  from: number,
  span: number,
  sides: number,
  flat: boolean,
): void {
  // the flats of a nut touch the circle, its corners stand beyond it
  const reach = flat ? 1 / Math.cos(Math.PI / sides) : 1;
  section.forEach(([a0, r0], k) => {
    const [a1, r1] = section[(k + 1) % section.length];
    const da = a1 - a0;
    const dr = r1 - r0;
    const size = Math.hypot(da, dr);
    if (size < 1e-9 || (r0 < 1e-9 && r1 < 1e-9)) return;
    const along = dr / size;
    const out = -da / size;
    const open = out < -0.4 ? INSIDE : 1;
    for (let i = 0; i < sides; i++) {
      const at = from + (span * i) / sides;
      const to = from + (span * (i + 1)) / sides;
      const middle = (at + to) / 2;
      const n0 = writer.point(along, out, flat ? middle : at);
      const n1 = writer.point(along, out, flat ? middle : to);
      writer.quad(
        writer.point(a0, r0 * reach, at),
        writer.point(a1, r1 * reach, at),
        writer.point(a1, r1 * reach, to),
        writer.point(a0, r0 * reach, to),
        [n0, n0, n1, n1],
        open,
      );
    }
  });
}

/** The flat face of a section at an angle; faces away from the swept side (`way` 1: past its end). */
function cap(
  writer: Writer,
  section: readonly SectionPoint[],
  angle: number,
  cut: 0 | 1,
  way: 1 | -1 = 1,
): void {
  const outline = section.map(([axial, radius]) => new Vector2(axial, radius));
  const tangent = writer.point(0, 1, angle + Math.PI / 2);
  const origin = writer.point(0, 0, angle);
  // both faces of a half look to positive y
  const sign = cut === 1 ? 1 : way;
  const normal: Point =
    cut === 1
      ? [0, 1, 0]
      : [sign * (tangent[0] - origin[0]), sign * (tangent[1] - origin[1]), sign * (tangent[2] - origin[2])];
  for (const [i, j, k] of ShapeUtils.triangulateShape(outline, [])) {
    const corner = (index: number): Point => writer.point(section[index][0], section[index][1], angle);
    writer.triangle(corner(i), corner(j), corner(k), normal, normal, normal, cut, 1);
  }
}

/** A frustum between two discs of the same direction, closed at its ends; `middle` gives a point of its middle line. */
function writePeg(
  writer: Writer,
  angle: number,
  from: { readonly at: SectionPoint; readonly size: number },
  to: { readonly at: SectionPoint; readonly size: number },
  sides: number,
  flat: boolean,
): void {
  const da = to.at[0] - from.at[0];
  const dr = to.at[1] - from.at[1];
  const length = Math.hypot(da, dr);
  const along: SectionPoint = [da / length, dr / length];
  // across the middle line within the section, and round the axis
  const across: SectionPoint = [-along[1], along[0]];
  const tangent = writer.point(0, 1, angle + Math.PI / 2);
  const place = (end: { readonly at: SectionPoint; readonly size: number }, turn: number): Point => {
    const c = end.size * Math.cos(turn);
    const s = end.size * Math.sin(turn);
    const p = writer.point(end.at[0] + c * across[0], end.at[1] + c * across[1], angle);
    return [p[0] + s * tangent[0], p[1] + s * tangent[1], p[2] + s * tangent[2]];
  };
  const facing = (turn: number): Point => {
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const p = writer.point(c * across[0], c * across[1], angle);
    return [p[0] + s * tangent[0], p[1] + s * tangent[1], p[2] + s * tangent[2]];
  };
  const ahead = writer.point(along[0], along[1], angle);
  const behind: Point = [-ahead[0], -ahead[1], -ahead[2]];
  for (let i = 0; i < sides; i++) {
    const t0 = (2 * Math.PI * i) / sides;
    const t1 = (2 * Math.PI * (i + 1)) / sides;
    const n0 = facing(flat ? (t0 + t1) / 2 : t0);
    const n1 = facing(flat ? (t0 + t1) / 2 : t1);
    const [a, b, c, d] = [place(from, t0), place(to, t0), place(to, t1), place(from, t1)];
    writer.quad(a, b, c, d, [n0, n0, n1, n1]);
    if (i >= 1 && i + 1 < sides) {
      writer.triangle(place(from, 0), a, d, behind, behind, behind, 0, 1);
      writer.triangle(place(to, 0), b, c, ahead, ahead, ahead, 0, 1);
    }
  }
}

function writePegs(writer: Writer, { count, circle, size, from, to, cut }: Pegs): void {
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * (i + 0.5)) / count;
    // wholly behind the plane, or not there
    if (cut && writer.point(0, circle, angle)[1] > -size) continue;
    writePeg(writer, angle, { at: [from, circle], size }, { at: [to, circle], size }, 6, true);
  }
}

function writeRollers(writer: Writer, { count, big, small }: Rollers, detail: RoundDetail): void {
  for (let i = 0; i < count; i++)
    writePeg(writer, (2 * Math.PI * i) / count, big, small, detail.roller, false);
}

function write(writer: Writer, piece: Piece, detail: RoundDetail): void {
  switch (piece.kind) {
    case 'turned':
      writeTurned(writer, piece, detail);
      break;
    case 'pegs':
      writePegs(writer, piece);
      break;
    case 'rollers':
      writeRollers(writer, piece, detail);
      break;
  }
}

/** Attributes: position, normal, cut (1 on a face of the section), open (light that reaches it). Not indexed. */
export function bodyGeometry(body: Pick<Body, 'axis' | 'pieces'>, detail: RoundDetail): BufferGeometry {
  const writer = new Writer(body.axis);
  for (const piece of body.pieces) write(writer, piece, detail);
  return writer.finish();
}
