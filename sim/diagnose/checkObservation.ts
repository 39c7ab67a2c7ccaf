import { FLANKS } from '../gearset/definition.ts';
import { ObservationError } from './errors.ts';
import { measuresOf } from './evidence.ts';
import type { Observation, SeenMark } from './observation.ts';

/** Marks are placed on the flank square; a little beyond a border is a slip of the hand. */
const PLACE = { min: -1.05, max: 1.05 } as const;
const EXTENT = { min: 0.01, max: 1.05 } as const;
/** mm */
const READING = { min: -3, max: 3 } as const;
const FILM = { min: 0.001, max: 0.1 } as const;
const PATCH_SD = { min: 0.005, max: 0.5 } as const;
const DIAL_SD = { min: 0.001, max: 0.2 } as const;
/** corners and cells beyond any screen */
const MOST_CORNERS = 2000;
const MOST_CELLS = 250_000;
const MOST_READINGS = 60;

const within = (
  field: string,
  value: unknown,
  { min, max }: { readonly min: number; readonly max: number },
  unit = '',
): void => {
  if (typeof value === 'number' && value >= min && value <= max) return;
  throw new ObservationError(field, value, `a number from ${min} to ${max}${unit}`);
};

const checkMark = (field: string, mark: SeenMark): void => {
  if (mark.kind === 'descriptors') {
    within(`${field}.toeHeel`, mark.toeHeel, PLACE);
    within(`${field}.rootFace`, mark.rootFace, PLACE);
    if (mark.length !== null) within(`${field}.length`, mark.length, EXTENT);
    if (mark.height !== null) within(`${field}.height`, mark.height, EXTENT);
    return;
  }
  if (mark.kind === 'outline') {
    const { length } = mark.outline;
    if (length < 3 || length > MOST_CORNERS) {
      throw new ObservationError(`${field}.outline`, `${length} corners`, `3 to ${MOST_CORNERS} corners`);
    }
    mark.outline.forEach((corner, i) => {
      within(`${field}.outline[${i}][0]`, corner[0], { min: -1.5, max: 1.5 });
      within(`${field}.outline[${i}][1]`, corner[1], { min: -1.5, max: 1.5 });
    });
    if (!measuresOf(mark)) {
      throw new ObservationError(
        `${field}.outline`,
        'no area on the flank',
        'an outline round some of the flank',
      );
    }
    return;
  }
  const { columns, rows, data } = mark;
  for (const [name, count] of [
    ['columns', columns],
    ['rows', rows],
  ] as const) {
    if (!(Number.isInteger(count) && count >= 4 && count <= 1000)) {
      throw new ObservationError(`${field}.mask.${name}`, count, 'a whole number from 4 to 1000');
    }
  }
  if (columns * rows > MOST_CELLS || data.length !== columns * rows) {
    throw new ObservationError(
      `${field}.mask.data`,
      `${data.length} cells`,
      `columns times rows cells (${columns * rows}), at most ${MOST_CELLS}`,
    );
  }
  if (!measuresOf(mark)) {
    throw new ObservationError(`${field}.mask.data`, 'nothing marked', 'at least one marked cell');
  }
};

/** @throws ObservationError for the first thing that cannot be used */
export const checkObservation = (seen: Observation): void => {
  if (!seen.drive && !seen.coast) {
    throw new ObservationError('drive', 'missing', 'a mark on the drive flank, the coast flank or both');
  }
  for (const flank of FLANKS) {
    const mark = seen[flank];
    if (mark) checkMark(flank, mark);
  }
  if (seen.backlash.length > MOST_READINGS) {
    throw new ObservationError(
      'backlash_mm',
      `${seen.backlash.length} readings`,
      `at most ${MOST_READINGS} readings`,
    );
  }
  seen.backlash.forEach((reading, i) => {
    within(`backlash_mm[${i}]`, reading, READING, ' mm');
  });
  within('uncertainty.patch', seen.uncertainty.patch, PATCH_SD);
  within('uncertainty.backlash_mm', seen.uncertainty.backlash, DIAL_SD, ' mm');
  if (seen.film !== null) within('film_mm', seen.film, FILM, ' mm');
};
