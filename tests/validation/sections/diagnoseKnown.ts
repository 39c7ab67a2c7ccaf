import type { Regime } from '../../../sim/diagnose/unknowns.ts';
import {
  type Account,
  accountFor,
  axlesOf,
  callsOf,
  type Fault,
  type Judged,
  judgeCase,
  workbench,
} from '../../support/diagnoseStudy.ts';
import { seededRandom } from '../../support/random.ts';
import { FORMS, type Form } from '../../support/virtualLooks.ts';
import { type CutMethod, METHODS } from '../randomSets.ts';
import { blocks, fixed, table } from '../text.ts';

export const DIAGNOSE_CASES = 200;
const SEED = 4100;

/** Seeded cases of one cut method, its practice axles in turn. */
export const judgeCases = (
  method: CutMethod,
  regime: Regime,
  fault: Fault,
  form: Form,
  count: number,
  seed: number,
): readonly Judged[] => {
  const random = seededRandom(seed);
  const ids = axlesOf(method);
  return Array.from({ length: count }, (_, k) =>
    judgeCase(workbench(ids[k % ids.length]), regime, fault, form, random),
  );
};

const percent = (share: number): string => (Number.isFinite(share) ? `${fixed(100 * share, 0)} %` : '–');

const accountCells = ({ error, bound, coverage }: Account): readonly string[] =>
  [0, 1].flatMap((i) => [fixed(error[i], 3), fixed(error[i] / bound[i], 2), percent(coverage[i])]);

export const accountTable = (
  rows: ReadonlyArray<readonly [string, string, Regime, readonly Judged[]]>,
): string =>
  table(
    [
      'Cut method',
      'seen as',
      'marks',
      'cases',
      'pinionIn error, mm',
      '/ bound',
      'in 90 %',
      'ringAway error, mm',
      '/ bound',
      'in 90 %',
      'offset in 90 %',
      'angle in 90 %',
    ],
    rows.flatMap(([method, form, regime, cases]) =>
      (['all', 'whole', 'cut'] as const).map((marks) => {
        const group = cases.filter(({ cut }) => marks === 'all' || cut === (marks === 'cut'));
        const account = accountFor(regime, group);
        return [
          method,
          form,
          marks,
          String(group.length),
          ...accountCells(account),
          percent(account.coverage[2]),
          percent(account.coverage[3]),
        ];
      }),
    ),
  );

export const callsTable = (rows: ReadonlyArray<readonly [string, string, readonly Judged[]]>): string =>
  table(
    ['Cut method', 'truth', 'cases', 'called at fault', 'called sound', 'cannot tell'],
    rows.map(([method, truth, cases]) => {
      const { fault, sound, open } = callsOf(cases);
      return [method, truth, String(cases.length), percent(fault), percent(sound), percent(open)];
    }),
  );

/** Diagnosis of known sets: error against the bound, coverage, housing calls. */
export const diagnoseKnownSection = (progress: (what: string) => void): string => {
  progress('diagnosis, known sets');
  const sound = METHODS.flatMap((method, m) =>
    FORMS.map(
      (form, f) =>
        [
          method,
          form,
          'known',
          judgeCases(method, 'known', 'none', form, DIAGNOSE_CASES, SEED + 10 * m + f),
        ] as const,
    ),
  );
  progress('diagnosis, housing faults');
  const faults = METHODS.flatMap((method, m) =>
    (['offset', 'shaft-angle'] as const).map(
      (fault, f) =>
        [
          method,
          fault === 'offset' ? 'offset ±0.2 mm' : 'shaft angle ±0.2°',
          judgeCases(method, 'known', fault, 'descriptors', DIAGNOSE_CASES / 2, SEED + 50 + 10 * m + f),
        ] as const,
    ),
  );
  return blocks([
    '## Diagnosis of a known set',
    `${DIAGNOSE_CASES} seeded observations per cut method and way of putting them in, the practice axles in turn, reference film. Truth drawn from the prior of [model.md §12](model.md#12-diagnosis): pinionIn 0.30 mm, ringAway 0.25 mm, offset 0.03 mm, shaft angle 0.03°, ln film 0.35; solved by the real solver on the display grid; seen with a noise of 0.05 on every number of a mark and 0.01 mm on one dial reading. The bound is the Bayesian Cramér–Rao bound of the group, prior included, computed in the same run; where marks saturate at a border the information differs from case to case, and the bound of a mixed group cannot be reached.`,
    accountTable(sound),
    'Housing calls. The sound rows are the cases above, seen as descriptors.',
    callsTable([
      ...sound
        .filter(([, form]) => form === 'descriptors')
        .map(([m, , , cases]) => [m, 'sound', cases] as const),
      ...faults,
      ...METHODS.map(
        (method) =>
          [
            method,
            'either fault',
            faults.filter(([m]) => m === method).flatMap(([, , cases]) => cases),
          ] as const,
      ),
    ]),
  ]);
};
