import type { Posterior } from './posterior.ts';
import { HOUSINGS, type Housing, housingShare, type Priors, type Regime } from './unknowns.ts';

/** What the evidence says about the housing. */
export interface ShimmableVerdict {
  readonly shimmable: boolean | null;
  /** chance of each after all that was seen */
  readonly chance: Readonly<Record<Housing, number>>;
  /** evidence for a fault over that for a sound housing: how many times better a fault explains what was seen */
  readonly factor: number;
}

/**
 * With a known set a fault is called when what was seen is clearly likelier with a faulty housing than with a sound one, each
 * averaged over its prior: a wrong pull of the pinion costs more than a look at the bores. The marks of an unknown set
 * may have been cut that way, so more is asked, and between the two thresholds the answer is 'cannot tell'.
 */
const CALLS = {
  known: { fault: 1.2, sound: 1.2 },
  unknown: { fault: 6, sound: 0.5 },
} as const satisfies Record<Regime, { readonly fault: number; readonly sound: number }>;

/** Beyond this a factor is only a way of saying that nothing else explains it. */
const MOST_FACTOR = 1e6;

export const judgeHousing = ({ chance }: Posterior, priors: Priors, regime: Regime): ShimmableVerdict => {
  const faults = HOUSINGS.filter((housing) => housing !== 'sound');
  const faultShare = faults.reduce((sum, housing) => sum + housingShare(priors, housing), 0);
  const faultChance = faults.reduce((sum, housing) => sum + chance[housing], 0);
  const factor = Math.min(
    MOST_FACTOR,
    faultChance / faultShare / (chance.sound / housingShare(priors, 'sound')),
  );
  const { fault, sound } = CALLS[regime];
  return { shimmable: factor > fault ? false : factor <= sound ? true : null, chance, factor };
};
