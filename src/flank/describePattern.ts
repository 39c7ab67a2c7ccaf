import type { FlankName } from '../../sim/gearset/definition.ts';
import { EDGES, type EdgeName, type PatchReport, type SolveResult } from '../../sim/worker/protocol.ts';
import type { Translate } from '../text/translate.ts';
import { FLANK_ORDER } from './flankGeometry.ts';

/** How far from the middle a word reaches, as a share of the way to the edge. */
const STEPS = [
  { below: 0.15, step: 'slight' },
  { below: 0.35, step: 'clear' },
  { below: Number.POSITIVE_INFINITY, step: 'far' },
] as const;
const MIDDLE = 0.05;

/** Edges in the order they are named; the same order as the report's, whatever order it came in. */
export function orderedEdges(edges: readonly EdgeName[]): EdgeName[] {
  return EDGES.filter((edge) => edges.includes(edge));
}

function stepOf(distance: number): 'slight' | 'clear' | 'far' {
  return STEPS.find(({ below }) => distance < below)?.step ?? 'far';
}

/** "slightly toward the toe" */
export function alongWords(toeHeel: number, t: Translate): string {
  if (Math.abs(toeHeel) < MIDDLE) return t('flank.along.middle');
  return t(`flank.along.${toeHeel < 0 ? 'toe' : 'heel'}.${stepOf(Math.abs(toeHeel))}`);
}

/** "far toward the root" */
export function upWords(rootFace: number, t: Translate): string {
  if (Math.abs(rootFace) < MIDDLE) return t('flank.up.middle');
  return t(`flank.up.${rootFace < 0 ? 'root' : 'face'}.${stepOf(Math.abs(rootFace))}`);
}

export function percent(share: number): number {
  return Math.round(share * 100);
}

/** "toe", "toe and face", "toe, heel and face" */
export function edgeList(edges: readonly EdgeName[], t: Translate): string {
  const names = orderedEdges(edges).map((edge) => t(`flank.edge.${edge}`));
  return names.reduce((first, second, i) =>
    i === names.length - 1
      ? t('flank.list.pair', { first, second })
      : t('flank.list.comma', { first, second }),
  );
}

/** Numbers of the middle of a mark in trade words: "10 % toe, 5 % face"; "no mark" without one. */
export function centreWords(report: PatchReport, t: Translate): string {
  const { toeHeel, rootFace } = report;
  if (toeHeel === null || rootFace === null) return t('flank.centre.none');
  const along = percent(toeHeel);
  const up = percent(rootFace);
  const share = (value: number, edge: EdgeName): string =>
    t('flank.centre.share', { percent: Math.abs(value), edge: t(`flank.edge.${edge}`) });
  return t('flank.centre.value', {
    along: along === 0 ? t('flank.centre.midLength') : share(along, along < 0 ? 'toe' : 'heel'),
    up: up === 0 ? t('flank.centre.midHeight') : share(up, up < 0 ? 'root' : 'face'),
  });
}

/** One flank's pattern as a sentence or two. */
export function describeFlank(report: PatchReport, flank: FlankName, t: Translate): string {
  const name = t(`flank.name.${flank}`);
  const { toeHeel, rootFace } = report;
  const pattern =
    toeHeel === null || rootFace === null
      ? t('flank.pattern.none', { flank: name })
      : t('flank.pattern.sentence', {
          flank: name,
          along: alongWords(toeHeel, t),
          up: upWords(rootFace, t),
          length: percent(report.length),
          height: percent(report.height),
          edges:
            report.edges.length === 0
              ? t('flank.pattern.clear')
              : t('flank.pattern.edges', { edges: edgeList(report.edges, t) }),
        });
  const gap = percent(report.gapShare);
  return gap > 0 ? `${pattern} ${t('flank.pattern.gap', { percent: gap })}` : pattern;
}

/** The whole pattern in words, one entry per flank and one more when the teeth bind. */
export function describePattern(result: SolveResult, t: Translate): string[] {
  const sentences = FLANK_ORDER.map((flank) => describeFlank(result[flank], flank, t));
  return result.backlash.binding ? [...sentences, t('flank.pattern.binding')] : sentences;
}
