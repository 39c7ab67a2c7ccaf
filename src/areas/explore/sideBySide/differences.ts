import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { EdgeName, PatchReport, SolveResult } from '../../../../sim/worker/protocol.ts';
import type { Digits, Lengths } from '../../../app/ui/useLengths.ts';
import { centreWords, edgeList, orderedEdges, percent } from '../../../flank/describePattern.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import type { ShownMesh } from '../../../state/mesh.ts';
import type { Translate } from '../../../text/translate.ts';
import { formatMicrorad } from '../../../units/format.ts';

/** One line of the table: both sides and what the right one has over the left one. */
export interface DifferenceRow {
  readonly name: string;
  readonly left: string;
  readonly right: string;
  readonly change: string;
}

const DIAL: Digits = { mm: 3, in: 4 };
/** mm of backlash that a dial does not tell apart */
const SAME_LASH = 0.0005;

const flankName = (flank: FlankName, t: Translate): string => t(`flank.name.${flank}`);

/** "12 % nearer the heel and 5 % nearer the face"; null where both centres round to the same percent. */
function moveWords(left: PatchReport, right: PatchReport, t: Translate): string | null {
  const part = (from: number | null, to: number | null, below: EdgeName, above: EdgeName): string | null => {
    if (from === null || to === null) return null;
    const moved = percent(to) - percent(from);
    return moved === 0
      ? null
      : t('twin.nearer', { percent: Math.abs(moved), edge: t(`flank.edge.${moved < 0 ? below : above}`) });
  };
  const along = part(left.toeHeel, right.toeHeel, 'toe', 'heel');
  const up = part(left.rootFace, right.rootFace, 'root', 'face');
  if (along !== null && up !== null) return t('twin.and', { first: along, second: up });
  return along ?? up;
}

function markSentence(left: SolveResult, right: SolveResult, flank: FlankName, t: Translate): string {
  const [a, b] = [left[flank], right[flank]];
  const name = flankName(flank, t);
  if (a.toeHeel === null && b.toeHeel === null) return t('twin.mark.neither', { flank: name });
  if (b.toeHeel === null) return t('twin.mark.onlyLeft', { flank: name });
  if (a.toeHeel === null) return t('twin.mark.onlyRight', { flank: name });
  const how = moveWords(a, b, t);
  const place =
    how === null ? t('twin.mark.same', { flank: name }) : t('twin.mark.place', { flank: name, how });
  const alone = (
    [
      ['left', a, b],
      ['right', b, a],
    ] as const
  ).flatMap(([side, own, other]) => {
    const edges = orderedEdges(own.edges).filter((edge) => !other.edges.includes(edge));
    return edges.length === 0 ? [] : [t(`twin.mark.edges.${side}`, { edges: edgeList(edges, t) })];
  });
  return [place, ...alone].join(' ');
}

/** The difference in words, as somebody would say it at the bench. */
export function differenceSentences(
  left: ShownMesh,
  right: ShownMesh,
  lengths: Lengths,
  t: Translate,
): readonly string[] {
  const [a, b] = [left.result, right.result];
  const sentences = FLANK_ORDER.map((flank) => markSentence(a, b, flank, t));
  for (const [side, result] of [
    ['twin.left', a],
    ['twin.right', b],
  ] as const) {
    if (result.backlash.binding) sentences.push(t('twin.binds', { side: t(side) }));
  }
  const [from, to] = [a.backlash.normal, b.backlash.normal];
  if (from !== null && to !== null) {
    const more = to - from;
    sentences.push(
      Math.abs(more) < SAME_LASH
        ? t('twin.lash.same')
        : t(more > 0 ? 'twin.lash.more' : 'twin.lash.less', { amount: lengths.amount(more, DIAL) }),
    );
  }
  if (left.axleId !== right.axleId) sentences.push(t('twin.two'));
  if (Math.abs(a.film - b.film) > 1e-6) {
    const film: Digits = { mm: 4, in: 5 };
    sentences.push(t('twin.film', { left: lengths.say(a.film, film), right: lengths.say(b.film, film) }));
  }
  return sentences;
}

/** Both sides in numbers. */
export function differenceRows(
  left: SolveResult,
  right: SolveResult,
  lengths: Lengths,
  t: Translate,
): readonly DifferenceRow[] {
  const same = t('twin.change.same');
  const none = t('twin.value.none');
  const change = (moved: number, amount: string, least: number): string =>
    Math.abs(moved) < least ? same : t(moved > 0 ? 'twin.change.more' : 'twin.change.less', { amount });
  const shares = (from: number, to: number): string =>
    change(percent(to) - percent(from), `${Math.abs(percent(to) - percent(from))} %`, 0.5);

  const rows: DifferenceRow[] = [];
  for (const flank of FLANK_ORDER) {
    const [a, b] = [left[flank], right[flank]];
    const name = flankName(flank, t);
    const both = a.toeHeel !== null && b.toeHeel !== null;
    const edges = (report: PatchReport) => (report.edges.length === 0 ? none : edgeList(report.edges, t));
    const extent = ({ toeHeel, length, height }: PatchReport) =>
      toeHeel === null ? none : t('twin.value.extent', { length: percent(length), height: percent(height) });
    const error = (report: PatchReport) =>
      report.transmissionError === null ? none : formatMicrorad(report.transmissionError, { decimals: 1 });
    const errors = [a.transmissionError, b.transmissionError];
    rows.push(
      {
        name: t('twin.row.centre', { flank: name }),
        left: centreWords(a, t),
        right: centreWords(b, t),
        change: both ? (moveWords(a, b, t) ?? same) : t('twin.change.other'),
      },
      {
        name: t('twin.row.covers', { flank: name }),
        left: extent(a),
        right: extent(b),
        change: both
          ? t('twin.change.extent', {
              length: shares(a.length, b.length),
              height: shares(a.height, b.height),
            })
          : t('twin.change.other'),
      },
      {
        name: t('twin.row.edges', { flank: name }),
        left: edges(a),
        right: edges(b),
        change: edges(a) === edges(b) ? same : t('twin.change.other'),
      },
      {
        name: t('twin.row.te', { flank: name }),
        left: error(a),
        right: error(b),
        change:
          errors[0] === null || errors[1] === null
            ? t('twin.change.other')
            : change(
                errors[1] - errors[0],
                formatMicrorad(Math.abs(errors[1] - errors[0]), { decimals: 1 }),
                0.05,
              ),
      },
    );
  }
  const dial = (mm: number | null) => (mm === null ? none : lengths.say(mm, DIAL));
  const lash = (name: string, from: number | null, to: number | null): DifferenceRow => ({
    name,
    left: dial(from),
    right: dial(to),
    change:
      from === null || to === null
        ? t('twin.change.other')
        : change(to - from, lengths.amount(to - from, DIAL), SAME_LASH),
  });
  const away = (name: string, from: number, to: number, plus: 'in' | 'out'): DifferenceRow => {
    const way = (mm: number) => (mm > 0 === (plus === 'in') ? 'in' : 'out');
    const say = (mm: number) =>
      Math.abs(mm) < 5e-6
        ? t('twin.value.design')
        : t('twin.value.way', { amount: lengths.move(mm), way: way(mm) });
    const moved = to - from;
    return {
      name,
      left: say(from),
      right: say(to),
      change:
        Math.abs(moved) < 5e-6 ? same : t('twin.value.way', { amount: lengths.move(moved), way: way(moved) }),
    };
  };
  return [
    ...rows,
    lash(t('twin.row.square'), left.backlash.normal, right.backlash.normal),
    lash(t('twin.row.turning'), left.backlash.tangential, right.backlash.tangential),
    away(t('twin.row.pinion'), left.pose.pinionIn, right.pose.pinionIn, 'in'),
    away(t('twin.row.ring'), left.pose.ringAway, right.pose.ringAway, 'out'),
  ];
}
