import { Matrix4, Vector3 } from 'three';
import type { HousingScene } from './housingScene.ts';
import type { HousingLayout } from './layout.ts';
import type { Body, PartName, Place, Rider } from './parts.ts';

/** Where a label points, in the frame of its axis at the design position, and from where it leads away. mm. */
export interface LabelAnchor {
  readonly id: PartName | PushLabel;
  readonly part: PartName;
  readonly axis: Body['axis'];
  readonly rider: Rider;
  readonly point: Vector3;
  /** on the screen the label lies beyond `point`, away from this */
  readonly from: Vector3;
}

export const PUSH_LABELS = ['push pinion-shim', 'push ring-side', 'push opposite-side'] as const;
export type PushLabel = (typeof PUSH_LABELS)[number];

/** Anchors by importance: where two labels would meet, the later one is left out. */
export function labelAnchors(layout: HousingLayout): readonly LabelAnchor[] {
  const { gears, pinionSide, carrierSide, arrows, hardware } = layout;
  const { head, tail, shim, spacer, stack } = pinionSide;
  const out: LabelAnchor[] = [];

  /** on the cut face of the pinion's bore: `up` +1 above its axis, −1 below */
  const onPinion = (
    id: LabelAnchor['id'],
    part: PartName,
    rider: Rider,
    axial: number,
    radius: number,
    up: 1 | -1,
  ) =>
    out.push({
      id,
      part,
      axis: 'pinion',
      rider,
      point: new Vector3(axial, 0, up * radius),
      from: new Vector3(axial, 0, 0),
    });
  /** on the cut face of the carrier's bores: `side` +1 the side of the pinion, −1 the other */
  const onCarrier = (
    id: LabelAnchor['id'],
    part: PartName,
    rider: Rider,
    axial: number,
    radius: number,
    side: 1 | -1,
  ) =>
    out.push({
      id,
      part,
      axis: 'carrier',
      rider,
      point: new Vector3(side * radius, 0, axial),
      from: new Vector3(0, 0, axial),
    });
  const middle = (a: number, b: number) => (a + b) / 2;

  onPinion(
    'pinion-shim',
    'pinion-shim',
    'pinion-shim',
    middle(shim.from, shim.to),
    hardware.pinionShim.place === 'head-bearing' ? 0.96 * shim.outer : middle(shim.inner, shim.outer),
    1,
  );
  for (const name of ['ring-side', 'opposite-side'] as const) {
    const { device } = carrierSide[name === 'ring-side' ? 'ringSide' : 'oppositeSide'];
    onCarrier(name, name, name, middle(device.from, device.to), 0.94 * device.outer, -1);
  }
  for (const { part, axis, from, to } of arrows) {
    const id = `push ${part}` as PushLabel;
    const tail = from + 0.25 * (to - from);
    if (axis === 'pinion') onPinion(id, part, 'pinion', tail, 0.2 * gears.pinion.seat, 1);
    else onCarrier(id, part, 'carrier', tail, 0.2 * gears.pinion.seat, -1);
  }
  const headMiddle = head.from + head.way * 0.5 * head.width;
  const tailMiddle = tail.from + tail.way * 0.5 * tail.width;
  out.push({
    id: 'pinion',
    part: 'pinion',
    axis: 'pinion',
    rider: 'pinion',
    point: new Vector3(
      gears.pinion.shoulder - 0.3 * gears.pinion.tip,
      0.5 * gears.pinion.tip,
      0.72 * gears.pinion.tip,
    ),
    from: new Vector3(gears.pinion.shoulder - 0.3 * gears.pinion.tip, 0, 0),
  });
  out.push({
    id: 'ring',
    part: 'ring',
    axis: 'carrier',
    rider: 'carrier',
    point: new Vector3(
      -0.72 * gears.ring.outer,
      0.6 * gears.ring.outer,
      middle(gears.ring.back, gears.ring.toe),
    ),
    from: new Vector3(
      -0.4 * gears.ring.outer,
      0.3 * gears.ring.outer,
      gears.ring.toe + 0.3 * gears.ring.outer,
    ),
  });
  onPinion('head-bearing', 'head-bearing', 'head', headMiddle, head.bore + 0.9 * head.height, -1);
  onPinion('tail-bearing', 'tail-bearing', 'tail', tailMiddle, tail.bore + 0.9 * tail.height, -1);
  onPinion('spacer', 'spacer', 'spacer', middle(spacer.from, spacer.to), 1.12 * head.bore, 1);
  if (stack !== null) {
    onPinion(
      'spacer-stack',
      'spacer-stack',
      'spacer-stack',
      middle(stack.from, stack.to),
      1.2 * head.bore,
      -1,
    );
  }
  if (hardware.pinionShim.place === 'cartridge') {
    onPinion(
      'cartridge',
      'cartridge',
      'cartridge',
      middle(shim.to, tail.from),
      head.bore + 1.1 * head.height,
      1,
    );
  }
  out.push({
    id: 'carrier',
    part: 'carrier',
    axis: 'carrier',
    rider: 'carrier',
    point: new Vector3(-0.3 * carrierSide.body, 0.9 * carrierSide.body, 0.1 * gears.ring.outer),
    from: new Vector3(0.4 * carrierSide.body, 0.5 * carrierSide.body, -0.3 * gears.ring.outer),
  });
  for (const [name, end] of [
    ['ring-bearing', carrierSide.ringSide],
    ['opposite-bearing', carrierSide.oppositeSide],
  ] as const) {
    const { bearing } = end;
    onCarrier(
      name,
      name,
      name,
      bearing.from + bearing.way * 0.55 * bearing.width,
      bearing.bore + 0.86 * bearing.height,
      1,
    );
  }
  onPinion(
    'flange',
    'flange',
    'tail',
    middle(pinionSide.flangeFrom, pinionSide.flangeTo),
    0.98 * pinionSide.flangeRadius,
    1,
  );
  onCarrier('housing', 'housing', 'housing', 0, carrierSide.bowlOuter - 1, -1);
  return out;
}

const scratch = new Matrix4();

/** Matrix of an anchor's rider along its own axis: the flat section needs no more, it draws both axes in one plane. */
export function riderMatrix(out: Matrix4, { axis, rider }: LabelAnchor, places: Places): Matrix4 {
  const { shift, scale } = places[rider];
  return axis === 'pinion'
    ? out.makeScale(scale, 1, 1).setPosition(shift, 0, 0)
    : out.makeScale(1, 1, scale).setPosition(0, 0, shift);
}

type Places = Readonly<Record<Rider, Place>>;

/** World matrix of an anchor as the scene stands now. */
export function anchorMatrix(out: Matrix4, scene: HousingScene, anchor: LabelAnchor): Matrix4 {
  out.copy(scene.root.matrix);
  if (anchor.axis === 'pinion') out.multiply(scene.pinionFrame);
  return scene.places === null ? out : out.multiply(riderMatrix(scratch, anchor, scene.places));
}
