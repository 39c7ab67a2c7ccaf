import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { PNG } from 'pngjs';
import type { FlankName } from '../../sim/gearset/definition.ts';
import { setupAsFound } from '../../src/state/setup.ts';
import { asUsedBefore, setupOf, solveHere } from './support/explore.ts';
import { watch } from './support/watch.ts';

/** The mark an axle shows 0.1 mm too deep and the ring 0.05 mm out, as the solver says: what a person would see. */
const seen = () => {
  const found = setupAsFound('borrin');
  return solveHere({ ...found, fitment: { ...found.fitment, pinionShim: found.fitment.pinionShim + 0.1 } });
};

async function openMatch(page: Page): Promise<void> {
  await asUsedBefore(page);
  await page.goto('./#/match');
  await page.getByRole('application', { name: /^Drive flank/ }).waitFor();
}

const answer = (page: Page) => page.getByRole('region', { name: 'What to fit next' });
const tool = (page: Page, name: string) => page.getByText(name, { exact: true });

/** Flank coordinates → px of the page, by the map's own words for its ends. */
async function pointOn(
  page: Page,
  flank: FlankName,
  u: number,
  v: number,
): Promise<{ x: number; y: number }> {
  const place = await page.locator(`[data-painter="${flank}"]`).evaluate(
    (painter, [toeHeel, rootFace]) => {
      const coat = painter.querySelector('[data-part="coat"]') as SVGPathElement;
      const heelOnRight = painter.querySelector('figure')?.getAttribute('data-heel') === 'right';
      // the coat's corners: face line out, root line back
      const corners = [...(coat.getAttribute('d') ?? '').matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(
        ([, x, y]) => [Number(x), Number(y)],
      );
      const [a, b, c, d] = corners;
      // both lines run from the toe to the heel and back
      const s = (toeHeel + 1) / 2;
      const face = [a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])];
      const root = [d[0] + s * (c[0] - d[0]), d[1] + s * (c[1] - d[1])];
      const share = (rootFace + 1) / 2;
      const matrix = coat.getScreenCTM() as DOMMatrix;
      const at = new DOMPoint(
        root[0] + share * (face[0] - root[0]),
        root[1] + share * (face[1] - root[1]),
      ).matrixTransform(matrix);
      return { x: at.x, y: at.y, heelOnRight };
    },
    [u, v] as const,
  );
  return { x: place.x, y: place.y };
}

/** Paints the solver's own mark of a flank as an outline, by mouse. */
async function outlineMark(page: Page, flank: FlankName): Promise<void> {
  const report = seen()[flank];
  const { toeHeel, rootFace, length, height } = report;
  if (toeHeel === null || rootFace === null) throw new Error(`no mark on ${flank}`);
  await tool(page, 'Outline').click();
  for (let k = 0; k <= 24; k += 1) {
    const angle = (2 * Math.PI * k) / 24;
    const point = await pointOn(
      page,
      flank,
      toeHeel + length * Math.cos(angle),
      rootFace + height * Math.sin(angle),
    );
    await page.mouse.move(point.x, point.y);
    if (k === 0) await page.mouse.down();
  }
  await page.mouse.up();
}

const photoOfTooth = (): Buffer => {
  const picture = new PNG({ width: 600, height: 400 });
  for (let y = 0; y < 400; y += 1) {
    for (let x = 0; x < 600; x += 1) {
      const inside = x > 120 && x < 480 && y > 150 && y < 260;
      picture.data.set(inside ? [225, 180, 50, 255] : [60, 62, 65, 255], 4 * (y * 600 + x));
    }
  }
  return PNG.sync.write(picture);
};

test('a person paints both flanks over a photo, reads the dial, gets the next shims and sees them in Explore', async ({
  page,
  context,
}) => {
  const watched = watch(context);
  await openMatch(page);
  await expect(answer(page)).toContainText('Paint what you see');

  // the photo lies under the paint
  await page.getByRole('button', { name: 'Photo: Drive flank' }).click();
  const sheet = page.getByRole('dialog', { name: 'Photo: Drive flank' });
  await sheet.locator('input[type="file"]').first().setInputFiles({
    name: 'tooth.png',
    mimeType: 'image/png',
    buffer: photoOfTooth(),
  });
  const corner = sheet.getByRole('button', { name: 'Move: toe, root' });
  await corner.focus();
  await page.keyboard.press('ArrowUp');
  await sheet.getByRole('button', { name: 'Mirror' }).click();
  await sheet.getByRole('button', { name: 'Mirror' }).click();
  await sheet.getByRole('button', { name: 'Paint over it' }).click();
  await expect(page.locator('[data-painter="drive"] [data-layer="photo"] image')).toHaveCount(1);

  await outlineMark(page, 'drive');
  await outlineMark(page, 'coast');
  const { drive } = seen();
  await expect(page.locator('[data-painter="drive"]')).toContainText(
    `${Math.abs(Math.round((drive.toeHeel ?? 0) * 100))} % ${(drive.toeHeel ?? 0) < 0 ? 'toe' : 'heel'}`,
  );
  await page.getByRole('button', { name: 'Add a reading' }).click();
  const reading = page.getByRole('textbox', { name: 'Reading at place 1' });
  await reading.fill((seen().backlash.normal ?? 0).toFixed(3));
  await reading.press('Enter');

  // the pinion is too deep: it has to come out again
  await expect(answer(page)).toContainText(/thinner under the head bearing: pinion moves out/, {
    timeout: 20_000,
  });
  await expect(answer(page)).toContainText('Costs a pinion pull');
  // the answer to the whole look, not the one to its beginning
  await expect(answer(page)).toHaveAttribute('aria-busy', 'false');
  await expect(page.locator('[data-part="nearest"]')).toHaveCount(2);

  // the map of all shims: the way to those advised, and how surely the present place is known
  const map = answer(page).getByRole('img', { name: /^Shim map of this set\. Fitted now: .*\. To fit: / });
  await expect(answer(page).locator('[data-part="shim-map"]')).toHaveAttribute('data-covered', '1');
  await expect(map.locator('[data-region="binds"]')).toBeAttached();
  const at = async (part: string) => {
    const { x, y, width, height } = (await map.locator(part).boundingBox()) ?? {
      x: 0,
      y: 0,
      width: 0,
      height: 0,
    };
    return { x: x + width / 2, y: y + height / 2, width, height };
  };
  const [now, then, oval] = [
    await at('[data-sign="present"]'),
    await at('[data-sign="best"]'),
    await at('[data-part="spread"]'),
  ];
  // the axle's pinion shim lies under the head bearing: thinner is to the left, and moves the pinion out
  expect(then.x).toBeLessThan(now.x - 10);
  expect(Math.hypot(oval.x - now.x, oval.y - now.y)).toBeLessThan(3);
  expect(oval.width).toBeGreaterThan(20);

  await answer(page).getByText('Why', { exact: true }).click();
  await expect(answer(page)).toContainText(/too far in, give or take 0\.\d+/);

  // what Explore then shows is what was promised
  const promised = await answer(page).locator('[data-part="next"] figure[data-flank="drive"]').textContent();
  await answer(page).getByRole('button', { name: 'See it in Explore' }).click();
  await expect(page.getByRole('button', { name: 'Explore', exact: true })).toHaveAttribute(
    'aria-current',
    'page',
  );
  const numbers = /Centre(.*?)Covers/.exec(promised ?? '')?.[1] ?? 'nothing promised';
  await expect(page.locator('section#flank-maps figure[data-flank="drive"]')).toContainText(numbers);
  expect((await setupOf(page)).axleId).toBe('borrin');
  expect(watched.complaints).toEqual([]);
});

test('by keys alone: paint, take back, number by number, read the answer', async ({ page }) => {
  await openMatch(page);
  const painter = page.getByRole('application', { name: /^Drive flank/ });
  await painter.focus();
  for (const key of ['Space', 'ArrowRight', 'Space', 'ArrowRight', 'Space']) await page.keyboard.press(key);
  await expect(painter).toContainText('% of length');
  await page.keyboard.press('ControlOrMeta+z');
  await page.keyboard.press('ControlOrMeta+z');
  await page.keyboard.press('ControlOrMeta+z');
  await expect(painter).toContainText('Nothing painted yet');

  await page.getByText('Mark by numbers').focus();
  await page.keyboard.press('Enter');
  const { toeHeel, rootFace } = seen().drive;
  for (const [name, value] of [
    ['Drive flank: Middle, toe to heel', toeHeel],
    ['Drive flank: Middle, root to face', rootFace],
  ] as const) {
    const slider = page.getByRole('slider', { name });
    await slider.focus();
    const steps = Math.round((value ?? 0) / 0.05);
    for (let k = 0; k < Math.abs(steps); k += 1)
      await page.keyboard.press(steps < 0 ? 'ArrowLeft' : 'ArrowRight');
    if (steps === 0) await page.keyboard.press('ArrowRight');
  }
  await expect(answer(page)).toContainText(/pinion|Leave|contradicts/, { timeout: 20_000 });
});

test('what was painted is there again after a reload, and another axle has a look of its own', async ({
  page,
}) => {
  await openMatch(page);
  await tool(page, 'Oval').click();
  const middle = await pointOn(page, 'drive', 0.2, 0.1);
  await page.mouse.click(middle.x, middle.y);
  const painter = page.getByRole('application', { name: /^Drive flank/ });
  await expect(painter).toContainText('20 % heel, 10 % face; covers 50 % of length, 60 % of height');
  await page.waitForTimeout(700);
  await page.reload();
  await expect(painter).toContainText('20 % heel, 10 % face');
  await page.getByRole('combobox', { name: 'Axle' }).click();
  await page.getByRole('option', { name: /Cavel/ }).click();
  await expect(painter).toContainText('Nothing painted yet');
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`axe finds nothing to complain of in Match, ${theme}`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await page.goto('./#/match');
    await tool(page, 'Oval').click();
    const middle = await pointOn(page, 'drive', -0.2, 0);
    await page.mouse.click(middle.x, middle.y);
    await expect(answer(page)).toContainText(/pinion|Leave|contradicts/, { timeout: 20_000 });
    await expect(page.locator('[data-part="shim-map"][data-covered="1"]')).toBeAttached({ timeout: 20_000 });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual(
      [],
    );
  });
}

for (const size of [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
]) {
  test(`Match at ${size.width}×${size.height}: a picked pattern and its advice fit the window`, async ({
    page,
  }) => {
    await page.setViewportSize(size);
    await openMatch(page);
    await page.getByRole('button', { name: 'Pick a pattern' }).click();
    await page.getByRole('button', { name: /^Pinion 0\.14 mm too deep, ring right/ }).click();
    await expect(answer(page)).toContainText(/moves out/, { timeout: 20_000 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
    const small = await page.locator('main button:visible, main summary:visible').evaluateAll((elements) =>
      elements
        .map((element) => ({ name: element.textContent ?? '', box: element.getBoundingClientRect() }))
        .filter(({ box }) => box.height > 0 && (box.height < 43.5 || box.width < 43.5))
        .map(({ name }) => name),
    );
    expect(small).toEqual([]);
  });
}

test('the shims are fitted and looked at again: the look before counts, stays over a reload, and can be forgotten', async ({
  page,
}) => {
  await openMatch(page);
  const pick = async (story: RegExp) => {
    await page.getByRole('button', { name: 'Pick a pattern' }).click();
    await page.getByRole('button', { name: story }).click();
    await expect(answer(page)).toContainText(/Chance|all of it/, { timeout: 20_000 });
    await expect(answer(page)).toHaveAttribute('aria-busy', 'false');
  };
  await pick(/^Pinion 0\.14\smm too deep, ring right/);
  const fitted = async () => {
    const fields = page.getByRole('region', { name: 'In the axle now' }).getByRole('textbox');
    return Promise.all((await fields.all()).map((field) => field.inputValue()));
  };
  const before = await fitted();
  expect(before).toEqual(['1.350', '5.86', '6.14']);
  // nobody has read the dial yet: that comes before any spanner
  await expect(answer(page)).toContainText('Before anything is taken apart, read the dial');
  const toFit = await answer(page).getByRole('list', { name: 'Fit' }).getByRole('listitem').allTextContents();
  expect(toFit.length).toBeGreaterThan(0);
  await answer(page).getByRole('button', { name: 'Fitted: look again' }).click();
  // the new shim is in, nothing is seen yet, the look before is kept with its shim
  await expect.poll(fitted).not.toEqual(before);
  for (const part of toFit) {
    const [name, mm] = /^(Pinion shim|Ring side|Opposite side) ([\d.]+)/.exec(part)?.slice(1) ?? [];
    await expect(page.getByRole('textbox', { name, exact: true })).toHaveValue(mm);
  }
  await expect(answer(page)).toContainText('Paint what you see');
  const earlier = page.getByRole('region', { name: 'Looks before this one' });
  await expect(earlier.getByRole('listitem')).toHaveCount(1);
  await expect(earlier).toContainText('pinion shim 1.350 mm, ring side 5.86 mm, opposite side 6.14 mm');
  await pick(/^Pinion depth right, ring right/);
  // kept when the page is left
  await page.reload();
  await expect(earlier.getByRole('listitem')).toHaveCount(1);
  await earlier.getByRole('button', { name: /^Forget the look with pinion shim/ }).click();
  await expect(earlier).toHaveCount(0);
});

test('which flank, which end: three questions tell a mirrored photo', async ({ page }) => {
  await openMatch(page);
  await page.getByText('Which flank, which end?').click();
  const block = page.locator('details', { hasText: 'Which flank, which end?' });
  await expect(block.getByRole('status')).toContainText('This is the Drive flank. It lies as on the map');
  await block.getByRole('radio', { name: 'on the right' }).check({ force: true });
  await expect(block.getByRole('status')).toContainText('It is mirrored');
  await block.getByRole('radio', { name: 'is hollow' }).check({ force: true });
  await expect(block.getByRole('status')).toContainText('This is the Coast flank. It lies as on the map');
  await block.getByRole('radio', { name: 'the root' }).check({ force: true });
  await expect(block.getByRole('status')).toContainText('It is mirrored');
  await block.getByRole('radio', { name: 'on the left' }).check({ force: true });
  await expect(block.getByRole('status')).toContainText('It stands upside down');
});

test('a reading counts when somebody has read it: an empty place says nothing', async ({ page }) => {
  await openMatch(page);
  await page.getByRole('button', { name: 'Add a reading' }).click();
  const reading = page.getByRole('textbox', { name: 'Reading at place 1' });
  await expect(reading).toBeFocused();
  await expect(reading).toHaveValue('');
  await expect(page.getByRole('region', { name: 'Dial at the heel' })).toContainText('No reading');
  await reading.fill('nonsense');
  await reading.press('Enter');
  await expect(page.getByText('“nonsense” is not a number.')).toBeVisible();
  await reading.fill('0.006 in');
  await reading.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Reading at place 1' })).toHaveValue('0.152');
  await page.getByRole('button', { name: 'Remove the reading at place 1' }).click();
  await expect(page.getByRole('region', { name: 'Dial at the heel' })).toContainText('No reading');
});
