import type { Vector3 } from 'three';
import type { FlankPlace, GearFacts } from '../camera/facts.ts';
import { type StageHome, squareFlank } from '../camera/homes.ts';

export const LABELS = ['toe', 'heel', 'face', 'root', 'drive', 'coast'] as const;
export type LabelName = (typeof LABELS)[number];

/** Where a label points, on the base tooth of the ring at rest (not mirrored). mm. */
export interface Anchor {
  readonly name: LabelName;
  readonly point: Vector3;
  /** a second point: on the screen the label lies beyond `point`, away from it */
  readonly from: Vector3;
  /** unit; the label is hidden when this faces away from the camera */
  readonly normal: Vector3;
  /** number of teeth from the tooth looked at */
  readonly toothOffset: number;
}

/** Teeth beside the mesh that carry the labels of the open homes: near enough to be looked at, clear of the pinion. */
const BESIDE = {
  whole: { ends: 5, flanks: 7, height: 9 },
  mesh: { ends: 3, flanks: 2, height: 4 },
} as const;

function borders(place: FlankPlace): readonly Anchor[] {
  const at = (name: LabelName, point: Vector3): Anchor => ({
    name,
    point,
    from: place.center,
    normal: place.normal,
    toothOffset: 0,
  });
  return [at('toe', place.toe), at('heel', place.heel), at('face', place.face), at('root', place.root)];
}

/** Labels of a home. */
export function anchorsOf(facts: GearFacts, home: StageHome): readonly Anchor[] {
  const flank = squareFlank(home);
  if (flank !== null) return borders(facts[flank]);
  const { drive, coast } = facts;
  const beside = BESIDE[home === 'whole' ? 'whole' : 'mesh'];
  const up = drive.heightwise;
  const below = (point: Vector3) => point.clone().addScaledVector(up, -facts.faceWidth);
  return [
    { name: 'toe', point: drive.toeTop, from: drive.face, normal: up, toothOffset: beside.ends },
    { name: 'heel', point: drive.heelTop, from: drive.face, normal: up, toothOffset: beside.ends },
    {
      name: 'drive',
      point: drive.center,
      from: below(drive.center),
      normal: drive.normal,
      toothOffset: beside.flanks,
    },
    {
      name: 'coast',
      point: coast.center,
      from: below(coast.center),
      normal: coast.normal,
      toothOffset: beside.flanks,
    },
    { name: 'face', point: drive.face, from: below(drive.face), normal: up, toothOffset: beside.height },
    { name: 'root', point: drive.root, from: below(drive.root), normal: up, toothOffset: beside.height },
  ];
}
