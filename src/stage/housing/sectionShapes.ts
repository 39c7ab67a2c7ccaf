import type { HousingLayout } from './layout.ts';
import type { Body, PartName, Piece, Place, Rider, SectionPoint, Tone } from './parts.ts';

/** One outline of the flat section, mm: x along the pinion's axis, z along the ring's. */
export interface SectionShape {
  readonly part: PartName | null;
  readonly tone: Tone | 'void';
  /** a face of the section: hatched */
  readonly cut: boolean;
  readonly points: readonly (readonly [x: number, z: number])[];
}

const at = (body: Pick<Body, 'axis'>, axial: number, radius: number): readonly [number, number] =>
  body.axis === 'pinion' ? [axial, radius] : [radius, axial];

/**
 * The plane of the section as a draughtsman draws it: what is cut, and bearings, in section on both sides of their axis;
 * shafts and what sits on them from outside. From the same sections as the bodies in three dimensions.
 */
export function sectionShapes(
  layout: HousingLayout,
  places: Readonly<Record<Rider, Place>>,
): readonly SectionShape[] {
  const { gears, pinionSide, carrierSide } = layout;
  const shapes: SectionShape[] = [];

  const draw = (body: Body, piece: Piece): void => {
    const { shift, scale } = places[body.rider];
    const moved = (section: readonly SectionPoint[], side: 1 | -1) =>
      section.map(([axial, radius]) => at(body, shift + scale * axial, side * radius));
    const both = (section: readonly SectionPoint[], cut: boolean): void => {
      for (const side of [1, -1] as const) {
        shapes.push({ part: body.part, tone: body.tone, cut, points: moved(section, side) });
      }
    };
    switch (piece.kind) {
      case 'turned': {
        if (piece.cut || body.tone === 'bearing') {
          both(piece.section, true);
          return;
        }
        const axials = piece.section.map(([axial]) => axial);
        const inner = Math.min(...piece.section.map(([, radius]) => radius));
        const [low, high] = [Math.min(...axials), Math.max(...axials)];
        both(piece.section, false);
        if (inner > 0) {
          const middle: readonly SectionPoint[] = [
            [low, -inner],
            [high, -inner],
            [high, inner],
            [low, inner],
          ];
          shapes.push({ part: body.part, tone: body.tone, cut: false, points: moved(middle, 1) });
        }
        return;
      }
      case 'pegs':
        both(
          [
            [piece.from, piece.circle - piece.size],
            [piece.to, piece.circle - piece.size],
            [piece.to, piece.circle + piece.size],
            [piece.from, piece.circle + piece.size],
          ],
          false,
        );
        return;
      case 'rollers': {
        const { big, small } = piece;
        both(
          [
            [big.at[0], big.at[1] - big.size],
            [small.at[0], small.at[1] - small.size],
            [small.at[0], small.at[1] + small.size],
            [big.at[0], big.at[1] + big.size],
          ],
          false,
        );
      }
    }
  };
  const drawBody = (body: Body): void => {
    for (const piece of body.pieces) draw(body, piece);
  };

  const arrowsFrom = pinionSide.bodies.length + carrierSide.bodies.length;
  const carrierBodies = carrierSide.bodies.filter((body) => body.part !== 'housing');
  for (const body of carrierSide.bodies) if (body.part === 'housing') drawBody(body);
  // the pinion's bore goes through the shell
  const { boss } = pinionSide;
  shapes.push({
    part: null,
    tone: 'void',
    cut: false,
    points: [
      [boss.from, -boss.inner],
      [carrierSide.bowlOuter + 1, -boss.inner],
      [carrierSide.bowlOuter + 1, boss.inner],
      [boss.from, boss.inner],
    ],
  });
  for (const body of carrierBodies) drawBody(body);
  const ringShift = places.carrier.shift;
  const { ring, pinion } = gears;
  shapes.push({
    part: 'ring',
    tone: 'steel',
    cut: false,
    points: [
      [-ring.outer, ring.back + ringShift],
      [ring.outer, ring.back + ringShift],
      [ring.outer, ring.rim + ringShift],
      [ring.bore, ring.top + ringShift],
      [-ring.bore, ring.top + ringShift],
      [-ring.outer, ring.rim + ringShift],
    ],
  });
  const shift = places.pinion.shift;
  for (const body of pinionSide.bodies) {
    drawBody(body);
    if (body.part !== 'pinion') continue;
    shapes.push({
      part: 'pinion',
      tone: 'steel',
      cut: false,
      points: [
        [pinion.toe + shift, -pinion.toeTip],
        [pinion.shoulder + shift, -pinion.tip],
        [pinion.shoulder + shift, pinion.tip],
        [pinion.toe + shift, pinion.toeTip],
      ],
    });
  }
  for (const body of layout.bodies.slice(arrowsFrom)) drawBody(body);
  return shapes;
}
