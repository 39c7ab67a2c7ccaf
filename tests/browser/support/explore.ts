import { expect, type Locator, type Page } from '@playwright/test';
import { MeshCore } from '../../../sim/worker/core.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import { axleOf } from '../../../src/state/axles.ts';
import { decodeState } from '../../../src/state/codec.ts';
import { poseOfSetup } from '../../../src/state/mesh.ts';
import type { Setup } from '../../../src/state/setup.ts';
import { formatNumber } from '../../../src/units/format.ts';
import { mmToInch } from '../../../src/units/length.ts';

const core = new MeshCore();

/** What the solver says to a set-up, worked out here and not in the browser. */
export function solveHere(setup: Setup): SolveResult {
  const { axle } = axleOf(setup.axleId);
  const loaded = core.load(setup.axleId, axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const solved = core.solve(setup.axleId, poseOfSetup(setup), setup.film);
  if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
  return solved.value;
}

/** The set-up the address of the page stands for; every part of it must be understood. */
export async function setupOf(page: Page): Promise<Setup> {
  // the address follows when the controls come to rest
  await expect(page.locator('html')).toHaveAttribute('data-address', 'rested');
  // asked of the page itself: the browser's own report of a changed address comes a moment later
  const hash = await page.evaluate(() => window.location.hash);
  const { state, problems } = decodeState(hash.split('?')[1] ?? '');
  expect(problems).toEqual([]);
  return state.setup;
}

/** The page shows the solver's numbers for the set-up in its address. Returns that set-up. */
export async function expectSolved(page: Page, unit: 'mm' | 'in' = 'mm'): Promise<Setup> {
  const setup = await setupOf(page);
  const { backlash, drive, coast } = solveHere(setup);
  const say = (mm: number | null) =>
    mm === null ? '–' : formatNumber(unit === 'mm' ? mm : mmToInch(mm), unit === 'mm' ? 3 : 4);
  const panel = page.getByRole('region', { name: 'Backlash at the heel' });
  const row = (name: string) => panel.getByRole('row', { name });
  await expect(row('Square to flank').getByRole('cell').nth(0)).toHaveText(say(backlash.normal));
  await expect(row('Square to flank').getByRole('cell').nth(1)).toHaveText(say(backlash.normalMean));
  await expect(row('Turning direction').getByRole('cell').nth(0)).toHaveText(say(backlash.tangential));
  await expect(row('Turning direction').getByRole('cell').nth(1)).toHaveText(say(backlash.tangentialMean));
  for (const [flank, report] of Object.entries({ drive, coast })) {
    const map = page.locator(`figure[data-flank="${flank}"]`);
    if (report.toeHeel === null || report.rootFace === null) await expect(map).toContainText('no mark');
    else {
      await expect(map).toContainText(share(report.toeHeel, 'toe', 'heel', 'mid-length'));
      await expect(map).toContainText(share(report.rootFace, 'root', 'face', 'mid-height'));
      await expect(map).toContainText(
        `${Math.round(report.length * 100)} % of length, ${Math.round(report.height * 100)} % of height`,
      );
    }
  }
  return setup;
}

function share(value: number, below: string, above: string, middle: string): string {
  const percent = Math.round(value * 100);
  return percent === 0 ? middle : `${Math.abs(percent)} % ${percent < 0 ? below : above}`;
}

/** Presses keys on a slider as a person would, after it has the focus. */
export async function slide(slider: Locator, key: string, times = 1): Promise<void> {
  await slider.focus();
  for (let time = 0; time < times; time += 1) await slider.press(key);
}

/** Answers the first-use question and settles the theme, as on a device that has been used before. */
export async function asUsedBefore(page: Page, theme: 'workshop' | 'projector' = 'workshop'): Promise<void> {
  await page.addInitScript((chosen) => {
    if (localStorage.getItem('meshwitness.preferences') !== null) return;
    const content = { theme: chosen, compound: 'yellow', detail: 'reduced', units: 'mm' };
    localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
  }, theme);
}
