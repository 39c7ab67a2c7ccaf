import { expect, test } from '@playwright/test';
import { asUsedBefore, expectSolved, setupOf } from './support/explore.ts';
import { openApp, watch } from './support/watch.ts';

const TABS = ['Gears', 'Dial', 'Cut-away', 'Shim map', 'Curves', 'Side by side'] as const;

test('every picture can be chosen, is part of the link, and leaves the mesh as it is', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await openApp(page);
  const before = await expectSolved(page);
  const tabs = page.getByRole('tablist', { name: 'What the picture shows' });
  for (const name of TABS) {
    await tabs.getByRole('tab', { name, exact: true }).click();
    await expect(tabs.getByRole('tab', { name, exact: true })).toHaveAttribute('aria-selected', 'true');
    await expect(page.getByRole('tabpanel', { name })).not.toBeEmpty();
    expect(await setupOf(page)).toEqual(before);
    const link = await page.evaluate(() => window.location.hash);
    if (name !== 'Gears') expect(link).toContain('picture=');
  }
  await page.reload();
  await expect(tabs.getByRole('tab', { name: 'Side by side' })).toHaveAttribute('aria-selected', 'true');
  expect(seen.complaints).toEqual([]);
  expect(seen.failures).toEqual([]);
});

test('pictures by keys alone: N and B, and arrow keys in the row of tabs', async ({ page }) => {
  await asUsedBefore(page);
  await openApp(page);
  const tab = (name: (typeof TABS)[number]) => page.getByRole('tab', { name, exact: true });
  await page.keyboard.press('n');
  await expect(tab('Dial')).toHaveAttribute('aria-selected', 'true');
  await page.keyboard.press('b');
  await expect(tab('Gears')).toHaveAttribute('aria-selected', 'true');
  await tab('Gears').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(tab('Cut-away')).toHaveAttribute('aria-selected', 'true');
});
