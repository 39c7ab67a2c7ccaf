import type { GearSetDefinition } from '../../../sim/gearset/definition.ts';
import { compareWithOracle, drawPose, type Misses, noMisses } from '../../support/oracleAgreement.ts';
import { seededRandom } from '../../support/random.ts';
import { drawMakeableMesh } from '../../support/randomGearSet.ts';
import { namedSet } from '../solve.ts';
import { blocks, fixed, largest, quantile, table } from '../text.ts';

const POSES_PER_SET = 10;
const POSE_SEED = 1207;
const NODES = 12;
const LIMIT_MICROMETRES = 1;

const randomDefinition = (seed: number, method: GearSetDefinition['cut']['method']): GearSetDefinition =>
  drawMakeableMesh(seededRandom(seed), method).definition;

const comparedSets = (): ReadonlyArray<readonly [string, GearSetDefinition]> => [
  ...['Set a', 'Set b', 'Borrin', 'Cavel'].map((label) => [label, namedSet(label).definition] as const),
  ['random, seed 72', randomDefinition(72, 'face-milled')],
  ['random, seed 73', randomDefinition(73, 'face-hobbed')],
];

const worst = (misses: readonly number[]): string => (misses.length === 0 ? '–' : fixed(largest(misses), 2));
const high = (misses: readonly number[]): string =>
  misses.length === 0 ? '–' : fixed(quantile(misses, 0.95), 2);

const cells = (misses: Misses): string[] => [
  String(misses.separation.length),
  worst(misses.separation),
  high(misses.separation),
  String(misses.backlash.length),
  worst(misses.backlash),
  high(misses.backlash),
  worst(misses.rollingShortfall),
  high(misses.rollingShortfall),
];

const borderCells = (misses: Misses): string[] => [
  String(misses.separationAtBorder.length),
  worst(misses.separationAtBorder),
  String(misses.backlashAtBorder.length),
  worst(misses.backlashAtBorder),
];

const add = (into: Misses, from: Misses): void => {
  for (const key of Object.keys(into) as Array<keyof Misses>) into[key].push(...from[key]);
};

/** The explicit solver against the brute-force contact search: the full table. */
export const oracleAgreementSection = (progress: (what: string) => void): string => {
  const all = noMisses();
  const found = comparedSets().map(([label, definition]) => {
    progress(`brute-force contact search: ${label}`);
    const random = seededRandom(POSE_SEED);
    const poses = Array.from({ length: POSES_PER_SET }, () => drawPose(random));
    const misses = compareWithOracle(definition, poses, random, {
      points: { u: 201, v: 81 },
      nodes: NODES,
      rolling: true,
    });
    add(all, misses);
    return { name: `${label}, ${definition.cut.method}`, misses };
  });
  const total = `all ${found.length * POSES_PER_SET} poses`;
  const within = [...all.separation, ...all.backlash].filter((miss) => miss < LIMIT_MICROMETRES).length;
  const compared = all.separation.length + all.backlash.length;
  return blocks([
    '## Agreement with the brute-force contact search',
    `\`tests/oracle/\` turns the ring until the first of 201 × 81 flank points touches the pinion, without the closed form of the solver and without its code ([model.md §10](model.md#10-the-independent-check)). ${POSES_PER_SET} seeded poses per set (seed ${POSE_SEED}): pinion and ring within ±0.25 mm, offset within ±0.15 mm, shaft angle within ±0.08°. Separation is compared at ${NODES} random nodes per flank and pose that come within 40 µm of touching, with the ring held at the node's own phase. For backlash the ring is rocked at the same pinion angles, 16 per pitch, and read square at the heel. All in µm.`,
    table(
      [
        'Set',
        'separations',
        'max',
        '95 %',
        'rockings',
        'max',
        '95 %',
        'rolling shortfall, max',
        'rolling shortfall, 95 %',
      ],
      [...found.map(({ name, misses }) => [name, ...cells(misses)]), [total, ...cells(all)]],
    ),
    `${within} of ${compared} comparisons are within ${LIMIT_MICROMETRES} µm.`,
    '**First touch on a flank border, apart.** Where the first touch of the search lies on a border, the teeth bear on an edge. The explicit form knows only points whose normals agree and cannot see that, so these are counted by themselves: a difference here can be real edge contact.',
    table(
      ['Set', 'separations held by a border', 'max', 'rockings on a border', 'max'],
      [...found.map(({ name, misses }) => [name, ...borderCells(misses)]), [total, ...borderCells(all)]],
    ),
    "**Rolling shortfall** is how much less the true least distance of a whole rolling pass is than the separation of the definition. It is a property of the definition, not an error of the solver. The separation is taken at the one phase where a point's normal passes its partner's, as if the touch stood still. While the pair rolls, the motion error and the slope of the ease-off move the nearest place a little along the roll. Each of the two is small, and the loss is second order in them: it is nothing at the touch itself and grows toward the far side of the compared zone. Against the film of 6 µm and the taper of a mark's border it is small, and it makes a mark slightly larger than drawn, never smaller.",
  ]);
};
