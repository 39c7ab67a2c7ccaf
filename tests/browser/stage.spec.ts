import { expect, type Page, test } from '@playwright/test';
import { AXLE_IDS } from '../../models/index.ts';
import { axleOf } from '../../src/state/axles.ts';
import { COMPOUND_COLOURS } from '../../src/state/preferences.ts';
import { rubbedSteel } from '../../src/theme/steel.ts';
import { asUsedBefore, expectSolved, solveHere } from './support/explore.ts';
import { atRest, chooseHome, compareFlank, look, picture, solidsHere, stageView } from './support/stage.ts';
import { openApp, watch } from './support/watch.ts';

const COLOURS = { compound: COMPOUND_COLOURS.yellow, mark: rubbedSteel(COMPOUND_COLOURS.yellow) };

/** Opens the app on a device used before, that wants the given detail. */
async function open(page: Page, query: string, detail: 'full' | 'reduced' = 'reduced'): Promise<void> {
  await page.addInitScript((wanted) => {
    if (location.protocol === 'about:') return;
    const content = { theme: 'workshop', compound: 'yellow', detail: wanted, units: 'mm' };
    localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
  }, detail);
  // a new document each time: a change of the hash alone keeps the old picture for a moment
  await page.goto('about:blank');
  await openApp(page, `./#/explore?${query}`);
  await expect(stageView(page)).toHaveAttribute('data-view-projection', /\d/);
  await atRest(page);
}

/** Presses a switch among the further controls of the stage, which may have to be opened first. */
async function pressMore(page: Page, name: string): Promise<void> {
  const more = page.getByRole('button', { name: 'More', exact: true });
  if (await more.isVisible()) await more.click();
  await page.getByRole('button', { name, exact: true }).click();
  if (await more.isVisible()) await more.click();
}

test.describe('the paint on the stage', () => {
  const CASES = [
    { axle: 'borrin', query: 'axle=borrin', flank: 'drive' },
    { axle: 'borrin', query: 'axle=borrin&pinion=1.5', flank: 'coast' },
    { axle: 'cavel', query: 'axle=cavel&pinion=1.5', flank: 'drive' },
    { axle: 'dornet', query: 'axle=dornet&pinion=1.05', flank: 'drive' },
  ] as const;

  for (const { axle, query, flank } of CASES) {
    test(`is where the solver says, in the colours chosen, pixel by pixel: ${query}, ${flank}`, async ({
      page,
      context,
    }) => {
      const seen = watch(context);
      await open(page, query);
      const setup = await expectSolved(page);
      await pressMore(page, 'Labels');
      await chooseHome(page, flank === 'drive' ? 'Drive flank' : 'Coast flank');

      const solids = solidsHere(axle, 'reduced');
      const mirrored = axleOf(axle).axle.hand === 'reverse-cut';
      const solution = solveHere(setup);
      const seenNow = await look(page);
      const compare = (other = solution, mirror = mirrored) =>
        compareFlank(seenNow, flank, solids, other, mirror, COLOURS);
      const agreement = compare();
      expect(agreement.points).toBeGreaterThan(1000);
      expect(agreement.rubbed).toBeGreaterThan(150);
      expect(agreement.points - agreement.rubbed).toBeGreaterThan(150);
      expect(agreement.agreeing).toBeGreaterThan(0.995);

      // and the comparison can tell: another shim's pattern, or the mirror image, is not what is drawn
      const other = solveHere({
        ...setup,
        fitment: { ...setup.fitment, pinionShim: setup.fitment.pinionShim - 0.2 },
      });
      expect(compare(other).agreeing).toBeLessThan(0.97);
      expect(compare(solution, !mirrored).agreeing).toBeLessThan(0.9);
      expect(seen.complaints).toEqual([]);
    });
  }

  test('follows the shim while the page stays open', async ({ page }) => {
    await open(page, 'axle=borrin&camera=drive');
    await pressMore(page, 'Labels');
    const solids = solidsHere('borrin', 'reduced');
    const before = await expectSolved(page);
    for (let step = 0; step < 3; step++) {
      await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
    }
    const setup = await expectSolved(page);
    expect(setup.fitment.pinionShim).toBeCloseTo(before.fitment.pinionShim + 0.075, 9);
    await atRest(page);
    await expect
      .poll(
        async () =>
          compareFlank(await look(page), 'drive', solids, solveHere(setup), false, COLOURS).agreeing,
      )
      .toBeGreaterThan(0.995);
  });
});

test('a reverse-cut set is the mirror image: toe and heel change sides', async ({ page }) => {
  const sides = async (axle: string) => {
    await open(page, `axle=${axle}&camera=drive`);
    const label = (name: string) => stageView(page).locator('[data-label]').getByText(name, { exact: true });
    await expect(label('toe')).toBeVisible();
    await expect(label('heel')).toBeVisible();
    const [toe, heel] = [await label('toe').boundingBox(), await label('heel').boundingBox()];
    return Math.sign((heel?.x ?? 0) - (toe?.x ?? 0));
  };
  const standard = await sides('borrin');
  expect(standard).not.toBe(0);
  expect(await sides('dornet')).toBe(-standard);
});

test('every axle stays within the triangles and draw calls a slow device manages', async ({ page }) => {
  for (const axle of AXLE_IDS) {
    // at the mesh the pinion is seen through, which costs most
    await open(page, `axle=${axle}&camera=mesh`, 'full');
    const full = Number(await stageView(page).getAttribute('data-triangles'));
    expect(full, axle).toBeGreaterThan(40_000);
    expect(full, axle).toBeLessThanOrEqual(120_000);
    expect(Number(await stageView(page).getAttribute('data-calls'))).toBeLessThanOrEqual(40);
  }
});

test('the stage is worked by keys and by hand, and draws only when something moves', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await page.addInitScript(() => {
    const counter = window as unknown as { drawn: number };
    counter.drawn = 0;
    const draw = WebGL2RenderingContext.prototype.drawElementsInstanced;
    WebGL2RenderingContext.prototype.drawElementsInstanced = function (...args) {
      counter.drawn += 1;
      return draw.apply(this, args);
    };
  });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await open(page, 'axle=borrin&camera=whole');
  const view = stageView(page);
  const drawn = () => page.evaluate(() => (window as unknown as { drawn: number }).drawn);
  const camera = () => view.getAttribute('data-view-projection');
  const moved = async (act: () => Promise<unknown>) => {
    const before = await camera();
    await act();
    await expect(view).not.toHaveAttribute('data-view-projection', before ?? '');
  };

  // at rest nothing is drawn
  await page.waitForTimeout(500);
  const idle = await drawn();
  expect(idle).toBeGreaterThan(0);
  await page.waitForTimeout(1000);
  expect(await drawn()).toBe(idle);

  const home = await camera();
  await view.focus();
  for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowRight', '+', '-', 'ArrowRight', 'ArrowDown']) {
    await moved(() => page.keyboard.press(key));
  }
  await page.keyboard.press('Home');
  await expect(view).toHaveAttribute('data-view-projection', home ?? '');

  const box = await view.boundingBox();
  if (box === null) throw new Error('the stage has no box');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await moved(() => page.mouse.wheel(0, 200));
  await page.mouse.down();
  await moved(() => page.mouse.move(x + 80, y + 30, { steps: 2 }));
  await page.mouse.up();
  for (const name of ['At the mesh', 'Drive flank', 'Coast flank', 'Whole set']) {
    await moved(() => chooseHome(page, name));
  }
  await expect(view).toHaveAttribute('data-view-projection', home ?? '');

  // by hand: the wheel
  const wheel = page.getByRole('slider', { name: 'Roll by hand' });
  await wheel.focus();
  const angle = async () => Number(await wheel.getAttribute('aria-valuenow'));
  await page.keyboard.press('ArrowRight');
  await expect.poll(angle).toBeCloseTo(0.1, 6);
  await page.keyboard.press('PageUp');
  await expect.poll(angle).toBeCloseTo(0.1 + Number((360 / 47).toFixed(1)), 1);
  await expect(wheel).toHaveAttribute('aria-valuetext', /tooth 47 of 47 in mesh$/);
  const grip = await wheel.boundingBox();
  if (grip === null) throw new Error('the wheel has no box');
  const turned = await angle();
  await page.mouse.move(grip.x + 10, grip.y + 20);
  await page.mouse.down();
  await page.mouse.move(grip.x + 50, grip.y + 20, { steps: 4 });
  await page.mouse.up();
  await expect.poll(angle).toBeCloseTo(turned + 2, 1);

  // by itself, until stopped
  const before = await angle();
  await page.getByRole('button', { name: 'Roll slowly' }).click();
  await expect.poll(angle).not.toBe(before);
  await page.getByRole('button', { name: 'Stop rolling' }).click();
  await atRest(page);
  await page.waitForTimeout(300);
  const stopped = await drawn();
  await page.waitForTimeout(700);
  expect(await drawn()).toBe(stopped);

  // the rest of the controls
  const solid = await picture(page);
  await pressMore(page, 'See through pinion');
  await expect.poll(async () => Buffer.compare((await picture(page)).data, solid.data)).not.toBe(0);
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.getByRole('radio', { name: 'On coast' }).check({ force: true });
  await page.getByRole('combobox', { name: 'Rolling speed' }).selectOption('Quick');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('radio', { name: 'On coast' })).toBeHidden();
  expect(seen.complaints).toEqual([]);
});

test('a lost 3D context says so, leaves the flank maps working, and comes back', async ({ page }) => {
  await asUsedBefore(page);
  await open(page, 'axle=borrin&camera=drive');
  await page.evaluate(() => {
    const canvas = document.querySelector('canvas');
    const held = window as unknown as { held: WEBGL_lose_context | null };
    held.held = canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context') ?? null;
    held.held?.loseContext();
  });
  const message = page.getByText('The 3D picture was interrupted.');
  await expect(message).toBeVisible();
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  const setup = await expectSolved(page);

  await page.evaluate(() => (window as unknown as { held: WEBGL_lose_context }).held.restoreContext());
  await expect(message).toBeHidden();
  await pressMore(page, 'Labels');
  const solids = solidsHere('borrin', 'reduced');
  await expect
    .poll(
      async () => compareFlank(await look(page), 'drive', solids, solveHere(setup), false, COLOURS).agreeing,
    )
    .toBeGreaterThan(0.995);
});
