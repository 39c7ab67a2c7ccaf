import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { axleOf } from '../../src/state/axles.ts';
import { setupAsFound } from '../../src/state/setup.ts';
import { seededRandom } from '../support/random.ts';
import { asUsedBefore, expectSolved, setupOf, slide, solveHere } from './support/explore.ts';
import { watch } from './support/watch.ts';

const map = (page: Page) => page.getByRole('application', { name: /^Shim map/ });
const pointedAt = (page: Page) => page.getByRole('region', { name: /^(Pointed at|Best in stock)$/ });
const here = (page: Page) => page.getByRole('region', { name: 'Where you are' });
const row = (readout: Locator, name: string) => readout.locator(`[data-row="${name}"]`);
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

/** How far the map is: every so many-th row and column is solved. */
const covered = (page: Page) => page.locator('[data-covered]');

async function openMap(page: Page, query = 'axle=borrin'): Promise<void> {
  await page.goto(`./#/explore?v=1&${query}&picture=shim-map`);
  await expect(map(page)).toBeVisible();
}

const solved = (page: Page) => expect(covered(page)).toHaveAttribute('data-covered', '1');

/** Answers of the second worker come this many ms late; 0 = at once. Before the page opens. */
async function holdLongWork(page: Page, ms: number): Promise<void> {
  await page.addInitScript((delay) => {
    Object.assign(globalThis, { longDelay: delay });
    const Real = globalThis.Worker;
    globalThis.Worker = class extends Real {
      private readonly isLong: boolean;
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.isLong = options?.name === 'long work';
      }
      override addEventListener(type: string, listener: unknown, options?: unknown): void {
        const hear = listener as (event: Event) => void;
        const late = (event: Event) =>
          setTimeout(() => hear(event), (globalThis as unknown as { longDelay: number }).longDelay);
        const heard = this.isLong && type === 'message' && typeof listener === 'function' ? late : hear;
        super.addEventListener(type, heard as EventListener, options as AddEventListenerOptions);
      }
    };
  }, ms);
}

const letGo = (page: Page) => page.evaluate(() => Object.assign(globalThis, { longDelay: 0 }));

const readingIn = async (readout: Locator): Promise<number> =>
  Number(/^([\d.]+)/.exec((await row(readout, 'backlash').textContent()) ?? '')?.[1] ?? Number.NaN);

/** Words for the lie of a mark differ where it lies on the border between two of them. */
const WORDS_MAY_DIFFER = 4;

test('keys alone: places by seed say what direct solves say, Enter goes there (seed 2025)', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await openMap(page);
  await solved(page);
  await expect(row(here(page), 'backlash')).toHaveText(/^0\.170\smm, within limits$/);
  // there is a way to it by Tab
  await page.getByRole('tab', { name: 'Shim map' }).focus();
  for (
    let tabs = 0;
    tabs < 3 && !(await map(page).evaluate((node) => node === document.activeElement));
    tabs++
  )
    await page.keyboard.press('Tab');
  await expect(map(page)).toBeFocused();

  const random = seededRandom(2025);
  const found = fittedNow(axleOf('borrin').axle);
  let differ = 0;
  for (let place = 0; place < 8; place++) {
    const [thicker, out] = [random.whole(-9, 9), random.whole(-7, 7)];
    await page.keyboard.press('Escape');
    for (let k = 0; k < Math.abs(thicker); k++) {
      await page.keyboard.press(thicker > 0 ? 'ArrowRight' : 'ArrowLeft');
    }
    for (let k = 0; k < Math.abs(out); k++) await page.keyboard.press(out > 0 ? 'ArrowUp' : 'ArrowDown');
    if (thicker === 0 && out === 0) continue;
    const fitment = {
      pinionShim: Number((found.pinionShim + 0.025 * thicker).toFixed(6)),
      ringSide: Number((found.ringSide - 0.04 * out).toFixed(6)),
      oppositeSide: Number((found.oppositeSide + 0.04 * out).toFixed(6)),
    };
    const direct = solveHere({ ...setupAsFound('borrin'), fitment });
    const readout = pointedAt(page);
    await expect(row(readout, 'pinion')).toContainText(fitment.pinionShim.toFixed(3));
    await expect(row(readout, 'sides')).toContainText(fitment.ringSide.toFixed(2));
    const { normal, normalMean, binding } = direct.backlash;
    if (binding) await expect(row(readout, 'backlash')).toHaveText('the teeth bind');
    else {
      const above = (normalMean ?? 0) > 0.21;
      const wanted = above ? normalMean : normal;
      expect(Math.abs((await readingIn(readout)) - (wanted ?? Number.NaN))).toBeLessThan(0.0015);
    }
    for (const flank of ['drive', 'coast'] as const) {
      const text = (await row(readout, flank).textContent()) ?? '';
      const edges = direct[flank].edges;
      const said = /edge contact: (.*)$/.exec(text)?.[1] ?? '';
      if (!edges.every((edge) => said.includes(edge)) || (edges.length === 0 && said !== '')) differ++;
      const toeHeel = direct[flank].toeHeel ?? 0;
      if (Math.abs(toeHeel) > 0.09 && !text.includes(toeHeel < 0 ? 'toe' : 'heel')) differ++;
    }
    // the way: as many legs as there are changes
    await expect(readout.getByRole('listitem').filter({ hasText: 'Pinion shim' })).toHaveCount(
      thicker === 0 ? 0 : 1,
    );
    await expect(readout.getByRole('listitem').filter({ hasText: 'moved to the' })).toHaveCount(
      out === 0 ? 0 : 1,
    );
    if (place === 3) {
      await page.keyboard.press('Enter');
      await expect(here(page)).toBeVisible();
      const setup = await expectSolved(page);
      expect(setup.fitment.pinionShim).toBeCloseTo(fitment.pinionShim, 6);
      expect(setup.fitment.ringSide).toBeCloseTo(fitment.ringSide, 6);
      expect(setup.fitment.oppositeSide).toBeCloseTo(fitment.oppositeSide, 6);
      await page.keyboard.press('Control+z');
      expect((await setupOf(page)).fitment).toEqual(found);
      await expect(map(page)).toBeFocused();
    }
  }
  expect(differ).toBeLessThanOrEqual(WORDS_MAY_DIFFER);
  expect(seen.complaints).toEqual([]);
});

test('keys alone: Shift for large steps, Home, End, Escape; each place is said aloud', async ({ page }) => {
  await asUsedBefore(page);
  await openMap(page, 'axle=elspar');
  await solved(page);
  await map(page).focus();
  await expect(map(page)).toHaveAccessibleDescription(/^Arrow keys move a pointer by one real shim/);
  await page.keyboard.press('Shift+ArrowRight');
  await expect(row(pointedAt(page), 'pinion')).toHaveText(/^1\.45\smm, pinion 0\.30\smm out$/);
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowDown');
  await expect(row(pointedAt(page), 'pinion')).toContainText('1.40');
  await expect(row(pointedAt(page), 'sides')).toContainText('89 notches and 93 notches');
  await expect(page.locator('[aria-live="polite"]').filter({ hasText: 'Pointed at.' })).toContainText(
    /Pointed at\. 1\.40\smm, pinion 0\.25\smm out\. 89 notches and 93 notches.*The pinion cartridge comes off/,
  );
  await page.keyboard.press('Home');
  await expect(row(pointedAt(page), 'pinion')).toContainText('1.20');
  await expect(pointedAt(page)).toContainText('You are there.');
  await page.keyboard.press('End');
  await expect(page.getByRole('region', { name: 'Best in stock' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(here(page)).toBeVisible();
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  const best = solveHere(await expectSolved(page));
  expect([...best.drive.edges, ...best.coast.edges]).toEqual([]);
  expect(best.backlash.tangential).toBeGreaterThanOrEqual(0.28);
  expect(best.backlash.tangentialMean).toBeLessThanOrEqual(0.4);
});

test('the mouse shows a place before it goes there; a real shim each time; undo comes back', async ({
  page,
}) => {
  await asUsedBefore(page);
  await openMap(page, 'axle=borrin&pinion=1.5');
  await solved(page);
  const box = await map(page).boundingBox();
  if (box === null) throw new Error('the map has no box');
  const at = [box.x + box.width * 0.35, box.y + box.height * 0.3] as const;
  await page.mouse.move(...at);
  await expect(pointedAt(page)).toBeVisible();
  await expect(page.locator('[data-sign="present"]')).toHaveCount(1);
  const words = await row(pointedAt(page), 'pinion').textContent();
  await page.mouse.click(...at);
  const setup = await expectSolved(page);
  expect(words).toContain(setup.fitment.pinionShim.toFixed(3));
  // of the stock: 0.9 mm and multiples of 0.025 mm
  expect((setup.fitment.pinionShim - 0.9) / 0.025).toBeCloseTo(
    Math.round((setup.fitment.pinionShim - 0.9) / 0.025),
    6,
  );
  await page.mouse.move(box.x + box.width / 2, box.y - 30);
  await expect(here(page)).toBeVisible();
  expect(await row(here(page), 'pinion').textContent()).toBe(words);

  await button(page, 'Go to best').click();
  const best = solveHere(await expectSolved(page));
  expect([...best.drive.edges, ...best.coast.edges]).toEqual([]);
  await expect(button(page, 'Go to best')).toBeDisabled();
  await button(page, 'Undo').click();
  expect((await setupOf(page)).fitment).toEqual(setup.fitment);

  // inch and fine steps
  await page.getByRole('radio', { name: 'Inches' }).first().check({ force: true });
  await expect(row(here(page), 'backlash')).toContainText(/0\.0\d{3}\sin/);
  await page.getByRole('radio', { name: 'Millimetres' }).first().check({ force: true });
  await page.getByRole('switch', { name: 'Fine steps' }).click();
  await map(page).focus();
  await page.keyboard.press('ArrowRight');
  await expect(row(pointedAt(page), 'pinion')).toContainText(
    (Math.floor(setup.fitment.pinionShim * 100 + 1e-6) / 100 + 0.01).toFixed(2),
  );
});

test.describe('with a finger', () => {
  test.use({ hasTouch: true, viewport: { width: 390, height: 844 } });

  test('the first tap points, the second or the button goes', async ({ page }) => {
    await asUsedBefore(page);
    await openMap(page);
    await solved(page);
    await map(page).evaluate((node) => node.scrollIntoView({ block: 'start' }));
    const box = await map(page).boundingBox();
    if (box === null) throw new Error('the map has no box');
    const tap = (across: number) =>
      page.touchscreen.tap(box.x + box.width * across, box.y + box.height * 0.4);
    const before = await setupOf(page);
    await tap(0.6);
    await expect(pointedAt(page)).toBeVisible();
    expect(await setupOf(page)).toEqual(before);
    const words = (await row(pointedAt(page), 'pinion').textContent()) ?? '';
    await tap(0.6);
    await expect(here(page)).toBeVisible();
    expect(words).toContain((await setupOf(page)).fitment.pinionShim.toFixed(3));
    await tap(0.4);
    await button(page, 'Go there').tap();
    await expect(here(page)).toBeVisible();
    expect((await setupOf(page)).fitment.pinionShim).toBeLessThan(1.35);
  });
});

test('coarse first, then finer; stopped and gone on; a slider works meanwhile; never of another axle', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await holdLongWork(page, 150);
  await openMap(page);
  await expect(page.getByRole('progressbar', { name: /^(Working out|Refining) the map/ })).toBeVisible();
  await expect(covered(page)).toHaveAttribute('data-covered', '8');
  await expect(page.getByRole('progressbar', { name: /^Refining the map/ })).toBeVisible();

  // a control moves, the patch answers, and the map is still at work
  await slide(page.getByRole('slider', { name: 'Pinion shim', exact: true }), 'ArrowRight', 4);
  const setup = await expectSolved(page);
  expect(setup.fitment.pinionShim).toBe(1.45);
  await expect(page.getByRole('progressbar', { name: /^Refining the map/ })).toBeVisible();
  await expect(row(here(page), 'pinion')).toContainText('1.450');

  await button(page, 'Stop').click();
  await expect(page.getByText('Stopped. Solved in part; filled in between.')).toBeVisible();
  const rough = await covered(page).getAttribute('data-covered');
  await page.waitForTimeout(600);
  await expect(covered(page)).toHaveAttribute('data-covered', rough ?? '');
  await expect(page.getByRole('progressbar')).toHaveCount(0);

  // another film while it works: what is shown is never of the former one
  await button(page, 'Go on').click();
  await expect(page.getByRole('progressbar', { name: /^Refining the map/ })).toBeVisible();
  await slide(page.getByRole('slider', { name: 'Film of compound', exact: true }), 'ArrowRight', 2);
  await expect(row(here(page), 'home')).toHaveText('not worked out yet');
  await letGo(page);
  await solved(page);
  await expect(row(here(page), 'home')).toHaveText(/^\d+ %$/);
  await expect(page.getByRole('progressbar')).toHaveCount(0);

  // back to a film that was finished: at once
  await slide(page.getByRole('slider', { name: 'Film of compound', exact: true }), 'ArrowRight', 1);
  await solved(page);
  await page.evaluate(() => Object.assign(globalThis, { longDelay: 60_000 }));
  await slide(page.getByRole('slider', { name: 'Film of compound', exact: true }), 'ArrowLeft', 1);
  await solved(page);
  expect(seen.complaints).toEqual([]);
});

const SIZES = [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
];

for (const theme of ['workshop', 'projector'] as const) {
  test(`axe finds nothing, nothing overflows, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await openMap(page, 'axle=cavel&pinion=1.5');
    await solved(page);
    const bad = async () =>
      (await new AxeBuilder({ page }).analyze()).violations.map(({ id, nodes }) => [
        id,
        nodes.map((node) => node.html),
      ]);
    await map(page).focus();
    await page.keyboard.press('ArrowUp');
    await page.getByText('How this is judged').click();
    expect(await bad()).toEqual([]);
    for (const size of SIZES) {
      await page.setViewportSize(size);
      const panel = page.getByRole('tabpanel', { name: 'Shim map' });
      expect(await panel.evaluate((node) => node.scrollWidth - node.clientWidth)).toBeLessThanOrEqual(0);
      // the drawing fills its frame, and its texts stay in it: those of the regions too, once painted for this size
      const outside = () =>
        map(page).evaluate(async (frame) => {
          await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
          const { left, right, top, bottom } = frame.getBoundingClientRect();
          const drawing = frame.querySelector('svg')?.getBoundingClientRect();
          const fills = drawing !== undefined && Math.abs(drawing.height - (bottom - top)) < 1.5;
          const texts = [...frame.querySelectorAll('text')].filter((text) => {
            const box = text.getBoundingClientRect();
            return (
              box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1
            );
          });
          return [
            ...(fills ? [] : ['the drawing does not fill its frame']),
            ...(frame.querySelector('[data-region]') ? [] : ['the regions have no names']),
            ...texts.map((t) => t.textContent),
          ];
        });
      await expect.poll(outside).toEqual([]);
    }
    expect(await bad()).toEqual([]);
  });
}
