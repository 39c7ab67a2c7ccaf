import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { asUsedBefore } from './support/explore.ts';
import { watch } from './support/watch.ts';

const answer = (page: Page) => page.getByRole('region', { name: 'What to fit next' });
const trials = (page: Page) => page.getByRole('region', { name: 'Trials kept' });
const painter = (page: Page) => page.getByRole('application', { name: /^Drive flank/ });
const keep = (page: Page) => answer(page).getByRole('button', { name: 'Keep as a trial' });

async function openMatch(page: Page, theme: 'workshop' | 'projector' = 'workshop'): Promise<void> {
  await asUsedBefore(page, theme);
  await page.goto('./#/match');
  await painter(page).waitFor();
}

async function pick(page: Page, story: RegExp): Promise<void> {
  await page.getByRole('button', { name: 'Pick a pattern' }).click();
  await page.getByRole('button', { name: story }).click();
  await expect(keep(page)).toBeEnabled({ timeout: 30_000 });
}

const DEEP = /^Pinion 0\.14\smm too deep, ring right/;
const RIGHT = /^Pinion depth right, ring right/;

/** The mark of the drive flank in words. */
const mark = (page: Page) => painter(page).locator('figcaption').textContent();

async function unfold(page: Page): Promise<void> {
  await trials(page)
    .getByText(/^Trials kept: \d+$/)
    .click();
}

test('a look is kept as a trial, is there after a reload, is opened again and deleted', async ({
  page,
  context,
}) => {
  const watched = watch(context);
  await openMatch(page);
  await expect(trials(page)).toHaveCount(0);
  await pick(page, DEEP);
  const deep = await mark(page);
  const note = answer(page).getByRole('textbox', { name: 'Note to the trial, if you like' });
  // a note too long is said to be so, and not cut
  await note.fill('first setting '.repeat(15));
  await expect(answer(page).getByRole('alert')).toHaveText(/has 209 characters; allowed: at most 200/);
  await expect(keep(page)).toBeDisabled();
  await expect(note).toHaveValue('first setting '.repeat(15));
  await note.fill('first setting');
  await expect(answer(page).getByRole('alert')).toHaveCount(0);
  await keep(page).click();
  await expect(answer(page).getByText('Kept as trial 1 of Borrin.')).toBeVisible();
  // the very same look is no second trial
  await keep(page).click();
  await expect(answer(page).getByText('Kept already, as trial 1 of Borrin.')).toBeVisible();

  await pick(page, RIGHT);
  await expect(answer(page).getByText(/^Kept/)).toHaveCount(0);
  const right = await mark(page);
  expect(right).not.toBe(deep);
  await keep(page).click();
  await expect(answer(page).getByText('Kept as trial 2 of Borrin.')).toBeVisible();
  // the looks themselves are written when the hand rests
  await page.waitForTimeout(700);

  await page.reload();
  await unfold(page);
  const lines = trials(page).getByRole('listitem');
  await expect(lines).toHaveCount(2);
  await expect(lines.nth(0)).toContainText('Trial 2');
  await expect(lines.nth(1)).toContainText('Trial 1');
  await expect(lines.nth(1)).toContainText(
    'Fitted: pinion shim 1.350 mm, ring side 5.86 mm, opposite side 6.14 mm. No dial reading.',
  );
  await expect(lines.nth(1)).toContainText(/Advised: pinion shim 1\.\d+/);
  await expect(lines.nth(1)).toContainText('first setting');

  // opened again, and taken back
  await trials(page).getByRole('button', { name: 'Open trial 1' }).click();
  await expect(trials(page).getByRole('status')).toContainText('Trial 1 is open.');
  expect(await mark(page)).toBe(deep);
  await expect(answer(page).getByRole('textbox', { name: /^Note/ })).toHaveValue('first setting', {
    timeout: 30_000,
  });
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => mark(page)).toBe(right);

  // deleted by keys, brought back, deleted
  await trials(page).getByRole('button', { name: 'Delete trial 2' }).focus();
  await page.keyboard.press('Enter');
  await expect(trials(page).getByRole('status')).toContainText('Trial 2 is deleted.');
  await expect(trials(page)).toBeFocused();
  await trials(page).getByRole('button', { name: 'Bring back trial 2' }).click();
  await expect(trials(page).getByRole('button', { name: 'Delete trial 2' })).toBeVisible();
  await trials(page).getByRole('button', { name: 'Delete trial 1' }).click();
  await page.reload();
  await unfold(page);
  await expect(trials(page).getByRole('button', { name: /^Delete/ })).toHaveCount(1);
  await expect(trials(page).getByRole('button', { name: 'Bring back trial 1' })).toBeVisible();

  // another axle has none
  await page.getByRole('combobox', { name: 'Axle' }).click();
  await page.getByRole('option', { name: /Cavel/ }).click();
  await expect(trials(page)).toHaveCount(0);
  expect(watched.complaints).toEqual([]);
});

test('what another has damaged is told by field and left where it is', async ({ page }) => {
  await page.addInitScript(() => {
    if (localStorage.getItem('meshwitness.trials') !== null) return;
    const content = { kept: [{ id: 'abcdefghijkl', axleId: 'borrin', number: 0 }], deleted: [] };
    localStorage.setItem('meshwitness.trials', JSON.stringify({ version: 1, content }));
  });
  await openMatch(page);
  await expect(trials(page)).toContainText(
    'One trial on this device cannot be read and stays there untouched. number: 0; allowed: a whole number from 1',
  );
  await pick(page, RIGHT);
  await keep(page).click();
  await expect(answer(page).getByText('Kept as trial 1 of Borrin.')).toBeVisible();
  const kept = await page.evaluate(() => localStorage.getItem('meshwitness.trials'));
  expect(JSON.parse(kept ?? '').content.kept[0]).toEqual({ id: 'abcdefghijkl', axleId: 'borrin', number: 0 });
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`axe finds nothing to complain of in the trials kept, ${theme}`, async ({ page }) => {
    await openMatch(page, theme);
    await pick(page, DEEP);
    await keep(page).click();
    await pick(page, RIGHT);
    await answer(page).getByRole('textbox', { name: /^Note/ }).fill('after the second shim');
    await keep(page).click();
    await unfold(page);
    await trials(page).getByRole('button', { name: 'Delete trial 1' }).click();
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual(
      [],
    );
  });
}

for (const size of [
  { width: 1920, height: 1080 },
  { width: 1366, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
]) {
  test(`trials kept at ${size.width}×${size.height} fit the window, with targets for gloves`, async ({
    page,
  }) => {
    await page.setViewportSize(size);
    await openMatch(page);
    await pick(page, DEEP);
    await answer(page).getByRole('textbox', { name: /^Note/ }).fill('N'.repeat(200));
    await keep(page).click();
    await unfold(page);
    await expect(trials(page).getByRole('listitem')).toHaveCount(1);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
    const small = await page
      .locator('main button:visible, main summary:visible, main input[type="text"][maxlength]:visible')
      .evaluateAll((elements) =>
        elements
          .map((element) => ({ name: element.textContent ?? '', box: element.getBoundingClientRect() }))
          .filter(({ box }) => box.height > 0 && (box.height < 43.5 || box.width < 43.5))
          .map(({ name }) => name),
      );
    expect(small).toEqual([]);
  });
}
