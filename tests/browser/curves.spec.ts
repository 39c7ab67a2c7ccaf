import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { formatMicrorad, formatNumber } from '../../src/units/format.ts';
import { asUsedBefore, expectSolved, slide, solveHere } from './support/explore.ts';
import { watch } from './support/watch.ts';

const region = (page: Page) => page.getByRole('region', { name: 'Curves over one pitch' });
const place = (page: Page) => page.getByRole('slider', { name: 'Place in the pitch' });

async function openCurves(page: Page, query = 'axle=borrin'): Promise<void> {
  await page.goto(`./#/explore?${query}&picture=curves`);
  await expect(region(page).getByRole('img', { name: /^Transmission error over one pitch/ })).toBeVisible();
  await page.waitForLoadState('networkidle');
}

test('the curves say what the solver says, follow a shim, and are read by keys', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await asUsedBefore(page);
  await openCurves(page);
  const check = async () => {
    const result = solveHere(await expectSolved(page));
    const say = (microrad: number | null) => formatMicrorad(microrad ?? Number.NaN, { decimals: 1 });
    const words = `Transmission error over one pitch. Drive flank ${say(
      result.drive.transmissionError,
    )} peak to peak. Coast flank ${say(result.coast.transmissionError)} peak to peak.`;
    await expect(region(page).getByRole('img', { name: words })).toBeVisible();
    const least = `${formatNumber(result.backlash.normal ?? Number.NaN, 4)}\u202fmm`;
    await expect(region(page).getByRole('img', { name: `least ${least}` })).toBeVisible();
    for (const flank of ['drive', 'coast'] as const) {
      const name = `${flank === 'drive' ? 'Drive' : 'Coast'} flank: which tooth pairs meet`;
      await expect(region(page).getByRole('img', { name })).toHaveAccessibleName(
        new RegExp(`contact ratio ${formatNumber(result[flank].contactRatio, 2)}$`),
      );
    }
    return result;
  };
  await check();
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  const result = await check();

  // the reading at a place of the pitch, by keys alone
  await slide(place(page), 'ArrowRight', 16);
  const lever = (result.backlash.normalMean ?? 0) / (result.freePlayCurve.reduce((a, b) => a + b, 0) / 64);
  const here = formatNumber(result.freePlayCurve[16] * lever, 4);
  await expect(place(page)).toHaveAttribute(
    'aria-valuetext',
    new RegExp(`^0\\.25 of a pitch; Drive flank .* carries; .*Square to flank ${here}\\smm`),
  );
  // and by pointing into a chart
  const chart = region(page).getByRole('img', { name: /^Transmission error/ });
  const box = await chart.boundingBox();
  if (box === null) throw new Error('the chart has no box');
  await page.mouse.move(box.x + box.width - 12, box.y + box.height / 2);
  await expect(place(page)).toHaveAttribute('aria-valuenow', '63');

  // at the pinion everything is as many times larger as the ratio says
  await page.getByRole('radio', { name: 'the pinion' }).check({ force: true });
  await expect(chart).toHaveAccessibleName(
    new RegExp(formatNumber(((result.drive.transmissionError ?? 0) * 47) / 13, 1)),
  );
  // the other way of holding the dial has no limits to show
  await expect(region(page).getByText('Band: the limits of this axle')).toBeVisible();
  await region(page).getByRole('radio', { name: 'Turning direction' }).check({ force: true });
  await expect(region(page).getByText('The limits of this axle are read square to the flank.')).toBeVisible();
  await region(page).getByRole('switch', { name: 'Close up' }).click();
  await expect(region(page).getByRole('switch', { name: 'Close up' })).toBeChecked();
  expect(seen.complaints).toEqual([]);
});

test('the numbers behind the marks open on demand and are taken away as text and as CSV', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await asUsedBefore(page);
  await openCurves(page, 'axle=cavel&pinion=1.5');
  await expect(page.getByRole('rowheader', { name: 'Centre lengthwise' })).toBeHidden();
  await page.getByText('Numbers behind the marks').click();
  const result = solveHere(await expectSolved(page));
  const row = region(page).getByRole('row', { name: 'Contact ratio' });
  await expect(row.getByRole('cell').first()).toHaveText(formatNumber(result.drive.contactRatio, 2));
  const copied = () => page.evaluate(() => navigator.clipboard.readText());

  await page.getByRole('button', { name: 'Copy as CSV' }).click();
  await expect(page.getByText('Copied.', { exact: true })).toBeVisible();
  const csv = (await copied()).split('\r\n');
  expect(csv[0]).toBe('Quantity,Unit,Drive flank,Coast flank');
  const line = csv.find((one) => one.includes('Transmission error at the ring')) ?? '';
  expect(Number(line.split(',').at(-2))).toBeCloseTo(result.drive.transmissionError ?? 0, 1);

  await page.getByRole('button', { name: 'Copy as text' }).click();
  await expect.poll(copied).toContain('Contact ratio\t');

  // where nothing may be copied, the text is there to be copied by hand
  await page.evaluate(() =>
    Object.defineProperty(navigator, 'clipboard', { value: undefined, configurable: true }),
  );
  await page.getByRole('button', { name: 'Copy as CSV' }).click();
  const field = page.getByRole('textbox', { name: 'The numbers as text' });
  await expect(field).toBeFocused();
  // a text field knows line feeds only
  await expect(field).toHaveValue(csv.join('\n'));
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`curves fit every screen and axe finds nothing, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    for (const [width, height] of [
      [1366, 768],
      [1920, 1080],
      [768, 1024],
      [390, 844],
    ]) {
      await page.setViewportSize({ width, height });
      await openCurves(page);
      await page.getByText('Numbers behind the marks').click();
      // the page as a whole is held to its width by layout.spec.ts
      const wide = await region(page).evaluate(
        (element) =>
          [...element.querySelectorAll('svg, p, td, th, li, dd')].filter(
            (part) => part.getBoundingClientRect().right > element.getBoundingClientRect().right + 1,
          ).length,
      );
      expect(wide).toBe(0);
      const found = await new AxeBuilder({ page }).include('main').analyze();
      expect(found.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
    }
  });
}
