import * as z from 'zod/mini';
import {
  AXLE_FILE_FORMAT,
  AXLE_FILE_VERSION,
  AXLE_KEY,
  type AxleFile,
  axleFileJson,
} from './axleFileForm.ts';
import { duplicateKeys } from './duplicateKeys.ts';
import { own } from './field.ts';
import { type Parsed, type Problem, valueWords } from './problem.ts';
import { parseAxle } from './schema.ts';

/** Characters; a written axle has about 3000. */
const LONGEST_AXLE_FILE = 100_000;

const FIELDS = ['format', 'version', 'key', 'axle'] as const;

const ALLOWED: Readonly<Record<(typeof FIELDS)[number], string>> = {
  format: `"${AXLE_FILE_FORMAT}"`,
  version: `a whole number from 1 to ${AXLE_FILE_VERSION}; a newer one needs a newer Meshwitness`,
  key: 'eight small letters or digits',
  axle: 'an axle',
};

const envelope = z.strictObject({
  format: z.literal(AXLE_FILE_FORMAT),
  version: z.number().check(z.gte(1), z.lte(AXLE_FILE_VERSION), z.multipleOf(1)),
  key: z.string().check(z.regex(AXLE_KEY)),
  axle: z.unknown(),
});

/** The text of an axle file, as it is saved. */
export const writeAxleFile = (file: AxleFile): string => `${JSON.stringify(axleFileJson(file), null, 2)}\n`;

/** The axle in a file, or every problem in it. Nothing is filled in, nothing is passed over. */
export function readAxleFile(text: string): Parsed<AxleFile> {
  if (text.length > LONGEST_AXLE_FILE) {
    const allowed = `at most ${LONGEST_AXLE_FILE} characters`;
    return refuse({ field: '', value: `${text.length} characters`, allowed });
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const value = `not JSON (${error instanceof Error ? error.message : String(error)})`;
    return refuse({ field: '', value, allowed: 'an axle file as Meshwitness exports it' });
  }
  const twice = duplicateKeys(text);
  if (twice.length > 0) {
    const problems = twice.map((field) => ({ field, value: 'stands twice', allowed: 'once' }));
    return { ok: false, problems };
  }
  return parseAxleFile(json);
}

/** As `readAxleFile`, from parsed JSON. */
export function parseAxleFile(json: unknown): Parsed<AxleFile> {
  const checked = envelope.safeParse(json);
  if (!checked.success) {
    return { ok: false, problems: checked.error.issues.flatMap((issue) => envelopeProblems(issue, json)) };
  }
  const axle = parseAxle(checked.data.axle);
  if (axle.ok) return { ok: true, value: { key: checked.data.key, axle: axle.value } };
  return {
    ok: false,
    problems: axle.problems.map((problem) => ({
      ...problem,
      field: problem.field === '' ? 'axle' : `axle.${problem.field}`,
    })),
  };
}

const refuse = (problem: Problem): Parsed<never> => ({ ok: false, problems: [problem] });

function envelopeProblems(issue: z.core.$ZodIssue, json: unknown): readonly Problem[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      field: key,
      value: valueWords(own(json, key)),
      allowed: `no field of this name; the fields here are ${FIELDS.join(', ')}`,
    }));
  }
  const field = FIELDS.find((name) => name === issue.path[0]);
  return field === undefined
    ? [{ field: '', value: valueWords(json), allowed: `an object with the fields ${FIELDS.join(', ')}` }]
    : [{ field, value: valueWords(own(json, field)), allowed: ALLOWED[field] }];
}
