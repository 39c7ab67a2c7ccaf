import { oneLine, valueWords } from '../../models/problem.ts';
import { EDGES, type EdgeName } from '../../sim/contact/report.ts';
import {
  CAREFUL,
  type MaskedMark,
  type Observation,
  type SeenMark,
  type Uncertainty,
} from '../../sim/diagnose/observation.ts';
import { refuse } from './refusal.ts';

type Json = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const KEYS = {
  observation: ['drive', 'coast', 'backlash_mm', 'uncertainty', 'film_mm'],
  descriptors: ['toeHeel', 'rootFace', 'length', 'height', 'edges'],
  mask: ['columns', 'rows', 'data'],
  uncertainty: ['patch', 'backlash_mm'],
} as const;

const onlyKeys = (field: string, value: Json, allowed: readonly string[]): void => {
  for (const key of Object.keys(value)) {
    if (!allowed.includes(key)) {
      refuse(
        field === '' ? oneLine(key) : `${field}.${oneLine(key)}`,
        'unknown field',
        `one of ${allowed.join(', ')}`,
      );
    }
  }
};

/**
 * One observation from JSON; the ranges are checked by the diagnosis itself.
 * @throws Refusal naming the field as it stands in the file
 */
export function readObservation(json: unknown): Observation {
  if (!isObject(json)) {
    return refuse('observation', valueWords(json), 'an object with drive, coast or both, and backlash_mm');
  }
  onlyKeys('', json, KEYS.observation);
  return {
    drive: readMark('drive', json.drive),
    coast: readMark('coast', json.coast),
    backlash: readReadings(json.backlash_mm),
    uncertainty: readUncertainty(json.uncertainty),
    film: json.film_mm === undefined || json.film_mm === null ? null : readNumber('film_mm', json.film_mm),
  };
}

const MARK_WORDS =
  'an object with toeHeel and rootFace, with outline, or with mask; left out when the flank was not looked at';

function readMark(field: string, json: unknown): SeenMark | null {
  if (json === undefined || json === null) return null;
  if (!isObject(json)) return refuse(field, valueWords(json), MARK_WORDS);
  const edges = readEdges(`${field}.edges`, json.edges);
  if ('outline' in json) {
    onlyKeys(field, json, ['outline', 'edges']);
    return { kind: 'outline', outline: readOutline(`${field}.outline`, json.outline), edges };
  }
  if ('mask' in json) {
    onlyKeys(field, json, ['mask', 'edges']);
    return { ...readMask(`${field}.mask`, json.mask), edges };
  }
  onlyKeys(field, json, KEYS.descriptors);
  const optional = (key: 'length' | 'height'): number | null =>
    json[key] === undefined || json[key] === null ? null : readNumber(`${field}.${key}`, json[key]);
  return {
    kind: 'descriptors',
    toeHeel: readNumber(`${field}.toeHeel`, json.toeHeel),
    rootFace: readNumber(`${field}.rootFace`, json.rootFace),
    length: optional('length'),
    height: optional('height'),
    edges,
  };
}

/** Borders the mark was seen to reach; nothing when nobody looked. */
function readEdges(field: string, json: unknown): readonly EdgeName[] | undefined {
  if (json === undefined || json === null) return undefined;
  if (!Array.isArray(json)) return refuse(field, valueWords(json), `a list of ${EDGES.join(', ')}`);
  return json.map((edge: unknown, i) => {
    const known = EDGES.find((name) => name === edge);
    return known ?? refuse(`${field}[${i}]`, valueWords(edge), `one of ${EDGES.join(', ')}`);
  });
}

function readNumber(field: string, json: unknown): number {
  return typeof json === 'number' && Number.isFinite(json)
    ? json
    : refuse(field, valueWords(json), 'a number');
}

function readOutline(field: string, json: unknown): ReadonlyArray<readonly [number, number]> {
  const words = 'a list of corners [toeHeel, rootFace]';
  if (!Array.isArray(json)) return refuse(field, valueWords(json), words);
  return json.map((corner: unknown, i) => {
    if (!Array.isArray(corner) || corner.length !== 2) {
      return refuse(`${field}[${i}]`, valueWords(corner), 'two numbers, toeHeel and rootFace');
    }
    return [readNumber(`${field}[${i}][0]`, corner[0]), readNumber(`${field}[${i}][1]`, corner[1])];
  });
}

function readMask(field: string, json: unknown): MaskedMark {
  if (!isObject(json)) return refuse(field, valueWords(json), 'an object with columns, rows and data');
  onlyKeys(field, json, KEYS.mask);
  return {
    kind: 'mask',
    columns: readNumber(`${field}.columns`, json.columns),
    rows: readNumber(`${field}.rows`, json.rows),
    data: readCells(`${field}.data`, json.data),
  };
}

/** A text of 0 and 1, or a list of 0 and 1, or a list of rows of either. */
function readCells(field: string, json: unknown): readonly number[] {
  const words = '0 and 1, row by row: one text or one list';
  if (typeof json === 'string') {
    const bare = json.replace(/\s/g, '');
    if (!/^[01]*$/.test(bare)) return refuse(field, valueWords(json), words);
    return Array.from(bare, Number);
  }
  if (!Array.isArray(json)) return refuse(field, valueWords(json), words);
  return json.flatMap((cell: unknown, i) => {
    if (cell === 0 || cell === 1) return [cell];
    if (typeof cell === 'boolean') return [cell ? 1 : 0];
    if (typeof cell === 'string' || Array.isArray(cell)) return readCells(`${field}[${i}]`, cell);
    return refuse(`${field}[${i}]`, valueWords(cell), '0 or 1');
  });
}

function readReadings(json: unknown): readonly number[] {
  if (json === undefined || json === null) return [];
  if (!Array.isArray(json)) return refuse('backlash_mm', valueWords(json), 'a list of readings in mm');
  return json.map((reading: unknown, i) => readNumber(`backlash_mm[${i}]`, reading));
}

function readUncertainty(json: unknown): Uncertainty {
  if (json === undefined || json === null) return CAREFUL;
  if (!isObject(json)) return refuse('uncertainty', valueWords(json), 'an object with patch and backlash_mm');
  onlyKeys('uncertainty', json, KEYS.uncertainty);
  const { patch, backlash_mm: dial } = json;
  return {
    patch: patch === undefined ? CAREFUL.patch : readNumber('uncertainty.patch', patch),
    backlash: dial === undefined ? CAREFUL.backlash : readNumber('uncertainty.backlash_mm', dial),
  };
}
