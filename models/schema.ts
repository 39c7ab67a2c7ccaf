import * as z from 'zod/mini';
import type { GearSetDefinition } from '../sim/gearset/definition.ts';
import type { AxleDefinition } from './axle.ts';
import { AXLE_FIELDS } from './axleFields.ts';
import { allowedWords, type FieldGroup, type FieldNode, nodeAt, own } from './field.ts';
import { GEAR_SET_FIELDS } from './gearSetFields.ts';
import { type Parsed, type Problem, valueWords } from './problem.ts';

/** The zod schema of a descriptor: the only place where descriptors become checks. */
function schemaOf(node: FieldNode): z.ZodMiniType {
  switch (node.kind) {
    case 'number': {
      const { min, max, leastMagnitude = 0 } = node;
      const ranged = z.number().check(z.gte(min), z.lte(max));
      const whole = node.integer ? ranged.check(z.multipleOf(1)) : ranged;
      const schema = leastMagnitude > 0 ? whole.check(z.refine((x) => Math.abs(x) >= leastMagnitude)) : whole;
      return node.optional ? z.optional(schema) : schema;
    }
    case 'choice':
      return z.enum(node.choices);
    case 'text':
      return z.string().check(z.minLength(1), z.maxLength(node.longest));
    case 'flag':
      return z.boolean();
    case 'group':
      return groupSchema(node);
    case 'variants': {
      const options = Object.entries(node.cases).map(([value, group]) =>
        groupSchema(group, { [node.by]: z.literal(value) }),
      );
      const [first, ...rest] = options;
      return z.discriminatedUnion(node.by, [first, ...rest]);
    }
  }
}

const groupSchema = (group: FieldGroup, first: Record<string, z.ZodMiniType> = {}) =>
  z.strictObject({
    ...first,
    ...Object.fromEntries(Object.entries(group.fields).map(([key, child]) => [key, schemaOf(child)])),
  });

const gearSetSchema = schemaOf(GEAR_SET_FIELDS);
const axleSchema = schemaOf(AXLE_FIELDS);

const keysAllowed = (node: FieldNode | null, json: unknown): string => {
  if (node?.kind === 'variants') {
    const chosen = node.cases[String(own(json, node.by))];
    return [node.by, ...Object.keys(chosen?.fields ?? {})].join(', ');
  }
  return node?.kind === 'group' ? Object.keys(node.fields).join(', ') : '';
};

const valueAt = (json: unknown, path: readonly string[]): unknown => path.reduce<unknown>(own, json);

/** zod's issues in our own words: every issue is answered by the descriptor at its path. */
function problemsOf(issues: readonly z.core.$ZodIssue[], root: FieldNode, json: unknown): readonly Problem[] {
  return issues.flatMap((issue): readonly Problem[] => {
    const path = issue.path.map(String);
    const node = nodeAt(root, path, json);
    if (issue.code === 'unrecognized_keys') {
      const within = valueAt(json, path);
      return issue.keys.map((key) => ({
        field: [...path, key].join('.'),
        value: valueWords(own(within, key)),
        allowed: `no field of this name; the fields here are ${keysAllowed(node, within)}`,
      }));
    }
    return [
      {
        field: path.join('.'),
        value: valueWords(valueAt(json, path)),
        allowed: node === null ? 'no field of this name' : allowedWords(node),
      },
    ];
  });
}

const prefixed = (prefix: string, problems: readonly Problem[]): readonly Problem[] =>
  problems.map((problem) => ({
    ...problem,
    field: [prefix, problem.field].filter((part) => part !== '').join('.'),
  }));

/** What one descriptor cannot say: fields that bind each other. */
function gearSetCrossProblems(gearset: GearSetDefinition): readonly Problem[] {
  if (gearset.cut.method === 'face-hobbed' && gearset.tooth.depthTaper !== 0) {
    return [
      {
        field: 'tooth.depthTaper',
        value: valueWords(gearset.tooth.depthTaper),
        allowed: '0 with cut.method "face-hobbed" (uniform depth)',
      },
    ];
  }
  return [];
}

const notAbove = (low: readonly [string, number], high: readonly [string, number]): readonly Problem[] =>
  low[1] <= high[1]
    ? []
    : [{ field: low[0], value: valueWords(low[1]), allowed: `not more than ${high[0]} (${high[1]})` }];

function axleCrossProblems(axle: AxleDefinition): readonly Problem[] {
  const { limits, pinionShim, sides, spacer } = axle;
  const order = (path: string, low: string, high: string, of: Readonly<Record<string, unknown>>) =>
    notAbove([`${path}.${low}`, Number(of[low])], [`${path}.${high}`, Number(of[high])]);
  const side = (path: string, device: AxleDefinition['sides']['ringSide']) =>
    device.kind === 'adjuster'
      ? [
          ...order(path, 'design', 'mostNotches', { ...device }),
          ...order(path, 'fitted', 'mostNotches', { ...device }),
        ]
      : order(`${path}.stock`, 'thinnest', 'thickest', { ...device.stock });
  return [
    ...order('pinionShim.stock', 'thinnest', 'thickest', { ...pinionShim.stock }),
    ...side('sides.ringSide', sides.ringSide),
    ...side('sides.oppositeSide', sides.oppositeSide),
    ...(spacer.kind === 'solid-spacer'
      ? order('spacer.stock', 'thinnest', 'thickest', { ...spacer.stock })
      : []),
    ...order('limits.backlash', 'min', 'max', { ...limits.backlash }),
    ...order('limits.pinionTorque', 'min_Nm', 'max_Nm', { ...limits.pinionTorque }),
    ...order('limits.carrierPreload', 'min_Nm', 'max_Nm', { ...limits.carrierPreload }),
  ];
}

function parse<T>(
  schema: z.ZodMiniType,
  root: FieldNode,
  json: unknown,
  cross: (value: T) => readonly Problem[],
): Parsed<T> {
  const result = schema.safeParse(json);
  if (!result.success) return { ok: false, problems: problemsOf(result.error.issues, root, json) };
  // The descriptors are typed by T (NodeOf<T>), and the schema is made of them.
  const value = result.data as T;
  const problems = cross(value);
  return problems.length === 0 ? { ok: true, value } : { ok: false, problems };
}

/** A gear set from parsed JSON (docs/model.md §1), or every problem in it. Nothing is filled in. */
export const parseGearSet = (json: unknown): Parsed<GearSetDefinition> =>
  parse(gearSetSchema, GEAR_SET_FIELDS, json, gearSetCrossProblems);

/** A whole axle from parsed JSON, or every problem in it. Nothing is filled in. */
export const parseAxle = (json: unknown): Parsed<AxleDefinition> =>
  parse<AxleDefinition>(axleSchema, AXLE_FIELDS, json, (axle) => [
    ...prefixed('gearset', gearSetCrossProblems(axle.gearset)),
    ...axleCrossProblems(axle),
  ]);

export interface GearSetFile {
  readonly gearset: GearSetDefinition;
  /** mm; null when the file names none */
  readonly film: number | null;
  /** null when the file names none */
  readonly hand: AxleDefinition['hand'] | null;
  readonly name: string | null;
  /** where the gear set stands in the file: '' or 'gearset' */
  readonly prefix: '' | 'gearset';
}

/**
 * The gear set of a file that is either a bare gear set or an axle (or part of one) holding it as `gearset`.
 * Other parts of an axle need not be there, but what is there must be right.
 */
export function parseGearSetFile(json: unknown): Parsed<GearSetFile> {
  if (own(json, 'gearset') === undefined) {
    const bare = parseGearSet(json);
    return bare.ok
      ? { ok: true, value: { gearset: bare.value, film: null, hand: null, name: null, prefix: '' } }
      : bare;
  }
  const present = Object.fromEntries(
    Object.entries(AXLE_FIELDS.fields).filter(([key]) => own(json, key) !== undefined),
  );
  const root: FieldGroup = { kind: 'group', fields: present };
  const checked = groupSchema(root).safeParse(json);
  if (!checked.success) {
    const problems = problemsOf(checked.error.issues, AXLE_FIELDS, json);
    return { ok: false, problems };
  }
  const axle = checked.data as Partial<AxleDefinition> & Pick<AxleDefinition, 'gearset'>;
  const cross = prefixed('gearset', gearSetCrossProblems(axle.gearset));
  if (cross.length > 0) return { ok: false, problems: cross };
  const { gearset, film_mm: film = null, hand = null, name = null } = axle;
  return { ok: true, value: { gearset, film, hand, name, prefix: 'gearset' } };
}
