import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { PICTURES } from '../../src/state/view.ts';
import { asUsedBefore } from './support/explore.ts';
import { openApp } from './support/watch.ts';

const SIZES = [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
] as const;
const THEMES = ['workshop', 'projector'] as const;

/** Texts that are cut: an element narrower or lower than what stands in it, with the rest hidden. */
const cutTexts = (page: Page) =>
  page.evaluate(() => {
    const cut: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('main *, header *')) {
      if (element.closest('.visually-hidden, [class*="skips"]') !== null) continue;
      const own = [...element.childNodes].some(
        (node) => node.nodeType === 3 && node.textContent?.trim() !== '',
      );
      if (!own || element.offsetParent === null) continue;
      const { overflowX, overflowY, textOverflow } = getComputedStyle(element);
      if (textOverflow === 'ellipsis') continue;
      const wide = element.scrollWidth > element.clientWidth + 1 && overflowX !== 'visible';
      const high = element.scrollHeight > element.clientHeight + 1 && overflowY !== 'visible';
      // one pixel wide: kept for screen readers alone
      if (element.clientWidth > 1 && (wide || high)) cut.push(element.textContent?.slice(0, 60) ?? '');
    }
    return cut;
  });

/** Pairs of controls that lie over each other. */
const overlaps = (page: Page) =>
  page.evaluate(() => {
    const boxes = [
      ...document.querySelectorAll<HTMLElement>(
        'main button, main summary, header button, main [role="switch"]',
      ),
    ]
      .filter((element) => element.checkVisibility() && element.closest('[class*="dock"]') === null)
      .map((element) => ({
        name: element.getAttribute('aria-label') ?? element.textContent ?? '',
        box: element.getBoundingClientRect(),
      }))
      .filter(({ box }) => box.width > 0);
    const found: string[] = [];
    for (const [index, a] of boxes.entries()) {
      for (const b of boxes.slice(index + 1)) {
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (wide > 1 && high > 1) found.push(`${a.name} / ${b.name}`);
      }
    }
    return found;
  });

for (const theme of THEMES) {
  test(`at every size, ${theme}: nothing overflows, overlaps or is cut`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await page.setViewportSize(SIZES[0]);
    await openApp(page);
    await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
    // one visit, the window changed under it; a phone has a layout of its own, which a visit begins with too
    for (const size of SIZES) {
      const at = `${size.width}×${size.height}`;
      await page.setViewportSize(size);
      const phone = size.width <= 700;
      if (phone) await page.reload();
      await expect(page.locator(`[data-layout="${phone ? 'phone' : 'wide'}"]`)).toBeVisible();
      await expect(page.locator('figure[data-flank="coast"] svg')).toBeVisible();
      // the drawings follow the window a frame later
      const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
      await expect.poll(wide, { message: at }).toBeLessThanOrEqual(size.width);
      await expect.poll(() => cutTexts(page), { message: at }).toEqual([]);
      await expect.poll(() => overlaps(page), { message: at }).toEqual([]);
    }
  });
}

test('a longer language still fits: every text a third longer at 1366×768 and on a phone', async ({
  page,
}) => {
  await asUsedBefore(page, 'projector');
  for (const size of [SIZES[0], SIZES[3]]) {
    await page.setViewportSize(size);
    await openApp(page, './?text=pseudo');
    await expect(page.getByText('⟦').first()).toBeVisible();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
    expect(await overlaps(page)).toEqual([]);
  }
});

test('1366×768: the essentials are in sight without scrolling', async ({ page }) => {
  for (const theme of THEMES) {
    await asUsedBefore(page, theme);
    await openApp(page);
    for (const target of [
      page.getByRole('region', { name: 'Backlash at the heel' }),
      page.getByRole('region', { name: 'Pinion shim' }),
      page.getByRole('region', { name: 'Ring position' }),
      page.getByRole('region', { name: 'Film of compound' }),
      page.getByText('Housing errors', { exact: true }),
      page.locator('figure[data-flank="drive"]'),
      page.locator('figure[data-flank="coast"]'),
    ]) {
      // whole but for a fraction of a pixel, which layout may round either way
      await expect(target).toBeInViewport({ ratio: 0.999 });
    }
  }
});

test('on a phone the reading and the shim in hand stay in sight, whatever is scrolled', async ({ page }) => {
  await page.setViewportSize(SIZES[3]);
  await asUsedBefore(page);
  await openApp(page);
  await page.mouse.wheel(0, 600);
  const thicker = page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' });
  await expect(thicker).toBeInViewport({ ratio: 1 });
  await thicker.click();
  await expect(page.getByRole('region', { name: 'Pinion shim' })).toContainText('pinion moves in');
  for (const [tab, control] of [
    ['Ring', 'Ring position, total kept'],
    ['Film', 'Film of compound'],
    ['Housing', 'Shaft angle error'],
  ]) {
    await page.getByRole('tab', { name: tab }).click();
    await expect(page.getByRole('slider', { name: control, exact: true })).toBeVisible();
  }
});

test('targets are large enough: 44 px everywhere, 60 px where shims are changed', async ({ page }) => {
  for (const size of [SIZES[0], SIZES[3]]) {
    await page.setViewportSize(size);
    await asUsedBefore(page);
    await openApp(page);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, summary, label:has(input), select, [role="tab"]')]
        .filter((element) => element.checkVisibility() && element.closest('[class*="skips"]') === null)
        .map((element) => {
          const { width, height } = element.getBoundingClientRect();
          return { name: element.getAttribute('aria-label') ?? element.textContent, width, height };
        })
        .filter(({ width, height }) => width < 43.5 || height < 43.5),
    );
    expect(small).toEqual([]);
    for (const name of [/^Pinion shim .* thicker$/, /^Pinion shim .* thinner$/]) {
      const box = await page.getByRole('button', { name }).boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(60);
    }
  }
});

for (const theme of THEMES) {
  test(`axe finds nothing to complain of, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    const violations = async () =>
      (await new AxeBuilder({ page }).analyze()).violations.map(({ id, nodes }) => [
        id,
        nodes.map((node) => node.html),
      ]);
    await openApp(page, './#/explore?v=1&axle=borrin&pinion=1.4&ring=5.9&opposite=6.1&offset=0.05&bad=1');
    await expect(page.locator('figure[data-flank="coast"] svg')).toBeVisible();
    await page.getByRole('button', { name: 'Gap lines' }).click();
    await page.getByText('Housing errors', { exact: true }).click();
    expect(await violations()).toEqual([]);
    for (const name of ['Settings', 'Keys and help']) {
      await page.getByRole('button', { name }).first().click();
      await expect(page.getByRole('dialog')).toBeVisible();
      expect(await violations()).toEqual([]);
      await page.keyboard.press('Escape');
      await expect(page.getByRole('dialog')).toHaveCount(0);
    }
    await page.setViewportSize(SIZES[3]);
    expect(await violations()).toEqual([]);
  });
}

/** px by which the page itself could be scrolled. */
const pageScrolls = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollHeight - document.documentElement.clientHeight);

for (const size of [
  { width: 1366, height: 768 },
  { width: 820, height: 1180 },
]) {
  test(`at ${size.width}×${size.height} the parts of a work area scroll, not the page out of sight`, async ({
    page,
  }) => {
    await asUsedBefore(page, 'workshop');
    await page.setViewportSize(size);
    await openApp(page);
    for (const picture of PICTURES) {
      await page.goto(`./#/explore?v=1&axle=borrin&picture=${picture}`);
      // anew, so that nothing of the picture before is taken for this one
      await page.reload();
      await expect(page.locator('figure[data-flank="coast"] svg').first()).toBeVisible();
      await expect(page.getByRole('tabpanel').locator('canvas, svg, table').first()).toBeVisible();
      await expect.poll(() => pageScrolls(page), { message: picture }).toBeLessThanOrEqual(0);
    }
    await page.goto('./#/match');
    await page.getByRole('button', { name: 'Pick a pattern' }).click();
    await page.getByRole('button', { name: /^Pinion 0\.14\smm too deep, ring right/ }).click();
    await expect(page.getByRole('button', { name: 'Keep as a trial' })).toBeEnabled({ timeout: 30_000 });
    await expect.poll(() => pageScrolls(page), { message: 'match' }).toBeLessThanOrEqual(0);
  });
}
