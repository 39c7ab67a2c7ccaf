import { expect, test } from '@playwright/test';
import { CHROMIUM_ARGS } from '../../scripts/lib/chromium.mjs';
import { asUsedBefore, slide } from './support/explore.ts';
import { watch } from './support/watch.ts';

// a browser whose 3D is switched off, not one that pretends
test.use({
  launchOptions: {
    executablePath: process.env.MESHWITNESS_CHROMIUM || undefined,
    args: [...CHROMIUM_ARGS, '--disable-3d-apis'],
  },
});

test('without WebGL the housing is a flat section of the same parts, live as the other', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await page.goto('./#/explore?axle=dornet&picture=housing');
  const drawing = page.getByRole('img', { name: 'Section through the axle' });
  await expect(drawing).toBeVisible();
  await expect(page.getByText('a flat section instead')).toBeVisible();
  const slider = page.getByRole('slider', { name: 'Show moves larger' });
  await expect(slider).toBeVisible();
  await expect(drawing.getByText('Pinion shim 0.95 mm')).toBeVisible();

  // the shape of the shim itself changes with the shim, and with how much larger it is drawn
  const shape = () => drawing.locator('[data-part="pinion-shim"] path').first().getAttribute('d');
  const before = await shape();
  for (let step = 0; step < 3; step++) {
    await page.getByRole('button', { name: /^Pinion shim .* thinner$/ }).click();
  }
  await expect(drawing.getByText('Pinion shim 0.90 mm')).toBeVisible();
  await expect.poll(shape).not.toBe(before);
  const larger = await shape();
  await slide(slider, 'Home');
  await expect.poll(shape).not.toBe(larger);

  await page
    .getByRole('list', { name: 'Parts' })
    .getByRole('button', { name: /^Pinion shim/ })
    .click();
  await expect(drawing.locator('[data-part="pinion-shim"][data-chosen="true"]').first()).toBeAttached();
  await expect(page.getByText('Lies behind the cup of the head bearing.')).toBeVisible();
  expect(seen.complaints.filter((text) => text.startsWith('uncaught'))).toEqual([]);
});
