import { describe, expect, it } from 'vitest';
import { diagnose } from '../../sim/diagnose/diagnose.ts';
import { Evidence } from '../../sim/diagnose/evidence.ts';
import { lnSum } from '../../sim/diagnose/mixture.ts';
import type { Observation } from '../../sim/diagnose/observation.ts';
import { POSE_FIELDS } from '../../sim/diagnose/poseBasis.ts';
import {
  DEFAULT_PRIORS,
  HOUSINGS,
  housingShare,
  layOut,
  type Regime,
  spreadOf,
} from '../../sim/diagnose/unknowns.ts';
import { drawCase, type Workbench, workbench } from '../support/diagnoseStudy.ts';
import { walkChain } from '../support/metropolis.ts';
import { seededRandom } from '../support/random.ts';
import { lookAt } from '../support/virtualLooks.ts';

/** ln of likelihood times prior, written down as docs/model.md §12 states it. */
const lnPosterior = ({ model, film }: Workbench, seen: Observation, regime: Regime) => {
  const layout = layOut(regime, 1);
  const evidence = new Evidence(model, layout, [{ seen, pinionIn: 0, ringAway: 0 }], film);
  const spreads = HOUSINGS.map((housing) => spreadOf(layout, DEFAULT_PRIORS, housing, [false]));
  const residuals = new Float64Array(evidence.data.length);
  const terms = new Float64Array(HOUSINGS.length);
  return (x: Float64Array): number => {
    evidence.predict(x);
    evidence.residuals(residuals);
    const misfit = residuals.reduce((sum, r) => sum + r * r, 0);
    HOUSINGS.forEach((housing, h) => {
      terms[h] = Math.log(housingShare(DEFAULT_PRIORS, housing));
      spreads[h].forEach((sd, i) => {
        terms[h] -= 0.5 * (x[i] / sd) ** 2 + Math.log(sd);
      });
    });
    return evidence.lnEdges(0) - 0.5 * misfit + lnSum(terms, 0, terms.length);
  };
};

const meanAndSd = (values: readonly number[]) => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length) };
};

describe('the draws against a long random walk', () => {
  it.each([
    ['known', 2, 5000],
    ['unknown', 5, 9000],
  ] as const)(
    'agree on where pinion and ring stand and how surely, %s set (seed 4720)',
    (regime, cases, steps) => {
      const random = seededRandom(4720);
      const lnRatios: number[] = [];
      for (let k = 0; k < cases; k++) {
        const bench = workbench((['aldra', 'borrin', 'cavel', 'dornet', 'elspar'] as const)[k % 5]);
        const one = drawCase(bench, regime, 'none', random);
        const seen = lookAt(one.solution, one.film, [one.reading], 'descriptors', random);
        const { pose } = diagnose(bench.model, seen, { regime, film: bench.film });
        const spread = spreadOf(one.layout, DEFAULT_PRIORS, 'sound', [false]);
        const chain = walkChain(
          lnPosterior(bench, seen, regime),
          one.truth,
          spread.map((sd) => 0.2 * sd),
          steps,
          random,
        );
        POSE_FIELDS.slice(0, 2).forEach((field, i) => {
          const walked = meanAndSd(chain.places.map((x) => x[i]));
          // the walk itself is sure to about a tenth of its spread
          expect(Math.abs(pose[field].mean - walked.mean) / walked.sd).toBeLessThan(0.6);
          lnRatios.push(Math.log(pose[field].sd / walked.sd));
        });
      }
      expect(Math.abs(meanAndSd(lnRatios).mean)).toBeLessThan(0.12);
    },
  );
});
