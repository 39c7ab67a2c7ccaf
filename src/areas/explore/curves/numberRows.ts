import type { LoadedGearSet, SolveResult } from '../../../../sim/worker/protocol.ts';
import type { Digits, Lengths } from '../../../app/ui/useLengths.ts';
import { edgeList, orderedEdges, percent } from '../../../flank/describePattern.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import type { Translate } from '../../../text/translate.ts';
import {
  formatDegrees,
  formatMicron,
  formatMicrorad,
  formatNumber,
  NARROW_SPACE,
} from '../../../units/format.ts';
import { mmTo } from '../../../units/length.ts';
import { flankNumbers } from './patchNumbers.ts';

/** One line of the table: what it is, as a person reads it, and as a spreadsheet does. */
export interface NumberRow {
  readonly name: string;
  /** one text per flank, or one for both */
  readonly texts: readonly string[];
  readonly csvUnit: string;
  /** null: nothing there */
  readonly csv: readonly (number | string | null)[];
}

const FINE: Digits = { mm: 4, in: 5 };
const COARSE: Digits = { mm: 2, in: 3 };
const NONE = '–';

/** Everything the solver says about both marks and the dial, in the order a person asks for it. */
export function numberRows(
  result: SolveResult,
  loaded: LoadedGearSet,
  lengths: Lengths,
  t: Translate,
): readonly NumberRow[] {
  const { pose, film, backlash } = result;
  const flanks = FLANK_ORDER.map((flank) => ({
    report: result[flank],
    ...flankNumbers(result[flank], result.grid, film, loaded.outline),
  }));
  type Flank = (typeof flanks)[number];
  const { unit } = lengths;
  const long = (mm: number | null, decimals: number): number | null =>
    mm === null ? null : Number(mmTo(unit, mm).toFixed(decimals + (unit === 'in' ? 1 : 0)));
  const row = (
    name: string,
    csvUnit: string,
    csv: (flank: Flank) => number | string | null,
    text: (flank: Flank) => string,
  ): NumberRow => ({ name, csvUnit, csv: flanks.map(csv), texts: flanks.map(text) });
  const single = (name: string, csvUnit: string, csv: number | null, text: string): NumberRow => ({
    name,
    csvUnit,
    csv: [csv],
    texts: [text],
  });

  const place = (value: number | null, below: 'toe' | 'root', above: 'heel' | 'face'): string => {
    if (value === null) return NONE;
    const share = percent(value);
    if (share === 0) return t(below === 'toe' ? 'flank.centre.midLength' : 'flank.centre.midHeight');
    return t('flank.centre.share', {
      percent: Math.abs(share),
      edge: t(`flank.edge.${share < 0 ? below : above}`),
    });
  };
  const hundredths = (value: number | null): number | null =>
    value === null ? null : Number((100 * value).toFixed(2));
  const shareAnd = (share: number, amount: string): string =>
    t('curves.n.share', { percent: percent(share), amount });
  const square = unit === 'mm' ? 'mm²' : 'in²';
  const inSquare = (mm2: number): number => mmTo(unit, mmTo(unit, mm2));
  const micro = (value: number | null, factor = 1): number | null =>
    value === null ? null : Number((value * factor).toFixed(2));
  const microText = (value: number | null, factor = 1): string =>
    value === null ? t('curves.none') : formatMicrorad(value * factor, { decimals: 1 });
  const dial = (mm: number | null): string => (mm === null ? t('curves.none') : lengths.say(mm, FINE));
  const away = (mm: number, plus: 'in' | 'out'): string =>
    Math.abs(mm) < 5e-7
      ? t('flank.plate.design')
      : t('curves.n.pinion.value', {
          amount: lengths.amount(mm, FINE),
          way: mm > 0 === (plus === 'in') ? 'in' : 'out',
        });
  const error = (value: number, amount: string): string =>
    value === 0 ? NONE : t('curves.n.more', { amount, way: value > 0 ? 'more' : 'less' });

  return [
    row(
      t('curves.n.along'),
      t('curves.n.csv.along'),
      ({ report }) => hundredths(report.toeHeel),
      ({ report }) => place(report.toeHeel, 'toe', 'heel'),
    ),
    row(
      t('curves.n.up'),
      t('curves.n.csv.up'),
      ({ report }) => hundredths(report.rootFace),
      ({ report }) => place(report.rootFace, 'root', 'face'),
    ),
    row(
      t('curves.n.length'),
      unit,
      ({ lengthMm }) => long(lengthMm, 3),
      ({ report, lengthMm }) => shareAnd(report.length, lengths.say(lengthMm, COARSE)),
    ),
    row(
      t('curves.n.height'),
      unit,
      ({ heightMm }) => long(heightMm, 3),
      ({ report, heightMm }) => shareAnd(report.height, lengths.say(heightMm, COARSE)),
    ),
    row(
      t('curves.n.tilt'),
      t('curves.n.csv.tilt'),
      ({ tilt }) => (tilt === null ? null : Number(tilt.toFixed(2))),
      ({ tilt }) =>
        tilt === null
          ? NONE
          : t('curves.n.tilt.value', {
              amount: formatDegrees(Math.abs(tilt), { decimals: 1 }),
              end: t(`flank.edge.${tilt < 0 ? 'toe' : 'heel'}`),
            }),
    ),
    row(
      t('curves.n.area'),
      square,
      ({ areaMm2 }) => (areaMm2 === null ? null : Number(inSquare(areaMm2).toFixed(4))),
      ({ report, areaMm2 }) =>
        areaMm2 === null
          ? NONE
          : shareAnd(
              report.area,
              `${formatNumber(inSquare(areaMm2), unit === 'mm' ? 1 : 3)}${NARROW_SPACE}${square}`,
            ),
    ),
    row(
      t('curves.n.edges'),
      '',
      ({ report }) => orderedEdges(report.edges).join(' '),
      ({ report }) => (report.edges.length === 0 ? t('curves.n.edges.none') : edgeList(report.edges, t)),
    ),
    row(
      t('curves.n.teRing'),
      'µrad',
      ({ report }) => micro(report.transmissionError),
      ({ report }) => microText(report.transmissionError),
    ),
    row(
      t('curves.n.tePinion'),
      'µrad',
      ({ report }) => micro(report.transmissionError, loaded.gearRatio),
      ({ report }) => microText(report.transmissionError, loaded.gearRatio),
    ),
    row(
      t('curves.n.ratio'),
      '',
      ({ report }) => Number(report.contactRatio.toFixed(4)),
      ({ report }) => formatNumber(report.contactRatio, 2),
    ),
    row(
      t('curves.n.gap'),
      '%',
      ({ report }) => hundredths(report.gapShare),
      ({ report }) => `${percent(report.gapShare)} %`,
    ),
    row(
      t('curves.n.least'),
      'µm',
      ({ nearest }) => (nearest === null ? null : Number((nearest.separation * 1000).toFixed(3))),
      ({ nearest }) =>
        nearest === null ? NONE : formatMicron(Math.max(0, nearest.separation), { decimals: 2 }),
    ),
    row(
      t('curves.n.leastAlong'),
      t('curves.n.csv.along'),
      ({ nearest }) => hundredths(nearest?.u ?? null),
      ({ nearest }) => place(nearest?.u ?? null, 'toe', 'heel'),
    ),
    row(
      t('curves.n.leastUp'),
      t('curves.n.csv.up'),
      ({ nearest }) => hundredths(nearest?.v ?? null),
      ({ nearest }) => place(nearest?.v ?? null, 'root', 'face'),
    ),
    ...(
      [
        ['least', backlash.normal],
        ['mean', backlash.normalMean],
        ['range', backlash.normalRange],
      ] as const
    ).map(([which, mm]) => single(t('curves.n.square', { which }), unit, long(mm, 5), dial(mm))),
    ...(
      [
        ['least', backlash.tangential],
        ['mean', backlash.tangentialMean],
      ] as const
    ).map(([which, mm]) => single(t('curves.n.turning', { which }), unit, long(mm, 5), dial(mm))),
    single(
      t('curves.n.angle'),
      '°',
      backlash.angle === null ? null : Number(backlash.angle.toFixed(5)),
      backlash.angle === null ? t('curves.none') : formatDegrees(backlash.angle, { decimals: 4 }),
    ),
    single(
      t('curves.n.pinion'),
      `${unit}, ${t('curves.n.csv.pinion')}`,
      long(pose.pinionIn, 4),
      away(pose.pinionIn, 'in'),
    ),
    single(
      t('curves.n.ring'),
      `${unit}, ${t('curves.n.csv.ring')}`,
      long(pose.ringAway, 4),
      away(pose.ringAway, 'out'),
    ),
    single(
      t('curves.n.offset'),
      unit,
      long(pose.offsetError, 4),
      error(pose.offsetError, lengths.amount(pose.offsetError, FINE)),
    ),
    single(
      t('curves.n.angleError'),
      '°',
      pose.shaftAngleError,
      error(pose.shaftAngleError, formatDegrees(Math.abs(pose.shaftAngleError), { decimals: 4 })),
    ),
    single(t('curves.n.film'), unit, long(film, 5), lengths.say(film, FINE)),
  ];
}

/** Tab-separated, as read: pastes into a mail as well as into a table. */
export function rowsAsText(rows: readonly NumberRow[], head: readonly string[]): string {
  return [head, ...rows.map(({ name, texts }) => [name, ...texts])]
    .map((cells) => cells.join('\t'))
    .join('\n');
}

/** RFC 4180: one line per quantity, a decimal point, empty where there is nothing. */
export function rowsAsCsv(rows: readonly NumberRow[], head: readonly string[]): string {
  const cell = (value: number | string | null): string => {
    const text = value === null ? '' : String(value);
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [head, ...rows.map(({ name, csvUnit, csv }) => [name, csvUnit, ...csv])]
    .map((cells) => cells.map(cell).join(','))
    .join('\r\n');
}
