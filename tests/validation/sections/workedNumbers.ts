import { FLANKS } from '../../../sim/gearset/definition.ts';
import type { NamedSet } from '../../support/namedSets.ts';
import { workedNumbers } from '../../support/referenceSets.ts';
import {
  allCompared,
  type Compared,
  type ComparedPose,
  compareGeometry,
  comparePoses,
  deviation,
  TOLERANCE_IN_WORDS,
} from '../../support/workedComparison.ts';
import { poseInWords } from '../poseText.ts';
import { meshOf, namedSet } from '../solve.ts';
import { blocks, fixed, largest, table } from '../text.ts';

const DIGITS: Readonly<Record<string, number>> = { transmissionError: 2 };
const digitsOf = (field: string): number => DIGITS[field] ?? 4;

const worstRows = (compared: readonly Compared[]): string[][] =>
  [...new Set(compared.map(({ field }) => field))].map((field) => {
    const of = compared.filter((item) => item.field === field);
    const inside = of.filter((item) => deviation(item) < item.tolerance).length;
    return [
      `\`${field}\``,
      fixed(largest(of.map(deviation)), digitsOf(field)),
      TOLERANCE_IN_WORDS[field] ?? '',
      `${inside} of ${of.length}`,
    ];
  });

const pair = ({ computed, worked, field }: Compared): string => {
  const digits = field === 'transmissionError' ? 1 : field === 'normal' || field === 'tangential' ? 4 : 3;
  return `${fixed(computed, digits)} / ${fixed(worked, digits)}`;
};

const pick = (compared: readonly Compared[], field: string): string => {
  const found = compared.find((item) => item.field === field);
  return found ? pair(found) : '–';
};

const FLANK_FIELDS = ['toeHeel', 'rootFace', 'length', 'height', 'area', 'transmissionError'] as const;
const DIAL_FIELDS = ['normal', 'normalMean', 'normalRange', 'tangential', 'angle'] as const;

const flankTable = (poses: readonly ComparedPose[]): string =>
  table(
    ['Pose', 'Flank', ...FLANK_FIELDS, 'edges'],
    poses.flatMap(({ pose, flanks, edges }) =>
      FLANKS.map((flank) => [
        poseInWords(pose),
        flank,
        ...FLANK_FIELDS.map((field) => pick(flanks[flank], field)),
        `${edges[flank].computed || 'none'} / ${edges[flank].worked || 'none'}`,
      ]),
    ),
  );

const dialTable = (poses: readonly ComparedPose[]): string =>
  table(
    ['Pose', ...DIAL_FIELDS],
    poses.map(({ pose, backlash }) => [
      poseInWords(pose),
      ...DIAL_FIELDS.map((field) => pick(backlash, field)),
    ]),
  );

const geometryTable = (compared: readonly Compared[]): string =>
  table(
    ['Geometry', 'computed', 'worked', 'deviation', 'tolerance'],
    compared.map((item) => [
      `\`${item.field}\``,
      fixed(item.computed, 4),
      fixed(item.worked, 4),
      fixed(deviation(item), 4),
      item.field.endsWith('Angle') ? '±0.01°' : '±0.01 mm',
    ]),
  );

const oneSet = (name: 'a' | 'b', set: NamedSet): string => {
  const mesh = meshOf(set);
  const worked = workedNumbers(name);
  const poses = comparePoses(mesh, worked);
  const edgesEqual = poses
    .flatMap(({ edges }) => FLANKS.map((flank) => edges[flank]))
    .filter(({ computed, worked: wanted }) => computed === wanted).length;
  return blocks([
    `### ${set.label}, ${set.definition.cut.method}`,
    `Worst deviation over ${poses.length} poses and both flanks:`,
    table(['Descriptor', 'worst deviation', 'tolerance', 'within'], worstRows(poses.flatMap(allCompared))),
    `Edges reached are the same on ${edgesEqual} of ${2 * poses.length} flanks.`,
    'Each pose, computed / worked; transmission error in µrad:',
    flankTable(poses),
    'Dial readings, computed / worked, mm; the angle in degrees:',
    dialTable(poses),
    geometryTable(compareGeometry(mesh, worked)),
  ]);
};

/** Worked numbers of both reference sets against the solver, pose by pose. */
export const workedNumbersSection = (): string =>
  blocks([
    '## Worked numbers',
    'Two sets were worked through by an independent program, nine poses each. It gives four decimals; tolerances are those of [model.md §8](model.md#8-what-must-come-out).',
    oneSet('a', namedSet('Set a')),
    oneSet('b', namedSet('Set b')),
  ]);
