/** Units as files and screens write them. `none` for counts and pure ratios. */
export type FieldUnit = 'mm' | 'µm' | 'degrees' | 'N·m' | 'none';

export interface NumberField {
  readonly kind: 'number';
  /** plain words; the text catalogue may translate by the field's path */
  readonly label: string;
  readonly unit: FieldUnit;
  readonly min: number;
  readonly max: number;
  /** where a form starts; never filled in silently for a file */
  readonly default: number;
  /** sensible step of a control */
  readonly step: number;
  readonly integer?: true;
  /** may be left out */
  readonly optional?: true;
  /** the magnitude may not be less: keeps a signed field off zero */
  readonly leastMagnitude?: number;
}

export interface ChoiceField<T extends string = string> {
  readonly kind: 'choice';
  readonly label: string;
  readonly choices: readonly T[];
  readonly default: T;
}

export interface TextField {
  readonly kind: 'text';
  readonly label: string;
  readonly default: string;
  readonly longest: number;
}

export interface FlagField {
  readonly kind: 'flag';
  readonly label: string;
  readonly default: boolean;
}

export type Field = NumberField | ChoiceField | TextField | FlagField;

/** Alternatives told apart by the text in the field `by`. */
export interface Variants {
  readonly kind: 'variants';
  readonly label: string;
  readonly by: string;
  readonly default: string;
  readonly cases: Readonly<Record<string, FieldGroup>>;
}

export interface FieldGroup {
  readonly kind: 'group';
  readonly fields: Readonly<Record<string, FieldNode>>;
}

export type FieldNode = Field | FieldGroup | Variants;

type IsUnion<T, U = T> = T extends unknown ? ([U] extends [T] ? false : true) : never;

/** The member of the union `T` whose `By` may be `V`. */
type MemberFor<T, By extends PropertyKey, V> = T extends { readonly [K in By]: infer W }
  ? V extends W
    ? T
    : never
  : never;

type NodesOf<T, Without extends PropertyKey = never> = {
  readonly [K in Exclude<keyof T, Without>]-?: NodeOf<Exclude<T[K], undefined>>;
};

interface GroupOf<T, Without extends PropertyKey = never> extends FieldGroup {
  readonly fields: NodesOf<T, Without>;
}

interface VariantsOf<T, By extends string> extends Variants {
  readonly by: By;
  readonly default: Tag<T, By>;
  readonly cases: { readonly [V in Tag<T, By>]: GroupOf<MemberFor<T, By, V>, By> };
}

type Tag<T, By extends string> = T extends { readonly [K in By]: infer V extends string } ? V : never;

/** The descriptors a definition type needs: a missing, extra or mistyped descriptor does not compile. */
export type NodeOf<T> = [T] extends [number]
  ? NumberField
  : [T] extends [boolean]
    ? FlagField
    : [T] extends [string]
      ? string extends T
        ? TextField
        : ChoiceField<T>
      : true extends IsUnion<T>
        ? 'method' extends keyof T
          ? VariantsOf<T, 'method'>
          : VariantsOf<T, 'kind'>
        : GroupOf<T>;

export const numberField = (
  label: string,
  unit: FieldUnit,
  [min, max]: readonly [min: number, max: number],
  start: number,
  step: number,
  more: Partial<Pick<NumberField, 'integer' | 'optional' | 'leastMagnitude'>> = {},
): NumberField => ({ kind: 'number', label, unit, min, max, default: start, step, ...more });

/** A choice among all values of `T`: a record, so that a forgotten one does not compile. */
export const choiceField = <T extends string>(
  label: string,
  all: Readonly<Record<T, true>>,
  start: NoInfer<T>,
): ChoiceField<T> => ({ kind: 'choice', label, choices: Object.keys(all) as T[], default: start });

export interface ListedField {
  /** dotted, as in the file */
  readonly path: string;
  readonly field: Field;
  /** the variant it belongs to, as "path=value"; null outside variants */
  readonly variant: string | null;
}

/** Every field below `node`, in the order of the file, the choice of a variant before its fields. */
export function listFields(
  node: FieldNode,
  path = '',
  variant: string | null = null,
): readonly ListedField[] {
  const join = (key: string): string => (path === '' ? key : `${path}.${key}`);
  if (node.kind === 'group') {
    return Object.entries(node.fields).flatMap(([key, child]) => listFields(child, join(key), variant));
  }
  if (node.kind === 'variants') {
    const own = Object.entries(node.cases).flatMap(([value, group]) =>
      listFields(group, path, `${join(node.by)}=${value}`),
    );
    return [{ path: join(node.by), field: variantChoice(node), variant }, ...own];
  }
  return [{ path, field: node, variant }];
}

/** The field that chooses among variants, as a choice. */
const variantChoice = (node: Variants): ChoiceField => ({
  kind: 'choice',
  label: node.label,
  choices: Object.keys(node.cases),
  default: node.default,
});

/** The node at a path (array of keys); `json` picks the variant. Null when no such field exists. */
export function nodeAt(root: FieldNode, path: readonly string[], json: unknown): FieldNode | null {
  let node: FieldNode = root;
  let value: unknown = json;
  for (const key of path) {
    if (node.kind === 'variants') {
      if (key === node.by) return variantChoice(node);
      const chosen: unknown = own(value, node.by);
      if (typeof chosen !== 'string' || !Object.hasOwn(node.cases, chosen)) return null;
      node = node.cases[chosen];
    }
    if (node.kind !== 'group' || !Object.hasOwn(node.fields, key)) return null;
    node = node.fields[key];
    value = own(value, key);
  }
  return node;
}

/** An own property, never one inherited: files may hold any key. */
export const own = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string, unknown>)[key]
    : undefined;

/** A value made of every default; variants take their default case. */
export function defaultsOf(node: FieldNode): unknown {
  if (node.kind === 'group') {
    const entries = Object.entries(node.fields).filter(
      ([, child]) => !('optional' in child && child.optional),
    );
    return Object.fromEntries(entries.map(([key, child]) => [key, defaultsOf(child)]));
  }
  if (node.kind === 'variants') {
    return { [node.by]: node.default, ...(defaultsOf(node.cases[node.default]) as object) };
  }
  return node.default;
}

/** What a field takes, in words for an error: "a number from 60 to 1000 mm". */
export function allowedWords(node: FieldNode): string {
  switch (node.kind) {
    case 'number': {
      const unit = node.unit === 'none' ? '' : ` ${node.unit}`;
      const range = `${node.integer ? 'a whole number' : 'a number'} from ${node.min} to ${node.max}${unit}`;
      return node.leastMagnitude === undefined
        ? range
        : `${range}, not between ${-node.leastMagnitude} and ${node.leastMagnitude}`;
    }
    case 'choice':
      return `one of ${node.choices.map((choice) => JSON.stringify(choice)).join(', ')}`;
    case 'text':
      return `text of 1 to ${node.longest} characters`;
    case 'flag':
      return 'true or false';
    case 'group':
      return `an object with the fields ${Object.keys(node.fields).join(', ')}`;
    case 'variants':
      return `an object with the field ${node.by} (${allowedWords(variantChoice(node))})`;
  }
}
