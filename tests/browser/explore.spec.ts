import { expect, type Page, test } from '@playwright/test';
import { setupAsFound } from '../../src/state/setup.ts';
import { asUsedBefore, expectSolved, setupOf, slide, solveHere } from './support/explore.ts';
import { openApp, watch } from './support/watch.ts';

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const field = (page: Page, name: string) => page.getByRole('textbox', { name });
const slider = (page: Page, name: string) => page.getByRole('slider', { name, exact: true });
const pinionWords = (page: Page) => page.getByRole('region', { name: 'Pinion shim' });
const ringWords = (page: Page) => page.getByRole('region', { name: 'Ring position' });

async function chooseAxle(page: Page, name: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Axle' }).click();
  await page.getByRole('option', { name }).click();
}

test('a person works every control once, and the screen shows the solver’s numbers each time', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await openApp(page);

  // first use: the question about the compound
  const question = page.getByRole('group', { name: 'What colour is your marking compound?' });
  await question.getByRole('button', { name: 'Blue' }).click();
  await expect(question).toHaveCount(0);
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));

  // pinion shim: step, slide, type
  await button(page, 'Pinion shim 0.025 mm thicker').click();
  await button(page, 'Pinion shim 0.025 mm thicker').click();
  await expect(pinionWords(page)).toContainText('0.05 mm thicker than found: pinion moves in.');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.4);
  await button(page, 'Pinion shim 0.025 mm thinner').click();
  await slide(slider(page, 'Pinion shim'), 'ArrowRight', 3);
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.45);
  await expect(slider(page, 'Pinion shim')).toHaveAttribute(
    'aria-valuetext',
    /^1\.450\smm, pinion 0\.10\smm in from the design position$/,
  );
  const thickness = field(page, 'Thickness of the pinion shim');
  await thickness.fill('1,3');
  await thickness.press('Enter');
  await expect(thickness).toHaveValue('1.300');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.3);
  await thickness.fill('12.5.1');
  await thickness.press('Enter');
  await expect(page.getByText('“12.5.1” has more than one decimal mark.')).toBeVisible();
  await thickness.press('Escape');
  await expect(thickness).toHaveValue('1.300');
  await thickness.fill('0.05 in');
  await thickness.press('Enter');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.27);
  await expect(pinionWords(page)).toContainText('Not a thickness in stock. Nearest: 1.275 mm.');
  await thickness.fill('3');
  await thickness.press('Enter');
  await expect(page.getByText('3.000 mm is outside 1.000 mm to 1.700 mm.')).toBeVisible();
  await thickness.press('Escape');

  // ring position: move from side to side, slide, type, with and without the total
  await button(page, /^Ring in by 0\.04 mm/).click();
  await expect(ringWords(page)).toContainText(
    '0.04 mm moved to the ring side: ring moves in, toward the pinion.',
  );
  await expect(ringWords(page)).toContainText('Total and preload stay.');
  await button(page, /^Ring out by 0\.04 mm/).click();
  await slide(slider(page, 'Ring position, total kept'), 'ArrowLeft', 2);
  expect((await expectSolved(page)).fitment).toMatchObject({ ringSide: 5.78, oppositeSide: 6.22 });
  await field(page, 'Ring side, thickness').fill('5.9');
  await field(page, 'Ring side, thickness').press('Enter');
  expect((await expectSolved(page)).fitment).toMatchObject({ ringSide: 5.9, oppositeSide: 6.1 });
  await button(page, 'Keep the total').click();
  await field(page, 'Opposite side, thickness').fill('6.2');
  await field(page, 'Opposite side, thickness').press('Enter');
  expect((await expectSolved(page)).fitment).toMatchObject({ ringSide: 5.9, oppositeSide: 6.2 });
  await expect(ringWords(page)).toContainText('Total 0.10 mm more than found: more carrier bearing preload.');
  await button(page, 'Keep the total').click();

  // film of compound
  await slide(slider(page, 'Film of compound'), 'ArrowRight', 4);
  expect((await expectSolved(page)).film).toBe(0.016);
  await field(page, 'Thickness of the film of compound').fill('0.0095');
  await field(page, 'Thickness of the film of compound').press('Enter');
  expect((await expectSolved(page)).film).toBe(0.0095);

  // housing errors
  await page.getByText('Housing errors', { exact: true }).click();
  await expect(page.getByText('Shims cannot put this right.')).toBeVisible();
  await slide(slider(page, 'Offset error'), 'ArrowRight', 5);
  await expect(page.getByText('Bores 0.05 mm further apart than drawn.')).toBeVisible();
  await field(page, 'Shaft angle error of the housing').fill('-0.03');
  await field(page, 'Shaft angle error of the housing').press('Enter');
  expect(await expectSolved(page)).toMatchObject({ offsetError: 0.05, shaftAngleError: -0.03 });
  await slide(slider(page, 'Shaft angle error'), 'ArrowLeft', 1);
  await field(page, 'Offset error of the housing bore').fill('-0.02');
  await field(page, 'Offset error of the housing bore').press('Enter');
  expect(await expectSolved(page)).toMatchObject({ offsetError: -0.02, shaftAngleError: -0.04 });
  await button(page, 'Housing true again').click();
  expect(await expectSolved(page)).toMatchObject({ offsetError: 0, shaftAngleError: 0 });

  // back to where it began
  await button(page, 'Design').click();
  expect((await expectSolved(page)).fitment).toEqual(setupAsFound('borrin').fitment);
  await button(page, 'As found').click();
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));

  // fine steps
  await page.getByRole('switch', { name: 'Fine steps' }).click();
  await button(page, 'Pinion shim 0.01 mm thicker').click();
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.36);
  await page.getByRole('switch', { name: 'Fine steps' }).click();

  // lines on the maps
  await expect(page.locator('figure[data-flank="drive"] path[class*="contour"]')).toHaveCount(0);
  await button(page, 'Gap lines').click();
  await expect(page.locator('figure[data-flank="drive"] path[class*="contour"]').first()).toBeVisible();

  // undo and redo
  await button(page, 'Undo').click();
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));
  await button(page, 'Redo').click();
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.36);

  // inch and back
  await page.getByRole('radio', { name: 'Inches' }).first().check({ force: true });
  await expect(thickness).toHaveValue('0.0535');
  await expectSolved(page, 'in');
  await thickness.fill('.0531');
  await thickness.press('Enter');
  expect((await expectSolved(page, 'in')).fitment.pinionShim).toBe(1.3487);
  await page.getByRole('radio', { name: 'Millimetres' }).first().check({ force: true });

  // theme: the system decides until somebody does
  const html = page.locator('html');
  await expect(html).toHaveAttribute('data-theme', 'projector');
  await page.emulateMedia({ colorScheme: 'dark' });
  await expect(html).toHaveAttribute('data-theme', 'workshop');
  await button(page, 'Switch to the projector theme').click();
  await expect(html).toHaveAttribute('data-theme', 'projector');
  await button(page, 'Switch to the workshop theme').click();
  await page.emulateMedia({ colorScheme: 'light' });
  await expect(html).toHaveAttribute('data-theme', 'workshop');

  expect(seen.complaints).toEqual([]);
});

test('settings, keys and about: each opens, each choice holds and is there after a reload', async ({
  page,
}) => {
  await openApp(page);
  await button(page, 'Settings').click();
  const settings = page.getByRole('dialog', { name: 'Settings' });
  const choose = (name: string) => settings.getByRole('radio', { name, exact: true }).check({ force: true });
  await choose('Projector');
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'projector');
  await choose('Inches');
  await choose('Red');
  await choose('Full');
  await settings.getByRole('switch', { name: 'Fine steps, free of the shim stock' }).click();
  await choose('0.00004 in');
  await settings.getByRole('switch', { name: 'Single keys work without Ctrl' }).click();
  await settings.getByRole('button', { name: 'Close' }).click();
  await expect(settings).toHaveCount(0);
  await expect(button(page, 'Settings')).toBeFocused();

  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'projector');
  await expect(field(page, 'Thickness of the pinion shim')).toHaveValue('0.0531');
  await button(page, 'Settings').click();
  for (const name of ['Projector', 'Inches', 'Red', 'Full', '0.00004 in']) {
    await expect(settings.getByRole('radio', { name, exact: true })).toBeChecked();
  }
  await settings.getByRole('button', { name: 'Settings as at first use' }).click();
  await expect(settings.getByRole('radio', { name: 'Automatic' })).toBeChecked();
  await settings.getByRole('button', { name: 'About' }).click();
  const about = page.getByRole('dialog', { name: 'About' });
  await expect(about).toContainText(
    'The axle maker’s manual, your local rules and the paint on the real teeth decide.',
  );
  await expect(about).toContainText('They have not been compared with a measured axle.');
  await page.keyboard.press('Escape');
  await expect(about).toHaveCount(0);
  await button(page, 'Keys and help').click();
  await expect(page.getByRole('dialog', { name: 'Keys and help' })).toContainText(
    'Pinion shim one step thicker',
  );
});

test('each axle speaks for its own shims', async ({ page }) => {
  await asUsedBefore(page);
  await openApp(page);
  await chooseAxle(page, 'Elspar');
  await expect(pinionWords(page)).toContainText('under the pinion cartridge');
  await button(page, /^Pinion shim .* thicker$/).click();
  await expect(pinionWords(page)).toContainText('0.05 mm thicker than found: pinion moves out.');
  await expectSolved(page);

  await chooseAxle(page, 'Cavel');
  await button(page, /^Ring in by/).click();
  await expect(ringWords(page)).toContainText('Ring side 1 notch in, opposite side 1 notch out');
  expect((await expectSolved(page)).fitment).toMatchObject({
    ringSide: setupAsFound('cavel').fitment.ringSide + 1,
    oppositeSide: setupAsFound('cavel').fitment.oppositeSide - 1,
  });
  const notches = field(page, 'Ring side, notches');
  await notches.fill('70.5');
  await notches.press('Enter');
  await expect(page.getByText('70.5 notches is between lock positions. Fine steps allow it.')).toBeVisible();
  await notches.press('Escape');

  await chooseAxle(page, 'Dornet');
  await expect(page.locator('figure[data-flank="drive"]')).toHaveAttribute('data-heel', 'left');
  await button(page, /^Ring out by/).click();
  await expectSolved(page);
  await chooseAxle(page, 'Aldra');
  await expectSolved(page);
  await expect(page.getByRole('combobox', { name: 'Axle' })).toContainText('invented axle');
});

test('backlash is judged in words against the axle’s limits, and binding is warned of', async ({ page }) => {
  await asUsedBefore(page);
  await openApp(page);
  const panel = page.getByRole('region', { name: 'Backlash at the heel' });
  await expect(panel).toContainText('Inside the limits.');
  await page.goto('./#/explore?axle=borrin&ring=5.95&opposite=6.05');
  const { backlash } = solveHere(await setupOf(page));
  await expect(panel).toContainText(
    `${(0.13 - (backlash.normal ?? 0)).toFixed(3)} mm below the least allowed.`,
  );
  await page.goto('./#/explore?axle=borrin&ring=5.7&opposite=6.3');
  await expect(panel).toContainText('above the most allowed.');
  await page.goto('./#/explore?axle=borrin&ring=6.16&opposite=5.84');
  await expect(panel).toContainText('The teeth bind.');
  await expectSolved(page);
});

test('keyboard alone: skip, step, slide, type, undo, help', async ({ page }) => {
  await asUsedBefore(page);
  await openApp(page);
  await page.keyboard.press('Tab');
  await expect(button(page, 'Skip to the controls')).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.locator('#controls')).toBeFocused();
  await page.keyboard.press('Tab');
  await expect(button(page, 'As found')).toBeFocused();
  for (let tab = 0; tab < 3; tab += 1) await page.keyboard.press('Tab');
  await expect(field(page, 'Thickness of the pinion shim')).toBeFocused();
  await page.keyboard.type('1.375');
  await page.keyboard.press('Enter');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.375);
  await page.keyboard.press('Tab');
  await expect(button(page, 'Pinion shim 0.025 mm thinner')).toBeFocused();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Space');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.325);
  await page.keyboard.press('Tab');
  await expect(slider(page, 'Pinion shim')).toBeFocused();
  await page.keyboard.press('End');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.7);
  await page.keyboard.press('Control+z');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.325);
  await page.keyboard.press('Control+Shift+z');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.7);

  // single keys
  await page.keyboard.press('g');
  await page.keyboard.press('w');
  await page.keyboard.press('s');
  expect((await expectSolved(page)).fitment).toEqual({ pinionShim: 1.375, ringSide: 5.9, oppositeSide: 6.1 });
  for (const key of ['q', 'a', 'x', 'x', 'z', 'o', 'p', 'p', 'l', 'k', 'k']) await page.keyboard.press(key);
  expect(await expectSolved(page)).toMatchObject({
    ...setupAsFound('borrin'),
    film: 0.013,
    offsetError: 0.01,
    shaftAngleError: -0.01,
  });
  await page.keyboard.press('d');
  expect(await expectSolved(page)).toMatchObject({ offsetError: 0, shaftAngleError: 0, film: 0.013 });
  await page.keyboard.press('c');
  await expect(button(page, 'Gap lines')).toHaveAttribute('aria-pressed', 'true');
  await page.keyboard.press('3');
  await expect(page).toHaveURL(/camera=drive/);
  await page.keyboard.press('u');
  await expect(field(page, 'Thickness of the pinion shim')).toHaveValue('0.0531');
  await page.keyboard.press('f');
  await expect(page.getByRole('switch', { name: 'Fine steps' })).toBeChecked();
  await page.keyboard.press('t');
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'projector');
  await page.keyboard.press('Shift+?');
  await expect(page.getByRole('dialog', { name: 'Keys and help' })).toBeVisible();
  await page.keyboard.press('w');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  expect((await setupOf(page)).fitment.pinionShim).toBe(1.35);

  // a letter typed into a field is text, not a command
  await field(page, 'Thickness of the pinion shim').focus();
  await page.keyboard.type('w');
  await page.keyboard.press('Escape');
  expect((await setupOf(page)).fitment.pinionShim).toBe(1.35);
});

test('a drag on a slider is one step for undo, and the words for screen readers follow when it rests', async ({
  page,
}) => {
  await asUsedBefore(page);
  await openApp(page);
  const words = page.getByRole('region', { name: 'The pattern in words' });
  await expect(words).toContainText('Drive flank: middle of the mark');
  const before = await words.textContent();
  const thumb = slider(page, 'Pinion shim').locator('..');
  const box = await thumb.boundingBox();
  if (box === null) throw new Error('the slider is not on the screen');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 12; step += 1) await page.mouse.move(x + step * 5, y);
  await page.mouse.up();
  const setup = await expectSolved(page);
  expect(setup.fitment.pinionShim).toBeGreaterThan(1.45);
  await expect.poll(() => words.textContent()).not.toBe(before);
  await expect(words).toContainText('Least backlash');
  await button(page, 'Undo').click();
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));
  await expect(button(page, 'Undo')).toBeDisabled();

  // so is an arrow key that is held
  await slider(page, 'Pinion shim').focus();
  for (let repeat = 0; repeat < 5; repeat += 1) await page.keyboard.down('ArrowLeft');
  await page.keyboard.up('ArrowLeft');
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.225);
  await button(page, 'Undo').click();
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));
});

test('a link brings another page to the same picture', async ({ page, context }) => {
  await asUsedBefore(page);
  await openApp(page);
  await chooseAxle(page, 'Aldra');
  await button(page, /^Pinion shim .* thinner$/).click();
  await button(page, /^Ring out by/).click();
  await slide(slider(page, 'Film of compound'), 'ArrowLeft', 1);
  await button(page, 'Gap lines').click();
  const setup = await expectSolved(page);
  const maps = (of: Page) => of.getByRole('region', { name: 'Flank maps' });
  const paths = (of: Page) =>
    maps(of)
      .locator('figure path')
      // where the mark came from is this page's own: a link brings the set-up, not the way to it
      .evaluateAll((found) =>
        found
          .filter((path) => path.closest('[data-layer="former"], [data-layer="trail"]') === null)
          .map((path) => path.getAttribute('d')),
      );
  const drawn = await paths(page);

  const other = await context.newPage();
  await asUsedBefore(other);
  await openApp(other, page.url());
  expect(await expectSolved(other)).toEqual(setup);
  expect(other.url()).toBe(page.url());
  expect(await paths(other)).toEqual(drawn);
  await expect(button(other, 'Undo')).toBeDisabled();
});

test('a damaged link is shown as far as it goes, told of, and kept word for word', async ({ page }) => {
  await asUsedBefore(page);
  await openApp(page, './#/explore?v=1&axle=cavel&pinion=1.65&ring=many&film=9000&colour=pink');
  const notices = page.getByRole('region', { name: 'Notices' });
  await expect(notices).toContainText('This link was not understood completely.');
  await notices.getByText('What was not understood').click();
  await expect(notices).toContainText('ring: “many”. Allowed: 65.8 to 76.2 notches.');
  await expect(notices).toContainText('film: “9000”. Allowed: 2 to 40 µm.');
  await expect(notices).toContainText('colour: “pink”. This part is not known');
  const found = setupAsFound('cavel');
  expect(await expectSolved(page)).toEqual({ ...found, fitment: { ...found.fitment, pinionShim: 1.65 } });
  await button(page, 'Dismiss this notice').click();
  await expect(notices).not.toContainText('not understood');
  await button(page, 'Settings').click();
  const settings = page.getByRole('dialog', { name: 'Settings' });
  await expect(settings).toContainText('/explore?v=1&axle=cavel&pinion=1.65&ring=many&film=9000&colour=pink');
  await settings.getByRole('button', { name: 'Delete these' }).click();
  await expect(settings).not.toContainText('ring=many');
});

test('without WebGL the maps, readings and controls go on working, and a notice says so', async ({
  page,
}) => {
  await asUsedBefore(page);
  await page.addInitScript(() => {
    const original = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, ...args: unknown[]) {
      if (String(args[0]).startsWith('webgl')) return null;
      return Reflect.apply(original, this, args);
    } as typeof original;
  });
  await page.goto('./');
  await expect(
    page.getByText(/The flank maps show the same pattern|The flank maps and readings go on working/),
  ).toBeVisible();
  await button(page, 'Pinion shim 0.025 mm thicker').click();
  expect((await expectSolved(page)).fitment.pinionShim).toBe(1.375);
});
