import { expect, test } from '@playwright/test';
import { CHROMIUM_ARGS } from '../../scripts/lib/chromium.mjs';
import { asUsedBefore, expectSolved } from './support/explore.ts';
import { watch } from './support/watch.ts';

// a browser whose 3D is switched off, not one that pretends
test.use({
  launchOptions: {
    executablePath: process.env.MESHWITNESS_CHROMIUM || undefined,
    args: [...CHROMIUM_ARGS, '--disable-3d-apis'],
  },
});

test('without WebGL the flank maps still answer, and the stage says why it is empty', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await page.goto('./');
  await expect(page.getByText('This browser cannot draw in three dimensions here.')).toBeVisible();
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  await expectSolved(page);
  await expect(page.locator('canvas')).toHaveCount(0);
  expect(seen.complaints.filter((text) => text.startsWith('uncaught'))).toEqual([]);
});
