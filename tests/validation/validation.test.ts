import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { IMAGES, REPORT } from './files.ts';
import { drawPlots } from './plots/index.ts';
import { METHODS } from './randomSets.ts';
import { namedBacklashRatios } from './sections/backlashRatios.ts';
import { namedDirections } from './sections/directions.ts';
import { filmSensitivitySection } from './sections/filmSensitivity.ts';
import { convergenceRows } from './sections/gridConvergence.ts';
import { introduction } from './sections/introduction.ts';
import { limitsSection } from './sections/limits.ts';
import { readingsSection } from './sections/ownAxle.ts';
import { plotsSection } from './sections/plots.ts';
import { workedNumbersSection } from './sections/workedNumbers.ts';
import { namedSet } from './solve.ts';

/** The quick parts of the report, computed anew: a report that is out of date fails here. */
const QUICK_PARTS: ReadonlyArray<readonly [string, () => string]> = [
  ['introduction', introduction],
  ['worked numbers', workedNumbersSection],
  ...METHODS.map((method) => [`directions, ${method}`, () => namedDirections(method)] as const),
  ['backlash ratios', namedBacklashRatios],
  ['grid convergence of set a', () => convergenceRows(namedSet('Set a'))],
  ['film sensitivity', filmSensitivitySection],
  ['kept backlash and runout', readingsSection],
  ['plots', plotsSection],
  ['limits', limitsSection],
];

const STALE = 'out of date: run `npm run validate` and look at what changed';

describe('docs/validation.md', () => {
  const report = readFileSync(REPORT, 'utf8');

  it.each(QUICK_PARTS)('holds what is computed today: %s', (_, compute) => {
    const part = compute();
    // Line by line first: the message then shows the line that moved.
    const lines = new Set(report.split('\n'));
    expect(
      part.split('\n').filter((line) => !lines.has(line)),
      STALE,
    ).toEqual([]);
    expect(report.includes(`${part}\n`), STALE).toBe(true);
  });

  it('has no disagreement with the direction table among the named sets', () => {
    expect(report).not.toContain('**NO**');
  });
});

describe('docs/images/validation', () => {
  it('holds the plots as they are drawn today', () => {
    for (const [name, svg] of drawPlots()) {
      expect(readFileSync(new URL(name, IMAGES), 'utf8') === svg, `${name} is ${STALE}`).toBe(true);
    }
  });

  it('has every picture the report shows', () => {
    const shown = [...readFileSync(REPORT, 'utf8').matchAll(/\(images\/validation\/([^)]+)\)/g)].map(
      ([, name]) => name,
    );
    expect(shown.sort()).toEqual([...drawPlots().keys()].sort());
  });
});
