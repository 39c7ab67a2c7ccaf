import { METHODS } from '../randomSets.ts';
import { blocks } from '../text.ts';
import { accountTable, callsTable, DIAGNOSE_CASES, judgeCases } from './diagnoseKnown.ts';

const SEED = 4200;

/** Diagnosis where the set itself is uncertain. */
export const diagnoseUnknownSection = (progress: (what: string) => void): string => {
  progress('diagnosis, unknown sets');
  const sound = METHODS.map(
    (method, m) =>
      [
        method,
        'descriptors',
        'unknown',
        judgeCases(method, 'unknown', 'none', 'descriptors', DIAGNOSE_CASES, SEED + m),
      ] as const,
  );
  const faults = METHODS.flatMap((method, m) =>
    (['offset', 'shaft-angle'] as const).map(
      (fault, f) =>
        [
          method,
          fault === 'offset' ? 'offset ±0.2 mm' : 'shaft angle ±0.2°',
          judgeCases(method, 'unknown', fault, 'descriptors', DIAGNOSE_CASES / 4, SEED + 10 + 2 * m + f),
        ] as const,
    ),
  );
  return blocks([
    '## Diagnosis of an unknown set',
    'As above, but every set differs from its model: each ease-off centre by 0.2, lengthwise and profile crowning by 30 %, the dial by 0.05 mm (standard deviations). The bound is that of the wider problem; crowning and film change the information so much from case to case that the bound of its average is out of reach.',
    accountTable(sound),
    'Housing calls, as found: marks that a fault would make may as well have been cut that way.',
    callsTable([...sound.map(([m, , , cases]) => [m, 'sound', cases] as const), ...faults]),
  ]);
};
