import { oneLine, problemLine } from '../../models/problem.ts';
import { axles } from './axles.ts';
import { MATCH_OPTIONS, match } from './match.ts';
import { readCommandLine } from './options.ts';
import { plate } from './plate.ts';
import { SOLVE_OPTIONS } from './pose.ts';
import { Refusal } from './refusal.ts';
import { solve } from './solve.ts';
import { USAGE } from './usage.ts';

/** Where the command speaks; tests listen here. */
export interface Outlets {
  readonly out: (text: string) => void;
  readonly err: (line: string) => void;
  readonly writeFile: (path: string, text: string) => void;
}

const TAKES = { solve: SOLVE_OPTIONS, plate: [...SOLVE_OPTIONS, 'out'], match: MATCH_OPTIONS, axles: [] };

/** Runs one command; returns the exit code. Never throws: bad input is one line and 2, a fault of the program one line and 1. */
export function run(args: readonly string[], outlets: Outlets): 0 | 1 | 2 {
  try {
    outlets.out(answer(args, outlets));
    return 0;
  } catch (error) {
    if (error instanceof Refusal) {
      const rest =
        error.more === 0 ? '' : ` (and ${error.more} more ${error.more === 1 ? 'problem' : 'problems'})`;
      outlets.err(`${problemLine(error.problem)}${rest}\n`);
      return 2;
    }
    const words = error instanceof Error ? error.message : String(error);
    outlets.err(`mesh: a fault of the program, not of the input: ${oneLine(words, 200)}\n`);
    return 1;
  }
}

function answer(args: readonly string[], outlets: Outlets): string {
  const line = readCommandLine(args, TAKES);
  if (line.help) return USAGE;
  if (line.command === 'solve') return solve(line);
  if (line.command === 'plate') return plate(line, outlets.writeFile);
  if (line.command === 'match') return match(line);
  return axles();
}
