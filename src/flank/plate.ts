import type { Hand } from '../../sim/assembly/hardware.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { EdgeName, LoadedGearSet, SolveResult } from '../../sim/worker/protocol.ts';
import type { Translate } from '../text/translate.ts';
import type { LengthUnit } from '../units/length.ts';
import { compoundTones } from './compoundTones.ts';
import { inMicrometres } from './contourLevels.ts';
import { centreWords, describePattern, percent } from './describePattern.ts';
import { FLANK_ORDER, projectFlank } from './flankGeometry.ts';
import { layOutMap } from './mapLayout.ts';
import { toothPaths } from './mapPaths.ts';
import { contourLines, patchScene } from './patchScene.ts';
import { type PlateRow, plateRows } from './plateCaption.ts';
import { escapeXml, wrapText } from './svgText.ts';

export interface PlateOptions {
  /** what is shown: the axle's or file's name */
  readonly title: string;
  readonly hand: Hand;
  /** #rrggbb of the marking compound */
  readonly compoundColour: string;
  readonly units: LengthUnit;
  /** mm; none: no lines of separation */
  readonly contourLevels?: readonly number[] | undefined;
  /** first rows of the caption, for instance the shims fitted */
  readonly rows?: readonly PlateRow[] | undefined;
  readonly translate: Translate;
}

const WIDTH = 1000;
const MARGIN = 28;
const INNER = WIDTH - 2 * MARGIN;
const NAME_COLUMN = 210;
const LINE = 23;
const VALUE_CHARACTERS = 88;
const FOOT_CHARACTERS = 124;

const FONT = "'Atkinson Hyperlegible Next', 'DejaVu Sans', Verdana, Arial, sans-serif";
const PAPER = '#fffdf7';
const BELOW = '#b5ad9b';
const INK = '#0c0e10';
const SOFT = '#41403b';
const STOP = '#a11f0c';

interface TextStyle {
  readonly size?: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly anchor?: 'start' | 'middle' | 'end';
  /** paper round the letters, where they stand on lines */
  readonly halo?: boolean;
}

function text(x: number, y: number, content: string, style: TextStyle = {}): string {
  const { size = 16, bold = false, colour = INK, anchor = 'start', halo = false } = style;
  const attributes = [
    `x="${round(x)}" y="${round(y)}" font-size="${size}" fill="${colour}"`,
    bold ? 'font-weight="700"' : '',
    anchor === 'start' ? '' : `text-anchor="${anchor}"`,
    halo ? `stroke="${PAPER}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"` : '',
  ];
  return `<text ${attributes.filter((part) => part !== '').join(' ')}>${escapeXml(content)}</text>`;
}

const round = (px: number): number => Math.round(px * 100) / 100;

/**
 * Both flank maps of one solved pose with their numbers, as one self-contained SVG file of fixed width
 * (no script, no style sheet, nothing fetched).
 */
export function renderPlate(result: SolveResult, loaded: LoadedGearSet, options: PlateOptions): string {
  const t = options.translate;
  let y = 48;
  const parts: string[] = [
    text(MARGIN, y, options.title, { size: 27, bold: true }),
    text(WIDTH - MARGIN, y, `${t('flank.plate.title')}, ${t(`flank.plate.hand.${options.hand}`)}`, {
      colour: SOFT,
      anchor: 'end',
    }),
  ];
  y += 18;
  for (const flank of FLANK_ORDER) {
    const map = flankMap(result, loaded, options, flank, y);
    parts.push(map.svg);
    y = map.bottom + 16;
  }
  parts.push(`<path d="M${MARGIN} ${y}H${WIDTH - MARGIN}" stroke="${BELOW}" fill="none"/>`);
  y += 28;
  const rows = [...(options.rows ?? []), ...plateRows(result, options.units, t)];
  if (options.contourLevels !== undefined) {
    rows.push({ name: t('flank.plate.lines'), value: t('flank.key.contours', { unit: 'µm' }) });
  }
  for (const { name, value } of rows) {
    parts.push(text(MARGIN, y, name, { colour: SOFT }));
    const lines = wrapText(value, VALUE_CHARACTERS);
    for (const line of lines.length === 0 ? [''] : lines) {
      parts.push(text(MARGIN + NAME_COLUMN, y, line));
      y += LINE;
    }
  }
  y += 6;
  for (const line of wrapText(t('flank.plate.limits'), FOOT_CHARACTERS)) {
    parts.push(text(MARGIN, y, line, { size: 14, colour: SOFT }));
    y += 19;
  }
  const height = Math.ceil(y + 6);
  const description = [t('flank.plate.description'), ...describePattern(result, t)].join(' ');
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" font-family="${escapeXml(FONT)}" role="img">
<title>${escapeXml(options.title)}</title>
<desc>${escapeXml(description)}</desc>
<rect width="${WIDTH}" height="${height}" fill="${PAPER}"/>
${parts.join('\n')}
</svg>
`;
}

function flankMap(
  result: SolveResult,
  loaded: LoadedGearSet,
  options: PlateOptions,
  flank: FlankName,
  top: number,
): { readonly svg: string; readonly bottom: number } {
  const t = options.translate;
  const report = result[flank];
  const projection = projectFlank(loaded.outline, flank, options.hand);
  const layout = layOutMap(projection, INNER);
  const scene = patchScene(report, result.grid, result.film, projection);
  const tooth = toothPaths(projection);
  const tones = compoundTones(options.compoundColour);
  const drawingTop = top + 56;
  const { scale } = layout;
  const originX = MARGIN + layout.originX;
  const originY = drawingTop + layout.originY;
  const px = (x: number): number => round(originX + scale * x);
  const py = (y: number): number => round(originY + scale * y);
  // px of stroke as drawing mm: files are opened by programs that do not know non-scaling strokes
  const mm = (width: number): number => Math.round((width / scale) * 1e4) / 1e4;
  const path = (d: string, attributes: string): string => (d === '' ? '' : `<path d="${d}" ${attributes}/>`);
  const line = (colour: string, width: number, more = ''): string =>
    `fill="none" stroke="${colour}" stroke-width="${mm(width)}" stroke-linejoin="round"${more}`;
  const contours =
    options.contourLevels === undefined
      ? []
      : contourLines(report, result.grid, options.contourLevels, projection);
  const cross = (colour: string, width: number): string =>
    scene.centre === null
      ? ''
      : `<path d="M${px(scene.centre.x) - 9} ${py(scene.centre.y)}h18M${px(scene.centre.x)} ${
          py(scene.centre.y) - 9
        }v18" stroke="${colour}" stroke-width="${width}" stroke-linecap="round" fill="none"/>`;

  const numbers =
    report.toeHeel === null
      ? t('flank.centre.none')
      : `${t('flank.centre.name')} ${centreWords(report, t)}. ${t('flank.extent.name')} ${t(
          'flank.extent.value',
          {
            length: percent(report.length),
            height: percent(report.height),
          },
        )}.`;
  const endLabel = (edge: EdgeName, x: number, y: number, anchor: 'start' | 'middle' | 'end'): string => {
    const name = t(`flank.edge.${edge}`);
    return report.edges.includes(edge)
      ? text(x, y, t('flank.edge.contact', { edge: name }), { bold: true, colour: STOP, anchor })
      : text(x, y, name, { anchor });
  };
  const [left, right]: readonly [EdgeName, EdgeName] = projection.heelOnRight
    ? ['toe', 'heel']
    : ['heel', 'toe'];
  const below = drawingTop + layout.height + 15;
  const svg = [
    `<g data-flank="${flank}">`,
    text(MARGIN, top + 24, t(`flank.name.${flank}`), { size: 20, bold: true }),
    text(WIDTH - MARGIN, top + 24, numbers, { anchor: 'end' }),
    endLabel('face', WIDTH / 2, top + 51, 'middle'),
    `<g transform="translate(${round(originX)} ${round(originY)}) scale(${Math.round(scale * 1e4) / 1e4})">`,
    path(tooth.working, `fill="${tones.coat}"`),
    path(tooth.belowWorking, `fill="${BELOW}"`),
    path(tooth.middle, line(INK, 1, ' stroke-opacity="0.28"')),
    path(tooth.ticks, line(INK, 1)),
    path(tooth.whole, line(INK, 1.5)),
    path(scene.reach, line(INK, 1.5, ` stroke-dasharray="${mm(5)} ${mm(4)}"`)),
    path(
      scene.patch,
      `fill="${tones.rubbed}" stroke="${tones.rim}" stroke-width="${mm(2)}" data-part="patch"`,
    ),
    ...contours.flatMap((contour) => [
      path(contour.path, line(PAPER, 3, ' stroke-opacity="0.55"')),
      path(contour.path, line(INK, 1)),
    ]),
    ...scene.edges.flatMap((edge) => [
      path(edge.path, line(PAPER, 10, ' stroke-linecap="round"')),
      path(edge.path, line(STOP, 6, ` stroke-linecap="round" data-contact="${edge.edge}"`)),
    ]),
    '</g>',
    ...contours.map(({ level, label }) =>
      text(px(label.x), py(label.y) + 5, inMicrometres(level), {
        size: 14,
        bold: true,
        anchor: 'middle',
        halo: true,
      }),
    ),
    cross(PAPER, 5),
    cross(INK, 2),
    endLabel(left, MARGIN, below, 'start'),
    endLabel('root', WIDTH / 2, below, 'middle'),
    endLabel(right, WIDTH - MARGIN, below, 'end'),
    '</g>',
  ];
  return { svg: svg.filter((part) => part !== '').join('\n'), bottom: below };
}
