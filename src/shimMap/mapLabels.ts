import type { FlankName } from '../../sim/gearset/definition.ts';
import { EDGE_BIT } from '../../sim/worker/longProtocol.ts';
import { EDGES, type EdgeName, FLANKS } from '../../sim/worker/protocol.ts';
import type { Translate } from '../text/translate.ts';
import type { MapFields } from './fields.ts';
import { roomForText } from './roomForText.ts';
import type { Scales } from './scales.ts';

/** A name written on the map, its middle in px. */
export interface MapLabel {
  readonly kind: 'region' | 'edge';
  readonly name: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

const REGIONS = ['inside', 'below', 'above', 'binds', 'unknown'] as const;

type EdgeLabel = `${FlankName}-${EdgeName}`;

/** What can be written on the map, from the longest to the shortest. */
export type MapWords = Readonly<Record<(typeof REGIONS)[number] | EdgeLabel, readonly string[]>>;

export const mapWords = (t: Translate): MapWords =>
  Object.fromEntries([
    ...REGIONS.map((region) => [
      region,
      [t(`shimMap.region.${region}`), t(`shimMap.region.${region}.short`)],
    ]),
    ...FLANKS.flatMap((flank) =>
      EDGES.map((edge) => [
        `${flank}-${edge}`,
        [t('shimMap.region.edge', { flank, edge: t(`flank.edge.${edge}`) })],
      ]),
    ),
  ]) as MapWords;

/** Width of a letter and height of a line, in text heights. */
const LETTER = 0.56;
const LINE = 1.35;
/** Names of edges are smaller than those of the backlash. */
const EDGE_SIZE = 0.867;

interface Wanted {
  readonly kind: MapLabel['kind'];
  readonly name: string;
  /** from the longest to the shortest */
  readonly texts: readonly string[];
  readonly size: number;
  /** where it may stand, the best first: a name never lies across the border of two of them */
  readonly within: readonly ((cell: number) => boolean)[];
}

/**
 * Names of regions and edges where each has room, none over another. `limits` in mm as the fields are read, `em` the text
 * height in px.
 */
export function mapLabels(
  fields: MapFields,
  limits: { readonly min: number; readonly max: number },
  scales: Scales,
  em: number,
  words: MapWords,
): readonly MapLabel[] {
  const { columns, rows } = fields;
  const cellWidth = scales.box.width / (columns - 1);
  const cellHeight = scales.box.height / (rows - 1);
  const taken = new Uint8Array(columns * rows);
  const write = ({ kind, name, texts, size, within }: Wanted): MapLabel | null => {
    for (const text of texts) {
      const width = (text.length * LETTER * size) / cellWidth + 1;
      const height = (LINE * size) / cellHeight + 1;
      for (const may of within) {
        const has = (cell: number) => taken[cell] === 0 && may(cell);
        const room = roomForText({ columns, rows, has }, width, height);
        if (room === null) continue;
        for (let row = Math.ceil(room.row - height / 2); row <= room.row + height / 2; row++) {
          const from = Math.max(0, Math.ceil(room.column - width / 2));
          taken.fill(1, row * columns + from, row * columns + Math.floor(room.column + width / 2) + 1);
        }
        return { kind, name, text, size, x: scales.column(room.column), y: scales.row(room.row) };
      }
    }
    return null;
  };
  const is = regionTests(fields, limits);
  return [...regionNames(is, em, words), ...edgeNames(fields, is, em, words)].flatMap(
    (wanted) => write(wanted) ?? [],
  );
}

type RegionTests = Readonly<Record<(typeof REGIONS)[number], (cell: number) => boolean>>;

const regionTests = (
  { least, mean }: MapFields,
  { min, max }: { readonly min: number; readonly max: number },
): RegionTests => ({
  unknown: (cell) => Number.isNaN(least[cell]),
  binds: (cell) => least[cell] <= 0,
  below: (cell) => least[cell] > 0 && least[cell] < min,
  above: (cell) => mean[cell] > max,
  inside: (cell) => least[cell] >= min && mean[cell] <= max,
});

const regionNames = (is: RegionTests, em: number, words: MapWords): readonly Wanted[] =>
  REGIONS.map((region) => ({
    kind: 'region',
    name: region,
    texts: words[region],
    size: em,
    within: [is[region]],
  }));

/** Beside the band of the limits first, where there is nothing to hide; never where the teeth bind. */
function edgeNames(
  { drive, coast }: MapFields,
  is: RegionTests,
  em: number,
  words: MapWords,
): readonly Wanted[] {
  const flags = { drive: drive.edges, coast: coast.edges };
  const names = (flank: FlankName) =>
    EDGES.map((edge: EdgeName): Wanted => {
      const touches = (cell: number) => (flags[flank][cell] & EDGE_BIT[edge]) !== 0;
      return {
        kind: 'edge',
        name: `${flank}-${edge}`,
        texts: words[`${flank}-${edge}`],
        size: em * EDGE_SIZE,
        within: [is.above, is.below, is.inside].map(
          (region) => (cell: number) => touches(cell) && region(cell),
        ),
      };
    });
  return [...names('drive'), ...names('coast')];
}
