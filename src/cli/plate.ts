import { valueWords } from '../../models/problem.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import type { Outcome } from '../../sim/worker/protocol.ts';
import { CONTOUR_LEVELS } from '../flank/contourLevels.ts';
import { renderPlate } from '../flank/plate.ts';
import { createTranslate } from '../text/translate.ts';
import type { CommandLine } from './options.ts';
import { readFilm, readPose } from './pose.ts';
import { causeWords } from './readJson.ts';
import { Refusal, refuse } from './refusal.ts';
import { readSource } from './source.ts';

const COMPOUND = '#e3b21c';
const TITLE = 'Gear set';
const ID = 'plate';

/**
 * Both flank maps as SVG: returned for stdout, or written to --out (then nothing is returned).
 * @throws Refusal
 */
export function plate(line: CommandLine, writeFile: (path: string, text: string) => void): string {
  const out = line.options.get('out');
  if (out === '') refuse('--out', valueWords(out), 'a file to write');
  const pose = readPose(line);
  const source = readSource(line);
  const film = readFilm(line, source.film);
  const core = new MeshCore();
  const loaded = answered(core.load(ID, source.gearset), source.prefix);
  const result = answered(core.solve(ID, pose, film), source.prefix);
  const svg = renderPlate(result, loaded, {
    title: source.name ?? TITLE,
    hand: source.hand,
    compoundColour: COMPOUND,
    units: 'mm',
    contourLevels: CONTOUR_LEVELS,
    translate: createTranslate('en'),
  });
  if (out === undefined) return svg;
  try {
    writeFile(out, svg);
  } catch (error) {
    refuse('--out', valueWords(out), `a file that can be written; ${causeWords(error)}`);
  }
  return '';
}

/** @throws Refusal for a gear set that cannot be made, Error for anything unexpected */
function answered<T>(outcome: Outcome<T>, prefix: string): T {
  if (outcome.ok) return outcome.value;
  const { failure } = outcome;
  if (failure.kind === 'unmakeable' || failure.kind === 'bad-argument') {
    const field = prefix === '' ? failure.field : `${prefix}.${failure.field}`;
    throw new Refusal({ field, value: failure.value, allowed: failure.allowed });
  }
  throw new Error(failure.kind === 'internal' ? failure.message : failure.kind);
}
