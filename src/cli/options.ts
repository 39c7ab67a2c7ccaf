import { parseArgs } from 'node:util';
import { allowedWords, type NumberField } from '../../models/field.ts';
import { valueWords } from '../../models/problem.ts';
import { refuse } from './refusal.ts';

export interface CommandLine {
  readonly command: string | undefined;
  readonly help: boolean;
  /** options as written, without the dashes */
  readonly options: ReadonlyMap<string, string>;
}

const KNOWN = {
  help: { type: 'boolean', short: 'h' },
  gearset: { type: 'string' },
  axle: { type: 'string' },
  'pinion-in': { type: 'string' },
  'ring-away': { type: 'string' },
  'offset-error': { type: 'string' },
  'shaft-angle-error': { type: 'string' },
  film: { type: 'string' },
  out: { type: 'string' },
  observed: { type: 'string' },
  set: { type: 'string' },
} as const;

/** @throws Refusal for an option that is unknown, given twice, without its value, or does not belong to the command */
export function readCommandLine(
  args: readonly string[],
  takes: Readonly<Record<string, readonly string[]>>,
): CommandLine {
  const { tokens } = parseArgs({
    args: [...args],
    options: KNOWN,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  const options = new Map<string, string>();
  let help = false;
  for (const token of tokens) {
    if (token.kind === 'positional') words.push(token.value);
    if (token.kind !== 'option') continue;
    if (token.name === 'help') {
      if (token.value !== undefined) refuse('--help', valueWords(token.value), 'no value');
      help = true;
      continue;
    }
    const name = `--${token.name}`;
    if (!Object.hasOwn(KNOWN, token.name)) {
      refuse(token.rawName, 'unknown option', optionList(takes[words[0] ?? ''] ?? Object.keys(KNOWN)));
    }
    const { value } = token;
    // `--axle --film=0.01` would take the next option for a value
    if (value === undefined || (!token.inlineValue && value.startsWith('--'))) {
      refuse(name, 'missing', `a value, written ${name}=VALUE`);
    }
    if (options.has(token.name)) refuse(name, 'given twice', 'once');
    options.set(token.name, value);
  }
  const [command, ...extra] = words;
  const commands = Object.keys(takes);
  if (help) return { command, help, options };
  if (command === undefined) refuse('command', 'missing', `one of ${commands.join(', ')}, or --help`);
  if (!Object.hasOwn(takes, command)) {
    refuse('command', valueWords(command), `one of ${commands.join(', ')}, or --help`);
  }
  if (extra.length > 0)
    refuse(command, valueWords(extra[0]), 'no further words; a value is written --option=VALUE');
  for (const name of options.keys()) {
    if (!takes[command].includes(name))
      refuse(`--${name}`, `not an option of ${command}`, optionList(takes[command]));
  }
  return { command, help, options };
}

const optionList = (names: readonly string[]): string =>
  names.length === 0 ? 'no options' : `one of ${names.map((name) => `--${name}`).join(', ')}`;

/** A number option against its descriptor, in the descriptor's unit. @throws Refusal */
export function numberOption(line: CommandLine, name: string, field: NumberField): number | undefined {
  const text = line.options.get(name);
  if (text === undefined) return undefined;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  if (!(value >= field.min && value <= field.max)) {
    refuse(`--${name}`, valueWords(text), `${allowedWords(field)}, with a point as decimal mark`);
  }
  return value + 0;
}
