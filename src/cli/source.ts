import { REFERENCE_FILM_MM } from '../../models/axleFields.ts';
import { AXLE_IDS, AXLES, isAxleId } from '../../models/index.ts';
import { valueWords } from '../../models/problem.ts';
import { parseGearSetFile } from '../../models/schema.ts';
import type { Hand } from '../../sim/assembly/hardware.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';
import type { CommandLine } from './options.ts';
import { readJson } from './readJson.ts';
import { Refusal, refuse } from './refusal.ts';

/** The gear set a command works on. */
export interface Source {
  readonly gearset: GearSetDefinition;
  readonly name: string | null;
  readonly hand: Hand;
  /** mm, of the axle; the reference film where none is named */
  readonly film: number;
  /** where the gear set stands in its file, for naming fields: '' or 'gearset' */
  readonly prefix: string;
}

/** @throws Refusal unless exactly one of --gearset and --axle names something usable */
export function readSource(line: CommandLine): Source {
  const file = line.options.get('gearset');
  const axle = line.options.get('axle');
  if (file !== undefined && axle !== undefined) {
    refuse('--axle', valueWords(axle), 'not together with --gearset: give one of the two');
  }
  if (file !== undefined) return fromFile(file);
  if (axle !== undefined) return fromAxle(axle);
  return refuse('--gearset', 'missing', `--gearset=FILE, or --axle=NAME with one of ${AXLE_IDS.join(', ')}`);
}

function fromAxle(text: string): Source {
  const id = text.toLowerCase();
  if (!isAxleId(id)) return refuse('--axle', valueWords(text), `one of ${AXLE_IDS.join(', ')}`);
  const { gearset, name, hand, film_mm: film } = AXLES[id];
  return { gearset, name, hand, film, prefix: 'gearset' };
}

function fromFile(path: string): Source {
  const parsed = parseGearSetFile(readJson('--gearset', path));
  if (!parsed.ok) {
    const [first, ...more] = parsed.problems;
    throw new Refusal(first.field === '' ? { ...first, field: '--gearset' } : first, more.length);
  }
  const { gearset, name, hand, film, prefix } = parsed.value;
  return { gearset, name, hand: hand ?? 'standard-cut', film: film ?? REFERENCE_FILM_MM, prefix };
}
