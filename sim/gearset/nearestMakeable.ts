import type { GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';
import { buildGearMesh } from './gearMesh.ts';

/** A number of the gear set that may be changed, with what it may be. */
export interface MendableField {
  /** dotted path in the definition */
  readonly path: string;
  readonly min: number;
  readonly max: number;
  /** the answer is a multiple of it where one will do */
  readonly step: number;
  readonly integer?: boolean | undefined;
}

/** The nearest value with which the set can be made, everything else as it is. */
export interface Mend {
  readonly path: string;
  readonly from: number;
  readonly to: number;
}

const numberAt = (definition: GearSetDefinition, path: string): number => {
  const value = path
    .split('.')
    .reduce<unknown>((node, key) => (node as Record<string, unknown> | undefined)?.[key], definition);
  return typeof value === 'number' ? value : Number.NaN;
};

/** The same definition with another number at `path`; a path that leads nowhere changes nothing. */
export const withNumberAt = (
  definition: GearSetDefinition,
  path: string,
  value: number,
): GearSetDefinition => {
  const place = (node: Readonly<Record<string, unknown>>, [key, ...rest]: readonly string[]): object => {
    const below = node[key];
    if (rest.length === 0) return typeof below === 'number' ? { ...node, [key]: value } : node;
    if (typeof below !== 'object' || below === null) return node;
    return { ...node, [key]: place(below as Readonly<Record<string, unknown>>, rest) };
  };
  return place({ ...definition }, path.split('.')) as GearSetDefinition;
};

const buildable = (definition: GearSetDefinition): boolean => {
  try {
    buildGearMesh(definition);
    return true;
  } catch (error) {
    if (error instanceof UnmakeableError) return false;
    throw error;
  }
};

/** The walk outward begins with one step of the field: how strides grow, how many at most. */
const GROWTH = 1.5;
const MOST_STRIDES = 40;

/**
 * Looks for the nearest makeable value of one field, upward and downward by growing strides within its range, then
 * narrows the edge by bisection to one step of the field (docs/model.md §1). Yields before each try, which builds the
 * set; stopping the iteration cancels. Returns null when no stride of the walk can be made, or when the field is not in
 * the definition; what can be made between two strides that cannot is not seen.
 */
export function* walkToMakeable(
  definition: GearSetDefinition,
  { path, min, max, step, integer }: MendableField,
  canBeMade: (definition: GearSetDefinition) => boolean = buildable,
): Generator<void, Mend | null, void> {
  const from = numberAt(definition, path);
  if (!Number.isFinite(from)) return null;
  const least = integer ? 1 : step;
  function* works(value: number): Generator<void, boolean, void> {
    yield;
    return canBeMade(withNumberAt(definition, path, value));
  }

  /** From one that cannot be made to one that can, the near edge of the latter. */
  function* edge(bad: number, good: number): Generator<void, number, void> {
    let [outside, inside] = [bad, good];
    while (Math.abs(inside - outside) > least) {
      const middle = integer ? Math.round(0.5 * (outside + inside)) : 0.5 * (outside + inside);
      if (yield* works(middle)) inside = middle;
      else outside = middle;
    }
    // A round number is kinder to whoever reads it: the one before the edge, else the one behind it.
    const multiple = (count: number): number => Number((count * least).toPrecision(12));
    const away = Math.sign(inside - bad);
    const before = Math.round(inside / least - 0.5 * away);
    for (const rounded of [before, before + away].map(multiple)) {
      const isBeyond = (rounded - outside) * away > 0;
      if (isBeyond && rounded >= min && rounded <= max && (yield* works(rounded))) return rounded;
    }
    return inside;
  }

  const start = clampTo(from, min, max);
  if (start !== from && (yield* works(start))) return { path, from, to: start };
  let offset = 0;
  let stride = least;
  const last = { up: start, down: start };
  for (let k = 0; k < MOST_STRIDES; k++) {
    offset += stride;
    stride = integer ? Math.max(1, Math.round(stride * GROWTH)) : stride * GROWTH;
    const found: number[] = [];
    for (const [side, sense] of SIDES) {
      const value = clampTo(start + sense * offset, min, max);
      if (value === last[side]) continue;
      if (yield* works(value)) found.push(yield* edge(last[side], value));
      last[side] = value;
    }
    if (found.length > 0) {
      found.sort((a, b) => Math.abs(a - from) - Math.abs(b - from));
      return { path, from, to: found[0] };
    }
    if (last.up === max && last.down === min) return null;
  }
  return null;
}

const SIDES = [
  ['up', 1],
  ['down', -1],
] as const;

const clampTo = (value: number, min: number, max: number): number => Math.min(max, Math.max(min, value));

/** `walkToMakeable` in one go. */
export const findNearestMakeable = (
  definition: GearSetDefinition,
  field: MendableField,
  canBeMade?: (definition: GearSetDefinition) => boolean,
): Mend | null => {
  const walk = walkToMakeable(definition, field, canBeMade);
  for (;;) {
    const step = walk.next();
    if (step.done) return step.value;
  }
};
