import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { PNG } from 'pngjs';
import decodeQR from 'qr/decode.js';
import { MeshCore } from '../../sim/worker/core.ts';
import { plateOf } from '../../src/app/sheets/plateOf.ts';
import { compoundTones } from '../../src/flank/compoundTones.ts';
import { axleOf } from '../../src/state/axles.ts';
import { COMPOUND_COLOURS } from '../../src/state/preferences.ts';
import type { Setup } from '../../src/state/setup.ts';
import { createTranslate } from '../../src/text/translate.ts';
import { asUsedBefore, expectSolved, setupOf, solveHere } from './support/explore.ts';
import { openApp, watch } from './support/watch.ts';

const SETUP = './#/explore?v=1&axle=borrin&pinion=1.4&ring=5.9&opposite=6.1&film=0.009';
const sheetOf = (page: Page) => page.getByRole('dialog', { name: 'Plate and link' });

async function openSheet(page: Page) {
  await page.getByRole('button', { name: 'Plate and link' }).click();
  const sheet = sheetOf(page);
  await expect(
    sheet.getByRole('img', { name: /^Flank maps\. Drive flank: middle of the mark/ }),
  ).toBeVisible();
  return sheet;
}

function plateHere(setup: Setup): string {
  const loaded = new MeshCore().load(setup.axleId, axleOf(setup.axleId).axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const shown = { axleId: setup.axleId, loaded: loaded.value, result: solveHere(setup) };
  const wishes = { compoundColour: COMPOUND_COLOURS.yellow, units: 'mm', contours: false } as const;
  return plateOf(shown, setup, wishes, createTranslate('en'));
}

async function download(page: Page, button: string): Promise<{ name: string; content: Buffer }> {
  const coming = page.waitForEvent('download');
  await sheetOf(page).getByRole('button', { name: button }).click();
  const file = await coming;
  return { name: file.suggestedFilename(), content: readFileSync(await file.path()) };
}

test('the plate is saved as the SVG that Node draws, and as a PNG of twice its size', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await openApp(page, SETUP);
  const setup = await expectSolved(page);
  const sheet = await openSheet(page);

  const svg = await download(page, 'Save as SVG');
  await expect(sheet.getByText('SVG handed to the downloads.')).toBeVisible();
  expect(svg.name).toBe('meshwitness-borrin.svg');
  const text = svg.content.toString('utf8');
  expect(text).toBe(plateHere(setup));
  for (const words of ['1.400', '5.900', '6.100', 'fictional practice axle', 'Backlash at the heel']) {
    expect(text).toContain(words);
  }

  const png = await download(page, 'Save as PNG');
  expect(png.name).toBe('meshwitness-borrin.png');
  const [, width, height] = /width="(\d+)" height="(\d+)"/.exec(text) ?? [];
  const picture = PNG.sync.read(png.content);
  expect([picture.width, picture.height]).toEqual([2 * Number(width), 2 * Number(height)]);
  const coat = Number.parseInt(compoundTones(COMPOUND_COLOURS.yellow).coat.slice(1), 16);
  let painted = 0;
  for (let at = 0; at < picture.data.length; at += 4) {
    if (picture.data.readUIntBE(at, 3) === coat) painted += 1;
  }
  // two flanks nearly as wide as the plate
  expect(painted).toBeGreaterThan(100_000);
  expect(seen.complaints).toEqual([]);
  expect(seen.failures).toEqual([]);
});

test('the link copied and the QR code both open the present set-up elsewhere', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await asUsedBefore(page);
  await openApp(page, SETUP);
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  // at once: the link must not wait for the address of the page
  await page.keyboard.press('e');
  const sheet = sheetOf(page);
  await sheet.getByRole('button', { name: 'Copy link' }).click();
  await expect(sheet.getByText('Copied.', { exact: true })).toBeVisible();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  await expect(sheet.getByRole('textbox', { name: 'Link to this set-up' })).toHaveValue(link);
  await expect(sheet).toContainText('links to localhost open only here');

  const code = sheet.getByRole('img', { name: 'QR code of the link' });
  await code.scrollIntoViewIfNeeded();
  const { width, height, data } = PNG.sync.read(await code.screenshot());
  expect(decodeQR({ width, height, data })).toBe(link);

  const other = await context.newPage();
  await asUsedBefore(other);
  await openApp(other, link);
  const setup = await expectSolved(other);
  expect(setup.fitment.pinionShim).toBe(1.425);
  expect(setup).toEqual(await setupOf(page));
});

test('where nothing may be copied, the link is selected and the sheet says so', async ({ page }) => {
  await page.addInitScript(() =>
    Object.defineProperty(navigator, 'clipboard', { value: undefined, configurable: true }),
  );
  await asUsedBefore(page);
  await openApp(page);
  const sheet = await openSheet(page);
  await sheet.getByRole('button', { name: 'Copy link' }).click();
  await expect(sheet.getByText('Could not copy. The link is selected')).toBeVisible();
  const field = sheet.getByRole('textbox', { name: 'Link to this set-up' });
  await expect(field).toBeFocused();
  const selected = await field.evaluate((input: HTMLInputElement) =>
    input.value.slice(input.selectionStart ?? 0, input.selectionEnd ?? 0),
  );
  expect(selected).toMatch(/#\/explore\?.*axle=borrin/);
});

test('on paper there is the plate and nothing else', async ({ page }) => {
  await asUsedBefore(page);
  await page.addInitScript(() => {
    window.print = () => document.documentElement.setAttribute('data-printed', 'yes');
  });
  await openApp(page);
  await openSheet(page);
  await sheetOf(page).getByRole('button', { name: 'Print' }).click();
  await expect(page.locator('html')).toHaveAttribute('data-printed', 'yes');
  const visible = () =>
    page.evaluate(() =>
      [...document.body.children]
        .filter((element) => element.checkVisibility() && element.getBoundingClientRect().height > 0)
        .map((element) => element.tagName),
    );
  await page.emulateMedia({ media: 'print' });
  expect(await visible()).toEqual(['IMG']);
  await page.emulateMedia({ media: 'screen' });
  expect(await visible()).not.toContain('IMG');
  // with the sheet closed the page itself prints again
  await page.keyboard.press('Escape');
  await expect(sheetOf(page)).toHaveCount(0);
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('main')).toBeVisible();
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`the sheet fits, has large targets, and axe finds nothing, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await openApp(page);
    const check = async () => {
      expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
      const faults = await sheetOf(page).evaluate((sheet) =>
        [...sheet.querySelectorAll('button, input')]
          .map((element) => ({ name: element.textContent, box: element.getBoundingClientRect() }))
          .filter(({ box }) => box.height < 43.5 || box.left < 0 || box.right > window.innerWidth)
          .map(({ name }) => name),
      );
      expect(faults).toEqual([]);
    };
    await openSheet(page);
    await check();
    await page.keyboard.press('Escape');
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole('button', { name: 'Settings' }).click();
    await openSheet(page);
    await check();
  });
}
