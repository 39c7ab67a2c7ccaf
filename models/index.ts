import aldra from './aldra.json' with { type: 'json' };
import type { AxleDefinition } from './axle.ts';
import borrin from './borrin.json' with { type: 'json' };
import cavel from './cavel.json' with { type: 'json' };
import dornet from './dornet.json' with { type: 'json' };
import elspar from './elspar.json' with { type: 'json' };

export const AXLE_IDS = ['aldra', 'borrin', 'cavel', 'dornet', 'elspar'] as const;
export type AxleId = (typeof AXLE_IDS)[number];

/**
 * The practice axles. JSON widens texts to `string`; a test parses each file with the schema, which makes the assertion true
 * without every start of the app paying for it.
 */
export const AXLES = { aldra, borrin, cavel, dornet, elspar } as unknown as Readonly<
  Record<AxleId, AxleDefinition>
>;

export const isAxleId = (text: string): text is AxleId => AXLE_IDS.some((id) => id === text);
