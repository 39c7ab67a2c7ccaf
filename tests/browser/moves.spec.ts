import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { LongCore } from '../../sim/worker/longCore.ts';
import type { PatchMoves } from '../../sim/worker/longProtocol.ts';
import { adjustmentsOf } from '../../src/state/adjustments.ts';
import { axleOf } from '../../src/state/axles.ts';
import { poseOfSetup } from '../../src/state/mesh.ts';
import { type Setup, setupAsFound } from '../../src/state/setup.ts';
import { asUsedBefore, expectSolved, setupOf, slide, solveHere } from './support/explore.ts';
import { openApp, watch } from './support/watch.ts';

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const shimSlider = (page: Page) => page.getByRole('slider', { name: 'Pinion shim', exact: true });
const lock = (page: Page) => page.getByRole('switch', { name: 'Keep backlash' });
const map = (page: Page, flank: 'drive' | 'coast') => page.locator(`figure[data-flank="${flank}"]`);
const arrows = (page: Page, flank: 'drive' | 'coast') => map(page, flank).locator('g[data-move]');
const former = (page: Page, flank: 'drive' | 'coast') => map(page, flank).locator('[data-part="former"]');
const outline = (page: Page, flank: 'drive' | 'coast') =>
  map(page, flank).locator('[data-part="patch"]').getAttribute('d');
const dismiss = (page: Page) => button(page, 'Dismiss the mark before the last change');

const long = new LongCore();

function movesHere(setup: Setup): readonly PatchMoves[] {
  const { axle } = axleOf(setup.axleId);
  const answer = long.patchMoves({
    kind: 'patchMoves',
    gearSetId: setup.axleId,
    definition: axle.gearset,
    pose: poseOfSetup(setup),
    film: setup.film,
    steps: adjustmentsOf(axle, setup, null).map(({ step }) => step),
  });
  if (!answer.ok) throw new Error(JSON.stringify(answer.failure));
  return answer.value;
}

const numbers = async (element: Locator, name: string): Promise<number[]> =>
  ((await element.getAttribute(name)) ?? '').split(' ').map(Number);

/** The row of the readings that the lock holds, as the panel shows it. */
async function squareReading(page: Page): Promise<number> {
  const panel = page.getByRole('region', { name: 'Backlash at the heel' });
  const cell = panel.getByRole('row', { name: 'Square to flank' }).getByRole('cell').nth(0);
  return Number(await cell.textContent());
}

test.beforeEach(async ({ page }) => {
  await asUsedBefore(page);
});

test('arrows: where the solver says one step takes each mark, in words and on the maps', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await openApp(page);
  await button(page, 'Move arrows').click();
  const key = page.getByRole('list', { name: 'Move arrows, Drive flank' });
  await expect(key.getByRole('listitem')).toHaveCount(2);
  await expect(key).toContainText(/Pinion shim 0\.025.mm thicker: toward root [\d.]+.%, toe [\d.]+.%/);
  await expect(key).toContainText(/Ring in by 0\.04.mm: toward root [\d.]+.%, toe [\d.]+.%/);
  await expect(page).toHaveURL(/arrows=on/);

  // a housing error is an adjustment too once it is set; the arrows follow every rest
  await page.goto('./#/explore?axle=cavel&arrows=on&pinion=1.65&offset=0.04');
  await expect(key.getByRole('listitem')).toHaveCount(3);
  await expect(key).toContainText(/Bores 0\.01.mm further apart:/);
  const setup = await expectSolved(page);
  const moves = movesHere(setup);
  const { drive, coast } = solveHere(setup);
  for (const [flank, report] of Object.entries({ drive, coast }) as ['drive' | 'coast', typeof drive][]) {
    await expect(arrows(page, flank)).toHaveCount(3);
    const all = await arrows(page, flank).all();
    const [pinion] = all;
    const [from, to] = [await numbers(pinion, 'data-from'), await numbers(pinion, 'data-to')];
    // the cross is where the arrows begin
    const cross = await map(page, flank).locator('[data-part="centre"]').getAttribute('d');
    expect(Number(/^M(-?[\d.]+) /.exec(cross ?? '')?.[1]) + 9).toBeCloseTo(from[0], 6);
    // lengthwise the map is linear: px per half face width from the tooth's own outline
    const box = await map(page, flank).locator('[data-part="tooth"]').boundingBox();
    const move = moves[0][flank];
    if (move === null || report.toeHeel === null || box === null) throw new Error(`no move on ${flank}`);
    const heelOnRight = (await map(page, flank).getAttribute('data-heel')) === 'right';
    const along = ((to[0] - from[0]) / (box.width / 2)) * (heelOnRight ? 1 : -1);
    const said = (await page.locator('#flank-maps').textContent()) ?? '';
    const times = Number(/drawn (\d+) times/.exec(said)?.[1]);
    expect(along / times).toBeCloseTo(move.toeHeel, 3);
    // all arrows of a map share the factor
    for (const [index, arrow] of all.entries()) {
      const [start, end] = [await numbers(arrow, 'data-from'), await numbers(arrow, 'data-to')];
      const wanted = moves[index][flank]?.toeHeel ?? 0;
      const drawn = ((end[0] - start[0]) / (box.width / 2)) * (heelOnRight ? 1 : -1);
      expect(drawn / times).toBeCloseTo(wanted, 3);
    }
  }

  // by key, and off again
  await page.keyboard.press('v');
  await expect(arrows(page, 'drive')).toHaveCount(0);
  await expect(key).toHaveCount(0);
  expect(seen.complaints).toEqual([]);
});

test('the former mark stays dashed until dismissed; the trail leads from it to the mark', async ({
  page,
}) => {
  await openApp(page);
  await expect(former(page, 'drive')).toHaveCount(0);
  await expect(dismiss(page)).toHaveCount(0);
  await expectSolved(page);
  const before = { drive: await outline(page, 'drive'), coast: await outline(page, 'coast') };

  await slide(shimSlider(page), 'ArrowRight', 4);
  await expectSolved(page);
  // one key press is one change: the last one began one step before
  await button(page, 'Undo').click();
  await expectSolved(page);
  await button(page, 'As found').click();
  await expectSolved(page);

  // a held key is one change from its first step to its last
  const slider = shimSlider(page);
  await slider.focus();
  for (let step = 0; step < 4; step += 1) {
    await page.keyboard.down('ArrowRight');
    await page.waitForTimeout(120);
  }
  const trail = map(page, 'drive').locator('[data-part="trail"]');
  await expect(trail).toHaveAttribute('d', /^M[\d. -]+(L[\d. -]+){2,}$/);
  await page.keyboard.up('ArrowRight');
  for (const flank of ['drive', 'coast'] as const) {
    await expect(former(page, flank)).toHaveAttribute('d', before[flank] ?? '');
  }
  const words = page.getByText(/^Since before the last change: Drive flank: centre/);
  await expect(words).toHaveText(
    /Drive flank: centre [\d.]+.% toward root, [\d.]+.% toward toe\. Coast flank: centre [\d.]+.% toward root/,
  );

  // the trail stays where it is until the next change, the former mark too
  const drawn = await trail.getAttribute('d');
  await page.waitForTimeout(300);
  await expect(trail).toHaveAttribute('d', drawn ?? '');
  await dismiss(page).click();
  await expect(former(page, 'drive')).toHaveCount(0);
  await expect(words).toHaveCount(0);

  // a new change, its own former mark; switched off it is not drawn and the choice is kept
  await button(page, /^Ring out by/).click();
  await expect(former(page, 'drive')).toHaveCount(1);
  await page.keyboard.press('r');
  await expect(former(page, 'drive')).toHaveCount(0);
  await button(page, /^Ring out by/).click();
  await expect(former(page, 'drive')).toHaveCount(1);
  await button(page, 'Mark before the last change').first().click();
  await expect(former(page, 'drive')).toHaveCount(0);
  await page.reload();
  await expect(button(page, 'Mark before the last change')).toHaveAttribute('aria-pressed', 'false');
});

for (const axleId of ['borrin', 'elspar']) {
  test(`${axleId}: keep backlash holds the panel’s reading to 0.002 mm over 0.2 mm either way in fine steps`, async ({
    page,
  }) => {
    await openApp(page, `./#/explore?axle=${axleId}`);
    await page.getByRole('switch', { name: 'Fine steps' }).click();
    await expectSolved(page);
    const wanted = await squareReading(page);
    await lock(page).click();
    await expect(page.getByText(/so that the dial keeps on reading/)).toBeVisible();
    const found = setupAsFound(axleId).fitment.pinionShim;
    const thickness = page.getByRole('textbox', { name: 'Thickness of the pinion shim' });
    for (const change of [0.2, 0.1, -0.1, -0.2]) {
      await thickness.fill((found + change).toFixed(3));
      await thickness.press('Enter');
      await expect(thickness).toHaveValue(/^\d\.\d+$/);
      await expect.poll(async () => (await setupOf(page)).fitment.pinionShim).toBeCloseTo(found + change, 6);
      const setup = await expectSolved(page);
      expect(setup.fitment.ringSide).not.toBe(setupAsFound(axleId).fitment.ringSide);
      expect(Math.abs((await squareReading(page)) - wanted)).toBeLessThanOrEqual(0.002);
    }
  });
}

test('keep backlash during a drag: every reading on the way is the one held, one entry for undo', async ({
  page,
}) => {
  await openApp(page);
  await page.getByRole('switch', { name: 'Fine steps' }).click();
  await expectSolved(page);
  await lock(page).click();
  await expect(page.getByText(/so that the dial keeps on reading/)).toBeVisible();
  // everything the panel ever shows, noted in the page
  await page.evaluate(() => {
    const cell = document.querySelector('[data-reading="square-least"]') as HTMLElement;
    const seen: string[] = [cell.textContent ?? ''];
    (globalThis as unknown as { readings: string[] }).readings = seen;
    new MutationObserver(() => seen.push(cell.textContent ?? '')).observe(cell, {
      subtree: true,
      characterData: true,
      childList: true,
    });
  });
  const box = await shimSlider(page).boundingBox();
  if (box === null) throw new Error('no slider');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 20; step += 1) {
    await page.mouse.move(x + 3 * step, y);
    await page.waitForTimeout(30);
  }
  await page.mouse.up();
  const setup = await expectSolved(page);
  expect(setup.fitment.pinionShim).toBeGreaterThan(1.45);
  expect(setup.fitment.ringSide).toBeLessThan(5.86);
  const readings = await page.evaluate(() => (globalThis as unknown as { readings: string[] }).readings);
  for (const reading of readings) {
    expect(Math.abs(Number(reading) - Number(readings[0]))).toBeLessThanOrEqual(0.0021);
  }
  await button(page, 'Undo').click();
  expect(await expectSolved(page)).toEqual(setupAsFound('borrin'));
});

test('real shims: the words say how far off, the link carries what is held, keys work it', async ({
  page,
}) => {
  await openApp(page);
  await expectSolved(page);
  await page.keyboard.press('h');
  await expect(lock(page)).toBeChecked();
  for (let press = 0; press < 6; press += 1) await page.keyboard.press('w');
  await expect(page.getByRole('region', { name: 'Pinion shim' })).toContainText(
    /Ring moves away by 0\.0\d.mm: 0\.0\d.mm from ring side to opposite side\. Reading 0\.\d{3}.mm, 0\.0\d\d.mm (more|less) than held for want of a finer shim\./,
  );
  const setup = await expectSolved(page);
  expect(setup.fitment.pinionShim).toBe(1.5);
  expect(setup.fitment.ringSide + setup.fitment.oppositeSide).toBeCloseTo(12, 9);
  expect(Math.abs(((setup.fitment.ringSide - 5.86) / 0.04) % 1)).toBeLessThan(1e-6);
  await expect(page).toHaveURL(/keep=0\.17/);
  await page.reload();
  await expect(lock(page)).toBeChecked();
  await page.keyboard.press('q');
  // the ring's place is asked for first
  await expect.poll(async () => (await setupOf(page)).fitment.pinionShim).toBe(1.475);
  await expectSolved(page);
  // undo is one step at a time, sides and all
  await page.keyboard.press('Control+z');
  expect((await expectSolved(page)).fitment).toEqual(setup.fitment);
  await page.keyboard.press('h');
  await page.keyboard.press('q');
  expect((await expectSolved(page)).fitment).toEqual({ ...setup.fitment, pinionShim: 1.475 });
  await expect(page).not.toHaveURL(/keep=/);
});

test('keep the total says what it does, and that it is off', async ({ page }) => {
  await openApp(page);
  const total = button(page, 'Keep the total: what one side gives the other gets, carrier preload stays');
  await expect(total).toHaveAttribute('aria-pressed', 'true');
  await total.click();
  await expect(page.getByRole('region', { name: 'Ring position' })).toContainText(
    'Total not kept: a side that is typed changes the preload.',
  );
});

test('everything on: fits at all sizes and both themes, nothing for axe', async ({ page }) => {
  for (const theme of ['workshop', 'projector'] as const) {
    for (const [width, height] of [
      [1366, 768],
      [1920, 1080],
      [768, 1024],
      [390, 844],
    ]) {
      await page.setViewportSize({ width, height });
      await openApp(page, './#/explore?axle=borrin&arrows=on&offset=0.03&angle=0.02&contours=on&keep=0.17');
      await page.evaluate((chosen) => {
        document.documentElement.dataset.theme = chosen;
      }, theme);
      await button(page, /^Pinion shim .* thicker$/).click();
      await expect(arrows(page, 'coast')).toHaveCount(4);
      await expect(former(page, 'coast')).toHaveCount(1);
      const found = await page.evaluate(() => {
        const tools = [...document.querySelectorAll<HTMLElement>('#flank-maps button, #flank-maps figure')];
        const boxes = tools.map((tool) => tool.getBoundingClientRect());
        const overlapping = boxes.some((a, i) =>
          boxes.slice(i + 1).some((b) => {
            const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            return wide > 1 && high > 1;
          }),
        );
        const small = tools
          .filter((tool) => tool.tagName === 'BUTTON')
          .some((tool) => tool.offsetWidth < 44 || tool.offsetHeight < 44);
        const wide = document.querySelector('main')?.scrollWidth;
        return { overlapping, small, wide };
      });
      expect(found).toEqual({ overlapping: false, small: false, wide: width });
    }
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
  }
});
