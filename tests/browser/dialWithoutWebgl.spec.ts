import { expect, test } from '@playwright/test';
import { CHROMIUM_ARGS } from '../../scripts/lib/chromium.mjs';
import { formatNumber } from '../../src/units/format.ts';
import { asUsedBefore, setupOf, slide, solveHere } from './support/explore.ts';

// a browser whose 3D is switched off, not one that pretends
test.use({
  launchOptions: {
    executablePath: process.env.MESHWITNESS_CHROMIUM || undefined,
    args: [...CHROMIUM_ARGS, '--disable-3d-apis'],
  },
});

test('without WebGL the dial, the section and the readings go on working, and the stage says why it is empty', async ({
  page,
}) => {
  await asUsedBefore(page);
  await page.goto('./#/explore?v=1&axle=borrin&picture=dial');
  const { backlash } = solveHere(await setupOf(page));
  await expect(page.getByText('This browser cannot draw in three dimensions here.')).toBeVisible();
  await slide(page.getByRole('slider', { name: 'Ring, rocked by hand' }), 'End');
  await expect(
    page.getByRole('region', { name: 'Reading', exact: true }).getByLabel('Dial', { exact: true }),
  ).toHaveText(`${formatNumber(backlash.normal ?? 0, 3)}\u202fmm`);
  await expect(page.getByRole('img', { name: /^The mesh at mid length, cut/ })).toBeVisible();
  const runout = page.getByRole('textbox', { name: 'full reading at the back face' });
  await runout.fill('0.05');
  await runout.press('Enter');
  await expect(page.getByRole('region', { name: 'Round the ring' })).toContainText(
    'One reading alone could have been any of',
  );
  await expect(page.locator('canvas')).toHaveCount(0);
});
