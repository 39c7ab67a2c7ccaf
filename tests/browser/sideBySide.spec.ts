import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { AXLE_IDS } from '../../models/index.ts';
import { decodeState } from '../../src/state/codec.ts';
import { setupAsFound } from '../../src/state/setup.ts';
import { asUsedBefore, expectSolved, solveHere } from './support/explore.ts';
import { watch } from './support/watch.ts';

const region = (page: Page) => page.getByRole('region', { name: 'Side by side', exact: true });
const words = (page: Page) => page.getByRole('region', { name: 'Right against left' });
const view = (page: Page, side: 'Left' | 'Right') =>
  page.getByRole('group', { name: new RegExp(`^${side}: `) });
const axle = (page: Page) => page.getByRole('combobox', { name: 'Axle on the left' });
const stand = (page: Page) => page.getByRole('combobox', { name: 'How the left one stands' });

let opened = 0;

async function openTwins(page: Page, query = 'axle=borrin'): Promise<void> {
  // a new document each time: a change of the hash alone keeps the old picture for a moment
  opened += 1;
  await page.goto(`./?opened=${opened}#/explore?${query}&picture=side-by-side`);
  await atRest(page);
}

/** Both pictures are drawn and nothing moves. */
async function atRest(page: Page): Promise<void> {
  for (const side of ['Left', 'Right'] as const) {
    await expect(view(page, side)).toHaveAttribute('data-view-projection', /\d/, { timeout: 60_000 });
    await expect(view(page, side)).toHaveAttribute('data-settled', 'true');
  }
}

async function leftInAddress(page: Page) {
  await expect(page.locator('html')).toHaveAttribute('data-address', 'rested');
  const { state, problems } = decodeState(new URL(page.url()).hash.split('?')[1]);
  expect(problems).toEqual([]);
  return state.left;
}

test('a kept set-up stays on the left, the difference is the solver’s, and a link brings both', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await openTwins(page);
  await expect(words(page)).toContainText('Drive flank: the marks lie in the same place.');
  const thicker = page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' });
  await thicker.click();
  await page.getByRole('button', { name: 'Keep this as the left one' }).click();
  await expect(stand(page)).toHaveValue('kept');
  for (let press = 0; press < 3; press += 1) await thicker.click();
  const right = await expectSolved(page);
  const kept = { ...right, fitment: { ...right.fitment, pinionShim: right.fitment.pinionShim - 0.075 } };
  const check = async (on: Page) => {
    const [a, b] = [solveHere(kept), solveHere(right)];
    const moved = (from: number | null, to: number | null) =>
      Math.abs(Math.round((to ?? 0) * 100) - Math.round((from ?? 0) * 100));
    await expect(words(on)).toContainText(
      `Drive flank: the right mark lies ${moved(a.drive.toeHeel, b.drive.toeHeel)} % nearer the toe and ${moved(
        a.drive.rootFace,
        b.drive.rootFace,
      )} % nearer the root.`,
    );
    const less = (a.backlash.normal ?? 0) - (b.backlash.normal ?? 0);
    await expect(words(on)).toContainText(`Backlash is ${less.toFixed(3)}\u202fmm less on the right.`);
  };
  await check(page);
  // the outline of the left mark lies over the right one
  await expect(
    page.getByRole('img', { name: 'Right, Drive flank: map of the mark, with the outline of the left one' }),
  ).toBeVisible();
  await page.getByText('Numbers of both').click();
  await expect(page.getByRole('row', { name: 'Pinion from the design position' })).toContainText('0.025');

  expect(await leftInAddress(page)).toMatchObject({ stand: 'kept', setup: kept });
  const other = await context.newPage();
  await asUsedBefore(other);
  await other.goto(page.url());
  await atRest(other);
  await check(other);
  expect(await expectSolved(other)).toEqual(right);
  expect(seen.complaints).toEqual([]);
});

test('another axle moves as the right one does: the coast marks of the two cutting methods part', async ({
  page,
}) => {
  await asUsedBefore(page);
  await openTwins(page, 'axle=borrin&left=alike&left.axle=elspar');
  await expect(region(page).getByText('Left: Elspar, moved as the right one')).toBeVisible();
  await axle(page).selectOption('Face-milled against face-hobbed');
  await expect(region(page).getByText('Left: Cavel, moved as the right one')).toBeVisible();
  await expect(words(page)).toContainText('Two axles');
  const centre = async (side: 'left' | 'right') => {
    await page.getByText('Numbers of both').click();
    const row = page.getByRole('row', { name: 'Coast flank: centre' });
    const text = await row
      .getByRole('cell')
      .nth(side === 'left' ? 0 : 1)
      .textContent();
    await page.getByText('Numbers of both').click();
    const share = /(\d+) % (toe|heel)/.exec(text ?? '');
    return share === null ? 0 : Number(share[1]) * (share[2] === 'toe' ? -1 : 1);
  };
  const before = { left: await centre('left'), right: await centre('right') };
  // pinion out: the classic trap
  for (let press = 0; press < 4; press += 1) {
    await page.getByRole('button', { name: /^Pinion shim .* thinner$/ }).click();
  }
  const setup = await expectSolved(page);
  const alike = solveHere({
    ...setupAsFound('cavel'),
    // the same pose in the other axle's own shims: 0.1 mm thinner behind the head bearing
    fitment: { ...setupAsFound('cavel').fitment, pinionShim: 1.62 - 0.1 },
    film: setup.film,
  });
  await expect.poll(() => centre('left')).toBe(Math.round((alike.coast.toeHeel ?? 0) * 100));
  expect(await centre('right')).toBeLessThan(before.right);
  expect(await centre('left')).toBeGreaterThan(before.left);

  await axle(page).selectOption('Standard against reverse-cut');
  await expect(region(page).getByText('Left: Dornet, moved as the right one')).toBeVisible();
  // by keys alone: the next stand, the design position
  await stand(page).focus();
  await stand(page).selectOption('in the design position');
  await expect(region(page).getByText('Left: Dornet, in the design position')).toBeVisible();
  expect(await leftInAddress(page)).toEqual({ stand: 'design', axleId: 'dornet' });
});

test('cameras go together until they are unlinked; both sets roll together', async ({ page }) => {
  await asUsedBefore(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await openTwins(page, 'axle=borrin&left.axle=dornet&camera=whole');
  /** to the digits that a picture could show */
  const camera = async (side: 'Left' | 'Right') =>
    (await view(page, side).getAttribute('data-view-projection'))
      ?.split(' ')
      .map((number) => Number(number).toFixed(6))
      .map((number) => (Number(number) === 0 ? '0' : number))
      .join(' ');
  const both = async () => ({ left: await camera('Left'), right: await camera('Right') });
  // the pictures give room to the words below them when those come
  await expect(words(page)).toContainText('Two axles');
  await atRest(page);
  const start = await both();
  await view(page, 'Right').focus();
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => camera('Right')).not.toBe(start.right);
  await expect.poll(() => camera('Left')).not.toBe(start.left);
  // and the other way round
  const turned = await both();
  await view(page, 'Left').focus();
  await page.keyboard.press('+');
  await expect.poll(() => camera('Left')).not.toBe(turned.left);
  await expect.poll(() => camera('Right')).not.toBe(turned.right);

  await page.getByRole('switch', { name: 'Cameras together' }).click();
  const unlinked = await both();
  await view(page, 'Left').focus();
  await page.keyboard.press('ArrowUp');
  await expect.poll(() => camera('Left')).not.toBe(unlinked.left);
  await atRest(page);
  expect(await camera('Right')).toBe(unlinked.right);
  await page.getByRole('switch', { name: 'Cameras together' }).click();
  await expect.poll(() => camera('Left')).toBe(unlinked.left);

  // home is home for both
  await view(page, 'Right').focus();
  await page.keyboard.press('Home');
  await expect.poll(both).toEqual(start);

  const tooth = (side: 'Left' | 'Right') => view(page, side).getAttribute('data-tooth-angle');
  const stood = { left: await tooth('Left'), right: await tooth('Right') };
  await page.getByRole('slider', { name: 'Roll by hand' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => tooth('Right')).not.toBe(stood.right);
  await expect.poll(() => tooth('Left')).not.toBe(stood.left);
});

test('two sets cost a slow device no more than one', async ({ page }) => {
  await page.addInitScript(() => {
    const content = { theme: 'workshop', compound: 'yellow', detail: 'full', units: 'mm' };
    localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
  });
  for (const left of AXLE_IDS) {
    await openTwins(page, `axle=elspar&left.axle=${left}&camera=mesh`);
    const cost = async (name: 'triangles' | 'calls') => {
      const each = await Promise.all(
        (['Left', 'Right'] as const).map(async (side) =>
          Number(await view(page, side).getAttribute(`data-${name}`)),
        ),
      );
      return each[0] + each[1];
    };
    const triangles = await cost('triangles');
    expect(triangles, left).toBeGreaterThan(20_000);
    expect(triangles, left).toBeLessThanOrEqual(120_000);
    expect(await cost('calls'), left).toBeLessThanOrEqual(40);
  }
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`side by side fits every screen and axe finds nothing, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await openTwins(page, 'axle=cavel&pinion=1.5&left=alike&left.axle=borrin');
    await page.getByText('Numbers of both').click();
    for (const [width, height] of [
      [1366, 768],
      [1920, 1080],
      [768, 1024],
      [390, 844],
    ]) {
      await page.setViewportSize({ width, height });
      await atRest(page);
      const wide = await region(page).evaluate((element) =>
        [...element.querySelectorAll('button, select, label, svg, p, li, figure')]
          .filter((part) => part.checkVisibility())
          .filter((part) => {
            const { right, width: own } = part.getBoundingClientRect();
            return own > 1 && right > element.getBoundingClientRect().right + 1;
          })
          .map((part) => part.outerHTML.slice(0, 80)),
      );
      expect(wide).toEqual([]);
      const small = await region(page).evaluate((element) =>
        [...element.querySelectorAll('button, select, summary, label:has(input)')]
          .filter((part) => part.checkVisibility())
          .filter((part) => part.getBoundingClientRect().height < 43.5)
          .map((part) => part.outerHTML.slice(0, 80)),
      );
      expect(small).toEqual([]);
      const found = await new AxeBuilder({ page }).include('main').analyze();
      expect(found.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
    }
  });
}
