import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import type { AxleDefinition } from '../../models/axle.ts';
import { readAxleFile, writeAxleFile } from '../../models/axleFile.ts';
import { AXLES } from '../../models/index.ts';
import { MeshCore } from '../../sim/worker/core.ts';
import { asUsedBefore } from './support/explore.ts';
import { openApp, watch } from './support/watch.ts';

const DESIGN = { pinionIn: 0, ringAway: 0, offsetError: 0, shaftAngleError: 0 };

/** The marks of an axle at the design position, worked out here and not in the browser. */
function marksHere(axle: AxleDefinition) {
  const core = new MeshCore();
  const loaded = core.load('x', axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const solved = core.solve('x', DESIGN, axle.film_mm);
  if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
  return solved.value;
}

const editor = (page: Page): Locator =>
  page.getByRole('dialog', { name: /^(Build your own axle|Own axle, started|Change )/ });
const list = (page: Page): Locator => page.getByRole('dialog', { name: 'Own axles' });
const chooser = (page: Page): Locator => page.getByRole('combobox', { name: 'Axle' });

async function choose(page: Page, name: RegExp): Promise<void> {
  await chooser(page).click();
  await page.getByRole('option', { name }).click();
}

async function build(page: Page): Promise<Locator> {
  await choose(page, /^Build your own/);
  const dialog = editor(page);
  await expect(dialog.getByText('This set can be made.')).toBeVisible();
  return dialog;
}

async function openList(page: Page): Promise<Locator> {
  await choose(page, /^Own axles/);
  await expect(list(page)).toBeVisible();
  return list(page);
}

const made = (dialog: Locator) => expect(dialog.getByText('This set can be made.')).toBeVisible();

/** Keeps a small axle of its own through the form. */
async function keepOne(page: Page, name: string): Promise<void> {
  const dialog = await build(page);
  await dialog.getByLabel('Name', { exact: true }).fill(name);
  await dialog.getByLabel('Pinion teeth').fill('12');
  await dialog.getByLabel('Ring teeth').fill('43');
  await dialog.getByLabel('Ring diameter').fill('201.3');
  await dialog.getByLabel('Face width').fill('30.2');
  await dialog.getByLabel('Offset').fill('29.6');
  await made(dialog);
  await dialog.getByRole('button', { name: 'Keep and put on the bench' }).click();
  await expect(dialog).toBeHidden();
  await expect(chooser(page)).toContainText(name);
}

const importFile = (page: Page, name: string, content: string) =>
  list(page)
    .locator('input[type="file"]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });

test.beforeEach(({ page }) => asUsedBefore(page));

test('an axle from a caliper: live makeability, kept, on the bench, in the link, after a reload', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await openApp(page);
  const dialog = await build(page);
  await dialog.getByLabel('Name', { exact: true }).fill('Shed axle');
  await dialog.getByLabel('Pinion teeth').fill('12');
  await expect(dialog.getByText(/4 dimensions are still the example: Ring teeth/)).toBeVisible();
  await dialog.getByLabel('Ring teeth').fill('43');
  await dialog.getByLabel('Ring diameter').fill('201.3');
  await dialog.getByLabel('Face width').fill('30.2');
  await dialog.getByLabel('Offset').fill('29.6');
  await made(dialog);
  await expect(dialog.getByText('All measured dimensions are yours.')).toBeVisible();
  await expect(dialog.getByText(/Ratio 3\.583/)).toBeVisible();

  await dialog.getByRole('button', { name: 'Keep and put on the bench' }).click();
  await expect(chooser(page)).toContainText('Shed axle');
  await expect(page.locator('html')).toHaveAttribute('data-address', 'rested');
  const address = await page.evaluate(() => window.location.hash);
  expect(address).toMatch(/axle=own-[a-z0-9]{8}-[a-z0-9]+/);

  await page.reload();
  await expect(chooser(page)).toContainText('Shed axle');
  await expect(chooser(page)).toContainText('own axle · 12:43 teeth');
  await expect(page.locator('figure[data-flank="drive"]')).toContainText('of length');
  expect(await page.evaluate(() => window.location.hash)).toBe(address);
  expect(seen.complaints).toEqual([]);
});

test('what cannot be made says why by field; what is no number says so; nothing typed is lost over a reload', async ({
  page,
}) => {
  await openApp(page);
  let dialog = await build(page);
  await dialog.getByLabel('Face width').fill('90');
  await expect(dialog.getByText('This set cannot be made.')).toBeVisible();
  await expect(dialog.getByText('The maps show the last set that could be made.')).toBeVisible();
  await expect(dialog.getByRole('button', { name: 'Keep and put on the bench' })).toBeDisabled();

  await dialog.getByLabel('Face width').fill('3o');
  await expect(dialog.getByText('“3o” is not a number.')).toBeVisible();
  await dialog.getByLabel('Ring teeth').fill('44.5');
  await expect(dialog.getByText('2 fields cannot be used yet: Ring teeth, Face width.')).toBeVisible();
  await dialog.getByRole('button', { name: 'Go to Ring teeth' }).click();
  await expect(dialog.getByLabel('Ring teeth')).toBeFocused();

  await page.reload();
  dialog = editor(page);
  await choose(page, /^Build your own/);
  await expect(dialog.getByLabel('Face width')).toHaveValue('3o');
  await expect(dialog.getByLabel('Ring teeth')).toHaveValue('44.5');
  await expect(dialog.getByLabel('Face width')).toHaveAttribute('aria-invalid', 'true');
  await dialog.getByLabel('Face width').fill('31.5');
  await dialog.getByLabel('Ring teeth').fill('44');
  await made(dialog);
  await dialog.getByRole('button', { name: 'Undo in this form' }).click();
  await expect(dialog.getByLabel('Ring teeth')).toHaveValue('44.5');
});

test('a field keeps its length when the unit changes', async ({ page }) => {
  await openApp(page);
  let dialog = await build(page);
  await dialog.getByLabel('Ring diameter').fill('8.25 in');
  await made(dialog);
  await page.keyboard.press('Tab');
  await expect(dialog.getByLabel('Ring diameter')).toHaveValue('209.55');
  await page.keyboard.press('Escape');
  await page.getByRole('radio', { name: 'Inches' }).check({ force: true });
  dialog = await build(page);
  await expect(dialog.getByLabel('Ring diameter')).toHaveValue('8.25');
  await dialog.getByLabel('Ring diameter').fill('1');
  await expect(dialog.getByText(/1\.0000?.in is outside|1.in is outside/)).toBeVisible();
});

test('exported, deleted, restored, imported again, copied', async ({ page }) => {
  await openApp(page);
  await keepOne(page, 'Barn axle');
  let dialog = await openList(page);

  const download = page.waitForEvent('download');
  await dialog.getByRole('button', { name: 'Export Barn axle' }).click();
  const file = await download;
  expect(file.suggestedFilename()).toBe('axle-barn-axle.json');
  const text = readFileSync(await file.path(), 'utf8');
  const read = readAxleFile(text);
  expect(read).toMatchObject({
    ok: true,
    value: { axle: { name: 'Barn axle', gearset: { faceWidth: 30.2 } } },
  });

  await dialog.getByRole('button', { name: 'Delete Barn axle' }).click();
  await expect(dialog.getByText('Barn axle deleted.')).toBeVisible();
  await dialog.getByRole('button', { name: 'Take it back' }).click();
  await expect(dialog.getByText('Barn axle is back.')).toBeVisible();
  await dialog.getByRole('button', { name: 'Delete Barn axle' }).click();
  await page.keyboard.press('Escape');
  await expect(chooser(page)).toContainText('Borrin');

  await page.reload();
  dialog = await openList(page);
  await importFile(page, 'axle-barn-axle.json', text);
  await expect(dialog.getByText('Barn axle imported.')).toBeVisible();
  await importFile(page, 'axle-barn-axle.json', text);
  await expect(dialog.getByText('Barn axle is here already, exactly as in the file.')).toBeVisible();

  await dialog.getByRole('button', { name: 'Copy Barn axle' }).click();
  const copy = editor(page);
  await expect(copy.getByLabel('Name', { exact: true })).toHaveValue('Barn axle, copy');
  await made(copy);
  await copy.getByRole('button', { name: 'Keep and put on the bench' }).click();
  await expect(chooser(page)).toContainText('Barn axle, copy');
});

test('a file that is wrong is refused by field and changes nothing', async ({ page }) => {
  await openApp(page);
  const dialog = await openList(page);
  const text = writeAxleFile({ key: 'k3f9q2zz', axle: AXLES.cavel });
  await importFile(page, 'broken.json', text.replace('"film_mm": ', '"film_mm": 9'));
  await expect(dialog.getByText('broken.json was not imported. Nothing was changed.')).toBeVisible();
  await expect(dialog.getByText(/axle\.film_mm: 9.*allowed: a number from 0\.001 to 0\.1 mm/)).toBeVisible();
  await importFile(page, 'notes.json', 'not an axle');
  await expect(dialog.getByText('notes.json was not imported. Nothing was changed.')).toBeVisible();
  await expect(dialog.getByText('None yet.', { exact: false })).toBeVisible();
});

test('a link to an own axle that is not here waits for its file', async ({ page, browser, baseURL }) => {
  await openApp(page);
  const axle = { ...AXLES.aldra, name: 'Sent axle', fictional: false };
  const text = writeAxleFile({ key: 'k3f9q2zz', axle });
  await openList(page);
  await importFile(page, 'sent.json', text);
  await list(page).getByRole('button', { name: 'Put Sent axle on the bench' }).click();
  await expect(page.locator('html')).toHaveAttribute('data-address', 'rested');
  await page.getByRole('button', { name: /^Pinion shim .* thicker$/ }).click();
  await expect.poll(() => page.evaluate(() => window.location.hash)).toContain('pinion=1.3');
  const hash = await page.evaluate(() => window.location.hash);

  const other = await browser.newContext({ baseURL: baseURL ?? '' });
  const theirs = await other.newPage();
  await asUsedBefore(theirs);
  await openApp(theirs, `./${hash}`);
  await expect(chooser(theirs)).toContainText('Borrin');
  const notices = theirs.getByRole('region', { name: 'Notices' });
  await expect(notices).toContainText('This link is for an own axle that is not on this device');
  await notices.getByRole('button', { name: 'Import the axle’s file' }).click();
  await importFile(theirs, 'sent.json', text);
  await expect(list(theirs).getByText('Sent axle imported.')).toBeVisible();
  await theirs.keyboard.press('Escape');
  await expect(chooser(theirs)).toContainText('Sent axle');
  await expect(notices).not.toContainText('This link is for an own axle');
  await expect(theirs.getByLabel('Thickness of the pinion shim')).toHaveValue('1.300');
  await other.close();
});

test('an own axle that is changed takes the place of the former one; undo brings that back', async ({
  page,
}) => {
  await openApp(page);
  await keepOne(page, 'Yard axle');
  await openList(page);
  await list(page).getByRole('button', { name: 'Change Yard axle' }).click();
  const dialog = editor(page);
  await made(dialog);
  await dialog.getByLabel('Name', { exact: true }).fill('Yard axle, remeasured');
  await dialog.getByLabel('Face width').fill('30.4');
  await made(dialog);
  await dialog.getByRole('button', { name: 'Keep and put on the bench' }).click();
  await expect(chooser(page)).toContainText('Yard axle, remeasured');
  await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
  await expect(chooser(page)).not.toContainText('remeasured');
});

test('the draft’s maps show what the solver says of it', async ({ page }) => {
  await openApp(page);
  await openList(page);
  await list(page).getByRole('button', { name: 'Copy Dornet' }).click();
  const dialog = editor(page);
  await made(dialog);
  const { drive } = marksHere(AXLES.dornet);
  const words = `${Math.round(drive.length * 100)} % of length, ${Math.round(drive.height * 100)} % of height`;
  await expect(dialog.locator('figure[data-flank="drive"]')).toContainText(words);
});

test('the nearest makeable value is offered and taken', async ({ page }) => {
  await openApp(page);
  const dialog = await build(page);
  await dialog.getByLabel('Face width').fill('90');
  await dialog.getByRole('button', { name: /^Use the nearest makeable, Face width/ }).click();
  await made(dialog);
  await expect(dialog.getByLabel('Face width')).not.toHaveValue('90');
  await dialog.getByRole('button', { name: 'Undo in this form' }).click();
  await expect(dialog.getByLabel('Face width')).toHaveValue('90');
});

test('the design pattern follows its handles, by keys and by hand; the ease-off is solved for', async ({
  page,
}) => {
  await openApp(page);
  await openList(page);
  await list(page).getByRole('button', { name: 'Copy Borrin' }).click();
  const dialog = editor(page);
  await made(dialog);
  const middle = dialog.getByRole('slider', { name: 'Drive flank: middle of the wanted pattern' });
  await expect(middle).toHaveAttribute('aria-valuetext', /11 % toward the toe, 12 % toward the face/);
  await middle.focus();
  for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowRight');
  // eight steps of two percent toward the heel, reached within two percent
  const numbers = dialog.locator('figure[data-flank="drive"]');
  await expect(numbers).toContainText(/Centre\s*[3-7] % heel, 1[0-4] % face/);
  await expect(middle).toHaveAttribute('aria-valuetext', /[3-7] % toward the heel/);

  await dialog.getByText('What a caliper does not tell').click();
  const easeOff = dialog.getByRole('region', { name: 'Ease-off of the drive flank' });
  const solved = await easeOff.getByLabel('Centre along').inputValue();
  expect(solved).not.toBe(String(AXLES.borrin.gearset.easeOff.drive.centerToeHeel));

  const top = dialog.getByRole('slider', { name: 'Coast flank: top of the wanted pattern, height' });
  await top.scrollIntoViewIfNeeded();
  const box = await top.boundingBox();
  if (box === null) throw new Error('no handle');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 6, { steps: 3 });
  await page.mouse.up();
  await expect(dialog.locator('figure[data-flank="coast"]')).not.toContainText('71 % of height');

  await dialog.getByRole('button', { name: 'Undo in this form' }).click();
  await dialog.getByRole('button', { name: 'Undo in this form' }).click();
  await expect(numbers).toContainText('11 % toe, 12 % face');
});

test('a pattern that cannot be had is refused in words, and the nearest can be taken', async ({ page }) => {
  await openApp(page);
  await openList(page);
  await list(page).getByRole('button', { name: 'Copy Cavel' }).click();
  const dialog = editor(page);
  await made(dialog);
  const middle = dialog.getByRole('slider', { name: 'Coast flank: middle of the wanted pattern' });
  await middle.focus();
  for (let i = 0; i < 50; i++) await page.keyboard.press('ArrowDown');
  const panel = dialog.locator('[data-wish="coast"]');
  await expect(panel).toContainText('Cannot be had on this set: 80 % toward the root.');
  await dialog.getByRole('button', { name: 'Take the nearest' }).click();
  await expect(panel).toBeEmpty();
  await made(dialog);
});

test('what we do not know of an own axle is varied and said; a practice axle has no such switch', async ({
  page,
}) => {
  await openApp(page);
  const maps = page.getByRole('region', { name: 'Flank maps' });
  const toggle = maps.getByRole('button', { name: 'What we do not know' });
  await expect(toggle).toHaveCount(0);
  const axle = { ...AXLES.borrin, name: 'Sent axle', fictional: false };
  await openList(page);
  await importFile(page, 'sent.json', writeAxleFile({ key: 'k3f9q2zz', axle }));
  await list(page).getByRole('button', { name: 'Put Sent axle on the bench' }).click();
  await toggle.click();
  const drive = maps.getByRole('region', { name: 'What we do not know, Drive flank' });
  await expect(drive).toContainText(/\d+ of 96 sets tried/);
  await drive.getByRole('button', { name: 'Stop' }).click();
  await expect(drive).toContainText(/Stopped after \d+ of 96 sets/);
  await expect(drive).toContainText(/Pinion shim 0\.025.mm thicker: robust: toward root in \d+ %/);
  await expect(maps.locator('[data-layer="spread"]')).toHaveCount(2);
  await toggle.click();
  await expect(drive).toHaveCount(0);
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`axe finds nothing to complain of in list and editor, ${theme}`, async ({ page }) => {
    await openApp(page);
    if (theme === 'projector')
      await page.getByRole('button', { name: 'Switch to the projector theme' }).click();
    await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
    const violations = async () =>
      (await new AxeBuilder({ page }).include('[role="dialog"]').analyze()).violations.map(
        ({ id, nodes }) => [id, ...nodes.map(({ target }) => target.join(' '))],
      );
    await openList(page);
    expect(await violations()).toEqual([]);
    await page.keyboard.press('Escape');
    const dialog = await build(page);
    for (const part of await dialog.locator('summary').all()) await part.click();
    await dialog.getByLabel('Ring teeth').fill('x');
    await expect(dialog.getByText('One field cannot be used yet: Ring teeth.')).toBeVisible();
    expect(await violations()).toEqual([]);
  });
}
