import type { AxleDefinition } from '../../models/axle.ts';
import { AXLES, isAxleId } from '../../models/index.ts';
import { problemLine, valueWords } from '../../models/problem.ts';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { adviseFrom } from '../../sim/diagnose/adviseFrom.ts';
import { diagnose } from '../../sim/diagnose/diagnose.ts';
import { ObservationError } from '../../sim/diagnose/errors.ts';
import { ForwardModel } from '../../sim/diagnose/forwardModel.ts';
import type { Regime } from '../../sim/diagnose/unknowns.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import type { CommandLine } from './options.ts';
import { parseJson, readText } from './readJson.ts';
import { readObservation } from './readObservation.ts';
import { Refusal, refuse } from './refusal.ts';
import { roundNumbers } from './round.ts';
import { readSource, type Source } from './source.ts';
import { naming } from './unmakeable.ts';

export const MATCH_OPTIONS = ['gearset', 'axle', 'observed', 'set'] as const;

const MOST_BYTES = 50_000_000;
const ALLOWED = 'a readable file with one observation as JSON, or one a line';

/** From observations to assembly errors: one JSON object a line, in order. @throws Refusal */
export function match(line: CommandLine): string {
  const regime = readRegime(line);
  const path = line.options.get('observed');
  if (path === undefined) return refuse('--observed', 'missing', '--observed=FILE');
  const source = readSource(line);
  const text = readText('--observed', path, ALLOWED, MOST_BYTES);
  const model = naming(source.prefix, () => new ForwardModel(buildGearMesh(source.gearset), source.film));
  const against = { model, source, regime, axle: axleOf(line) };
  const lines = linesOf(text);
  const answers = lines
    ? lines.map((one) => attempt(() => answer(JSON.parse(one), against)))
    : [answer(parseJson('--observed', path, text, ALLOWED), against)];
  return answers.map((one) => `${JSON.stringify(roundNumbers(one))}\n`).join('');
}

/** Lines of a file that holds one observation a line; null for a single one, however it is broken up. */
function linesOf(text: string): readonly string[] | null {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r?\n/)
    .filter((one) => one.trim() !== '');
  if (lines.length < 2) return null;
  try {
    JSON.parse(text);
    return null;
  } catch {
    // An object over several lines that is damaged has lines that start with a quote or a bracket.
    return lines.some((one) => isJson(one)) || lines.every((one) => one.trimStart().startsWith('{'))
      ? lines
      : null;
  }
}

const isJson = (text: string): boolean => {
  try {
    return typeof JSON.parse(text) === 'object';
  } catch {
    return false;
  }
};

function readRegime(line: CommandLine): Regime {
  const text = line.options.get('set') ?? 'known';
  return text === 'known' || text === 'unknown'
    ? text
    : refuse('--set', valueWords(text), 'known or unknown');
}

/** What one line of a file answers; a line that cannot be used answers with its error. */
function attempt(work: () => object): object {
  try {
    return work();
  } catch (error) {
    if (error instanceof Refusal) return { error: problemLine(error.problem) };
    if (error instanceof SyntaxError) {
      return {
        error: problemLine({ field: 'observation', value: 'damaged', allowed: 'one JSON object a line' }),
      };
    }
    throw error;
  }
}

/** The practice axle of the command, null for a gear set from a file. */
function axleOf(line: CommandLine): AxleDefinition | null {
  const id = line.options.get('axle')?.toLowerCase();
  return id !== undefined && isAxleId(id) ? AXLES[id] : null;
}

/** What one observation is held against. */
interface Against {
  readonly model: ForwardModel;
  readonly source: Source;
  readonly regime: Regime;
  readonly axle: AxleDefinition | null;
}

/** @throws Refusal */
function answer(json: unknown, { model, source, regime, axle }: Against): object {
  const seen = readObservation(json);
  return refusing(() => {
    const { film } = source;
    const found = diagnose(model, seen, { regime, film });
    const { posterior: _, ...told } = found;
    if (!axle) return told;
    const { limits } = axle;
    const advice = adviseFrom(model, seen, found, {
      hardware: axle,
      present: fittedNow(axle),
      limits: limits.backlash,
      film,
      recorded: null,
    });
    return { ...told, advice };
  });
}

/** What the diagnosis cannot use becomes a refusal. */
function refusing<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof ObservationError) return refuse(error.field, error.value, error.allowed);
    throw error;
  }
}
