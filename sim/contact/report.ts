import type { FlankName } from '../gearset/definition.ts';
import type { MeshSolution } from './meshSolver.ts';
import { EDGE_BIT } from './patch.ts';

export const EDGES = ['toe', 'heel', 'face', 'root'] as const;
export type EdgeName = (typeof EDGES)[number];

/** What the marking compound shows on one flank (docs/model.md §7), in the units of files and screens. */
export interface PatchReport {
  /** mean u of the mark, −1 toe … +1 heel; null when there is no mark */
  readonly toeHeel: number | null;
  /** mean v of the mark, −1 working root … +1 face; null when there is no mark */
  readonly rootFace: number | null;
  /** extent along u / 2 */
  readonly length: number;
  /** extent along v / 2 */
  readonly height: number;
  /** share of the (u,v) square */
  readonly area: number;
  /** µrad of ring angle, peak to peak over a pitch; null without contact */
  readonly transmissionError: number | null;
  readonly edges: readonly EdgeName[];
  /** length of potential contact in pitches; below 1 the mesh has gaps */
  readonly contactRatio: number;
  /** share of a pitch without any contact line (contact ratio below 1) */
  readonly gapShare: number;
}

/** Backlash in the units of files and screens; null when the flanks share no phase of contact. */
export interface BacklashReport {
  /** mm at the heel, square to the drive flank: least, mean and range over a pitch */
  readonly normal: number | null;
  readonly normalMean: number | null;
  readonly normalRange: number | null;
  /** mm at the heel radius along the turning direction, least and mean over a pitch */
  readonly tangential: number | null;
  readonly tangentialMean: number | null;
  /** degrees of ring angle, least over a pitch */
  readonly angle: number | null;
  /** true when the teeth bind somewhere in the pitch (least backlash zero or below) */
  readonly binding: boolean;
}

const finiteOrNull = (x: number): number | null => (Number.isFinite(x) ? x : null);

const MICRORADIANS = 1e6;

export const reportPatch = (solution: MeshSolution, flank: FlankName): PatchReport => {
  const { patch, transmissionError, contactRatio, gapShare } = solution[flank];
  return {
    toeHeel: finiteOrNull(patch.toeHeel),
    rootFace: finiteOrNull(patch.rootFace),
    length: patch.length,
    height: patch.height,
    area: patch.area,
    transmissionError: finiteOrNull(transmissionError * MICRORADIANS),
    edges: EDGES.filter((edge) => (patch.edges & EDGE_BIT[edge]) !== 0),
    contactRatio,
    gapShare,
  };
};

export const reportBacklash = ({ backlash }: MeshSolution): BacklashReport => ({
  normal: finiteOrNull(backlash.normal),
  normalMean: finiteOrNull(backlash.normalMean),
  normalRange: finiteOrNull(backlash.normalRange),
  tangential: finiteOrNull(backlash.tangential),
  tangentialMean: finiteOrNull(backlash.tangentialMean),
  angle: finiteOrNull(backlash.angle),
  binding: backlash.normal <= 0,
});
