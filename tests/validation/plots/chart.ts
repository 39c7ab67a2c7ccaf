import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';

/** One drawn line; points with a NaN break it. */
export interface Series {
  readonly label: string;
  readonly points: ReadonlyArray<readonly [number, number]>;
  /** index into the styles: equal index = equal look in every panel */
  readonly style: number;
  readonly dots?: readonly Dot[];
}

/** A dot; its word stands beyond it as seen from `from`. */
export interface Dot {
  readonly at: readonly [number, number];
  readonly word?: { readonly text: string; readonly from: readonly [number, number] };
}

export interface Axis {
  /** with its unit */
  readonly title: string;
  readonly domain: readonly [number, number];
  readonly ticks: number;
  readonly digits: number;
}

export interface Panel {
  readonly title: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly series: readonly Series[];
  /** a horizontal line worth knowing, with its word */
  readonly level?: { readonly y: number; readonly text: string };
}

export interface Chart {
  readonly title: string;
  readonly description: string;
  readonly panels: readonly Panel[];
}

/** Colour-blind-safe, and told apart by dashes too. */
const STYLES = [
  { color: '#0072b2', dash: '' },
  { color: '#c24400', dash: '9 4' },
  { color: '#00795a', dash: '2 4' },
  { color: '#9b3f7a', dash: '12 4 2 4' },
  { color: '#222222', dash: '5 3' },
] as const;

const WIDTH = 960;
const COLUMNS = 2;
const PANEL = { width: WIDTH / COLUMNS, height: 360, left: 74, right: 24, top: 46, bottom: 58 } as const;
const HEADER = 44;
const LEGEND_ROW = 30;

const escapeXml = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const short = (value: number): string => String(Number(value.toFixed(1)));

const tickText = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace('-', '−');
};

const drawPanel = ({ title, x, y, series, level }: Panel, left: number, top: number): string => {
  const scaleX = scaleLinear(x.domain, [PANEL.left, PANEL.width - PANEL.right]);
  const scaleY = scaleLinear(y.domain, [PANEL.height - PANEL.bottom, PANEL.top]);
  const [x0, x1] = scaleX.range();
  const [y0, y1] = scaleY.range();
  const gridX = scaleX.ticks(x.ticks).map((tick) => {
    const at = short(scaleX(tick));
    return `<path d="M${at} ${y0}V${y1}" stroke="#e1e5e8"/><text x="${at}" y="${y0 + 20}" text-anchor="middle">${tickText(tick, x.digits)}</text>`;
  });
  const gridY = scaleY.ticks(y.ticks).map((tick) => {
    const at = scaleY(tick);
    return `<path d="M${x0} ${short(at)}H${x1}" stroke="#e1e5e8"/><text x="${x0 - 8}" y="${short(at + 5)}" text-anchor="end">${tickText(tick, y.digits)}</text>`;
  });
  const path = line<readonly [number, number]>()
    .defined(([px, py]) => Number.isFinite(px) && Number.isFinite(py))
    .x(([px]) => scaleX(px))
    .y(([, py]) => scaleY(py))
    .digits(1);
  const lines = series.map(({ points, style, dots = [] }) => {
    const { color, dash } = STYLES[style];
    const drawn = `<path d="${path(points) ?? ''}" fill="none" stroke="${color}" stroke-width="2.4"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`;
    const marks = dots
      .filter(({ at }) => at.every(Number.isFinite))
      .map(({ at, word: said }) => {
        const [cx, cy] = [scaleX(at[0]), scaleY(at[1])];
        const [awayX, awayY] = said ? [cx - scaleX(said.from[0]), cy - scaleY(said.from[1])] : [0, 0];
        const far = Math.hypot(awayX, awayY) || 1;
        const word = said
          ? `<text x="${short(cx + (24 * awayX) / far)}" y="${short(cy + 5 + (18 * awayY) / far)}" text-anchor="middle" fill="${color}" stroke="#fff" stroke-width="3" paint-order="stroke">${escapeXml(said.text)}</text>`
          : '';
        return `<circle cx="${short(cx)}" cy="${short(cy)}" r="4" fill="#fff" stroke="${color}" stroke-width="2"/>${word}`;
      });
    return drawn + marks.join('');
  });
  const levelLine = level
    ? `<path d="M${x0} ${short(scaleY(level.y))}H${x1}" stroke="#222" stroke-width="1.2"/><text x="${x1 - 6}" y="${short(scaleY(level.y) + 17)}" text-anchor="end">${escapeXml(level.text)}</text>`
    : '';
  const middleY = (y0 + y1) / 2;
  return [
    `<g transform="translate(${left} ${top})">`,
    `<text x="${x0}" y="28" font-weight="600" font-size="15">${escapeXml(title)}</text>`,
    ...gridX,
    ...gridY,
    `<path d="M${x0} ${y1}V${y0}H${x1}" fill="none" stroke="#5b646b"/>`,
    levelLine,
    ...lines,
    `<text x="${(x0 + x1) / 2}" y="${y0 + 44}" text-anchor="middle">${escapeXml(x.title)}</text>`,
    `<text transform="translate(18 ${middleY}) rotate(-90)" text-anchor="middle">${escapeXml(y.title)}</text>`,
    '</g>',
  ].join('\n');
};

const drawLegend = (series: readonly Series[], top: number): string => {
  const labels = new Map(series.map(({ label, style }) => [label, style]));
  const step = (WIDTH - PANEL.left - PANEL.right) / Math.max(1, labels.size);
  return [...labels]
    .map(([label, style], i) => {
      const { color, dash } = STYLES[style];
      const left = short(PANEL.left + i * step);
      return `<g transform="translate(${left} ${top})"><path d="M0 0H42" stroke="${color}" stroke-width="2.4"${dash ? ` stroke-dasharray="${dash}"` : ''}/><text x="50" y="5">${escapeXml(label)}</text></g>`;
    })
    .join('\n');
};

/** A self-contained SVG on a white ground: panels two abreast, one legend for all. */
export const drawChart = ({ title, description, panels }: Chart): string => {
  const rows = Math.ceil(panels.length / COLUMNS);
  const legendTop = HEADER + rows * PANEL.height + 12;
  const height = legendTop + LEGEND_ROW;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-labelledby="t d" font-family="system-ui, sans-serif" font-size="14" fill="#222">`,
    `<title id="t">${escapeXml(title)}</title>`,
    `<desc id="d">${escapeXml(description)}</desc>`,
    `<rect width="${WIDTH}" height="${height}" rx="8" fill="#fff"/>`,
    `<text x="20" y="32" font-size="17" font-weight="600">${escapeXml(title)}</text>`,
    ...panels.map((panel, i) =>
      drawPanel(panel, (i % COLUMNS) * PANEL.width, HEADER + Math.floor(i / COLUMNS) * PANEL.height),
    ),
    drawLegend(
      panels.flatMap(({ series }) => series),
      legendTop,
    ),
    '</svg>',
  ].join('\n')}\n`;
};

/** Evenly spaced numbers, both ends included; ends and zero are exact. */
export const span = (low: number, high: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => Number((low + ((high - low) * i) / (count - 1)).toFixed(9)));
