import { FLANKS, type FlankName } from '../../../sim/gearset/definition.ts';
import {
  agrees,
  type CentroidMove,
  DIRECTION_TABLE,
  hasSense,
  MOVES,
  type MoveName,
  NEUTRAL,
  type Sense,
} from '../../support/directions.ts';
import { NAMED_SETS } from '../../support/namedSets.ts';
import {
  type CutMethod,
  METHODS,
  RANDOM_SETS_PER_METHOD,
  RANDOM_SETS_SEED,
  randomSets,
} from '../randomSets.ts';
import { directionsOf } from '../solve.ts';
import { blocks, fixed, table } from '../text.ts';

const CELLS = (Object.keys(MOVES) as MoveName[]).flatMap((move) =>
  FLANKS.map((flank) => ({ move, flank, title: `${move}, ${flank}` })),
);

const amount = (value: number, negative: Sense, positive: Sense): string =>
  `${value < 0 ? negative : positive} ${fixed(Math.abs(value), 3)}`;

const moveInWords = ({ rootFace, toeHeel }: CentroidMove): string =>
  `${amount(rootFace, 'root', 'face')}, ${amount(toeHeel, 'toe', 'heel')}`;

const expectedInWords = (method: CutMethod, move: MoveName, flank: FlankName): string => {
  const { rootFace, toeHeel } = DIRECTION_TABLE[method][move][flank];
  return `${rootFace.join(' or ')}, ${toeHeel.join(' or ')}`;
};

/** Amounts of the named sets of one cut method, agreement per cell. */
export const namedDirections = (method: CutMethod): string => {
  const sets = NAMED_SETS.filter(({ definition }) => definition.cut.method === method);
  const rows = sets.map((set) => {
    const { moves } = directionsOf(set);
    return [
      set.label,
      ...CELLS.map(({ move, flank }) => {
        const found = moves[move][flank];
        return `${moveInWords(found)}: ${agrees(found, DIRECTION_TABLE[method][move][flank]) ? 'yes' : '**NO**'}`;
      }),
    ];
  });
  return blocks([
    `### ${method}: named sets`,
    table(
      ['Set', ...CELLS.map(({ title }) => title)],
      [['*model.md §8*', ...CELLS.map(({ move, flank }) => expectedInWords(method, move, flank))], ...rows],
      false,
    ),
  ]);
};

const count = (values: readonly number[], test: (value: number) => boolean): number =>
  values.filter(test).length;

/** "12 / 3 / 25": below −NEUTRAL, between, above. */
const threeWays = (values: readonly number[]): string =>
  `${count(values, (x) => x <= -NEUTRAL)} / ${count(values, (x) => Math.abs(x) < NEUTRAL)} / ${count(values, (x) => x >= NEUTRAL)}`;

const randomCounts = (method: CutMethod): string => {
  const { directions } = randomSets(method);
  const rows = CELLS.map(({ move, flank, title }) => {
    const found = directions.map(({ moves }) => moves[move][flank]);
    const expected = DIRECTION_TABLE[method][move][flank];
    const exceptions = (values: readonly number[], senses: readonly Sense[]): number =>
      count(values, (value) => !senses.some((sense) => hasSense(value, sense)));
    const along = found.map(({ toeHeel }) => toeHeel);
    const across = found.map(({ rootFace }) => rootFace);
    return [
      title,
      threeWays(across),
      String(exceptions(across, expected.rootFace)),
      threeWays(along),
      String(exceptions(along, expected.toeHeel)),
      expectedInWords(method, move, flank),
    ];
  });
  return blocks([
    `### ${method}: ${directions.length} random sets`,
    table(
      [
        'Move, flank',
        'root / neutral / face',
        'exceptions',
        'toe / neutral / heel',
        'exceptions',
        'model.md §8',
      ],
      rows,
    ),
  ]);
};

/** Counts of one move among the sets on either side of a limit. */
const splitTable = (
  titles: readonly [string, string],
  names: readonly [string, string],
  moves: ReadonlyArray<{ readonly above: boolean; readonly amount: number }>,
): string =>
  table(
    ['Sets', 'count', ...titles],
    [true, false].map((above) => {
      const values = moves.filter((move) => move.above === above).map((move) => move.amount);
      return [
        names[above ? 0 : 1],
        String(values.length),
        threeWays(values),
        `${count(values, (x) => x < 0)} / ${count(values, (x) => x >= 0)}`,
      ];
    }),
  );

const CUTTER_SHARE = 0.4;

const coastByCutter = (): string => {
  const { meshes, directions } = randomSets('face-milled');
  return blocks([
    '**Face-milled coast, pinion out, by size of cutter.** The lengthwise sign of this cell depends on the cutter radius against the ring diameter:',
    splitTable(
      ['toe / neutral / heel', 'by sign alone: toe / heel'],
      ['cutter radius ≥ 0.40 × ring outer diameter', 'smaller cutter'],
      meshes.map(({ definition }, i) => ({
        above: definition.cut.cutterRadius >= CUTTER_SHARE * definition.ringOuterDiameter,
        amount: directions[i].moves['pinion out'].coast.toeHeel,
      })),
    ),
  ]);
};

const BIAS_SHARE = 0.2;

const driveByBias = (): string => {
  const moves = METHODS.flatMap((method) => {
    const { meshes, directions } = randomSets(method);
    return meshes.map(({ definition }, i) => {
      const { bias, lengthwise, profile } = definition.easeOff.drive;
      return {
        above: bias >= BIAS_SHARE * Math.sqrt(lengthwise * profile),
        amount: directions[i].moves['ring in'].drive.rootFace,
      };
    });
  });
  return blocks([
    '**Drive, ring in, by bias of the ease-off.** The root–face sign of this cell turns where the drive bias is strongly positive, both cutting methods together:',
    splitTable(
      ['root / neutral / face', 'by sign alone: root / face'],
      ['drive bias ≥ 0.20 × √(lengthwise · profile)', 'less bias, or negative'],
      moves,
    ),
  ]);
};

const refusalTable = (): string => {
  const rows = METHODS.flatMap((method) =>
    [...randomSets(method).refusals].sort().map(([code, times]) => [method, `\`${code}\``, String(times)]),
  );
  return rows.length === 0
    ? 'None was refused as not makeable.'
    : blocks([
        'Refused as not makeable while drawing them, by code ([model.md §1](model.md#1-the-definition-of-a-gear-set)):',
        table(['Cut method', 'code', 'draws refused'], rows),
      ]);
};

const introduction = `## Directions

Move of the mark's centre for one step of 0.1 mm from the design position, in flank coordinates. "Neutral" is less than ${NEUTRAL} per 0.1 mm. A cell agrees with [model.md §8](model.md#8-what-must-come-out) when both signs do; where that table names a direction, the sign counts however small the move. No direction is coded anywhere.`;

/** Direction tables: amounts of the named sets, counts over random ones. */
export const directionsSection = (progress: (what: string) => void): string =>
  blocks([
    introduction,
    ...METHODS.map(namedDirections),
    ...METHODS.map((method) => {
      progress(`directions of ${RANDOM_SETS_PER_METHOD} random ${method} sets`);
      return randomCounts(method);
    }),
    coastByCutter(),
    driveByBias(),
    `The random sets are drawn with seed ${RANDOM_SETS_SEED}, ${RANDOM_SETS_PER_METHOD} makeable ones per cut method, from the ranges in \`tests/support/randomGearSet.ts\`. An exception is a set whose sign is not among those the table allows; exceptions are counted, not explained away. ${refusalTable()}`,
  ]);
