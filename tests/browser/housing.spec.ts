import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { Matrix4, Vector3 } from 'three';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { layOutHousing } from '../../src/stage/housing/layout.ts';
import { slide } from './support/explore.ts';
import { solidsHere } from './support/stage.ts';
import { openApp, watch } from './support/watch.ts';

const view = (page: Page): Locator => page.getByRole('group', { name: 'Housing cut open, turnable view' });
const part = (page: Page, name: string | RegExp): Locator =>
  page.getByRole('list', { name: 'Parts' }).getByRole('button', { name });
const factor = async (page: Page): Promise<number> => Number(await view(page).getAttribute('data-factor'));

interface Opened {
  readonly detail?: 'full' | 'reduced';
  readonly theme?: 'workshop' | 'projector';
}

async function open(page: Page, query: string, { detail = 'reduced', theme = 'workshop' }: Opened = {}) {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.addInitScript(
    (content) => {
      if (location.protocol === 'about:') return;
      localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
    },
    { theme, compound: 'yellow', detail, units: 'mm' },
  );
  await page.goto('about:blank');
  await openApp(page, `./#/explore?${query}&picture=housing`);
  await expect(view(page)).toHaveAttribute('data-settled', 'true');
  // the second worker has said how far moves can be drawn
  await expect(page.getByRole('slider', { name: 'Show moves larger' })).toBeVisible();
  await expect(view(page)).toHaveAttribute('data-settled', 'true');
}

/** Where a point of the housing is in the picture, CSS pixels from its corner. */
async function seenAt(page: Page, point: Vector3): Promise<{ x: number; y: number }> {
  const numbers = (await view(page).getAttribute('data-view-projection'))?.split(' ').map(Number) ?? [];
  const box = await view(page).boundingBox();
  if (box === null) throw new Error('the picture has no box');
  const seen = point.clone().applyMatrix4(new Matrix4().fromArray(numbers));
  return { x: (seen.x * 0.5 + 0.5) * box.width, y: (0.5 - seen.y * 0.5) * box.height };
}

test('each axle shows the parts it has, and where thicker pushes', async ({ page, context }) => {
  const seen = watch(context);
  for (const id of AXLE_IDS) {
    const { pinionShim, sides, spacer } = AXLES[id];
    await open(page, `axle=${id}`);
    await expect(part(page, /^Pinion shim/)).toContainText(`${pinionShim.fitted}`);
    await expect(part(page, 'Pinion cartridge')).toHaveCount(pinionShim.place === 'cartridge' ? 1 : 0);
    await expect(part(page, 'Crush sleeve')).toHaveCount(spacer.kind === 'crush-sleeve' ? 1 : 0);
    await expect(part(page, /^Spacer shims/)).toHaveCount(spacer.kind === 'crush-sleeve' ? 0 : 1);
    for (const [side, name] of [
      [sides.ringSide, 'Ring-side'],
      [sides.oppositeSide, 'Opposite'],
    ] as const) {
      const adjuster = side.kind === 'adjuster';
      const row = part(page, new RegExp(`^${name} ${adjuster ? 'adjuster' : 'shim'}`));
      await expect(row).toContainText(adjuster ? `${side.fitted} notches` : `${side.fitted}`);
    }
    const way = pinionShim.place === 'cartridge' ? 'out' : 'in';
    await expect(view(page).getByText(`thicker: pinion ${way}`)).toBeVisible();
  }
  expect(seen.complaints).toEqual([]);
});

test('a shim that changes is drawn at once, larger as far as the teeth allow', async ({ page }) => {
  await open(page, 'axle=borrin');
  const slider = page.getByRole('slider', { name: 'Show moves larger' });
  await expect(slider).toHaveAttribute('aria-valuetext', 'Moves drawn 10 times as large');
  await expect(page.getByText('Pinion and ring stand at the design position')).toBeVisible();
  for (let step = 0; step < 4; step++) {
    await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  }
  await expect(part(page, /^Pinion shim/)).toContainText('1.45');
  await expect(part(page, /^Pinion 0/)).toContainText('0.10 mm in');
  // ten times is more than the teeth allow: it is drawn as far as they do
  await expect(page.getByText('At 2.7× the teeth would touch: no further.')).toBeVisible();
  await expect.poll(() => factor(page)).toBeCloseTo(2.7, 1);
  const most = await factor(page);
  await slide(slider, 'Home');
  await expect.poll(() => factor(page)).toBe(1);
  await slide(slider, 'End');
  await expect.poll(() => factor(page)).toBeCloseTo(most, 6);

  // the other way the teeth open, and the ring has a say
  for (let step = 0; step < 8; step++) {
    await page.getByRole('button', { name: 'Pinion shim 0.025 mm thinner' }).click();
  }
  await expect(part(page, /^Pinion 0/)).toContainText('0.10 mm out');
  await expect(page.getByText('Moves can be drawn up to 20× as large here.')).toBeVisible();
});

test('a setting that binds says so and is drawn where the teeth first touch', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await openApp(page, './#/explore?axle=borrin&pinion=1.7&ring=6.16&opposite=5.84&picture=housing');
  await expect(
    page.getByText(/The teeth bind at this setting\. Drawn where they first touch, \d+ % of the way\./),
  ).toBeVisible();
  await expect.poll(() => factor(page)).toBeLessThan(1);
  await expect(page.getByRole('slider', { name: 'Show moves larger' })).toHaveCount(0);
});

test('a part is found by pointing, by clicking and by keys, and says what it does', async ({ page }) => {
  await open(page, 'axle=borrin');
  await page.getByRole('radio', { name: 'Square on' }).check({ force: true });
  await expect(view(page)).toHaveAttribute('data-settled', 'true');
  const { gearset } = AXLES.borrin;
  const layout = layOutHousing(solidsHere('borrin', 'reduced'), gearset.offset, AXLES.borrin);
  const { shim } = layout.pinionSide;
  // the nearest point of the shim, on the side of the eye
  const place = await seenAt(page, new Vector3((shim.from + shim.to) / 2, gearset.offset + shim.outer, 0));
  await page.getByRole('button', { name: 'Labels', exact: true }).click();
  await view(page).hover({ position: place });
  await expect(view(page)).toHaveAttribute('data-chosen', 'pinion-shim');
  await expect(view(page).locator('[data-label="pinion-shim"] > span')).toBeVisible();
  await expect(view(page).locator('[data-label="carrier"] > span')).toBeHidden();
  await view(page).click({ position: place });
  await expect(part(page, /^Pinion shim/)).toHaveAttribute('aria-expanded', 'true');
  await expect(page.getByText('Drawn 4 times as thick at the design position.')).toBeVisible();
  await expect(
    page.getByText(/The bearing stays in the housing: a thicker shim holds the head further off it/),
  ).toBeVisible();

  // the list alone, without a mouse
  await page.mouse.move(2, 2);
  await part(page, /^Opposite shim/).focus();
  await page.keyboard.press('Enter');
  await expect(view(page)).toHaveAttribute('data-chosen', 'opposite-side');
  await expect(part(page, /^Pinion shim/)).toHaveAttribute('aria-expanded', 'false');
  await expect(page.getByText(/out, away from the pinion: more backlash/)).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(part(page, /^Opposite shim/)).toHaveAttribute('aria-expanded', 'false');
});

test('the camera goes by keys, by hand and home; at rest nothing is drawn', async ({ page }) => {
  await page.addInitScript(() => {
    const counter = window as unknown as { drawn: number };
    counter.drawn = 0;
    const draw = WebGL2RenderingContext.prototype.drawElementsInstanced;
    WebGL2RenderingContext.prototype.drawElementsInstanced = function (...args) {
      counter.drawn += 1;
      return draw.apply(this, args);
    };
  });
  await open(page, 'axle=aldra');
  const drawn = () => page.evaluate(() => (window as unknown as { drawn: number }).drawn);
  await page.waitForTimeout(500);
  const idle = await drawn();
  expect(idle).toBeGreaterThan(0);
  await page.waitForTimeout(800);
  expect(await drawn()).toBe(idle);

  const camera = () => view(page).getAttribute('data-view-projection');
  const moved = async (act: () => Promise<unknown>) => {
    const before = await camera();
    await act();
    await expect(view(page)).not.toHaveAttribute('data-view-projection', before ?? '');
  };
  const home = await camera();
  await view(page).focus();
  for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowRight', '+', '-']) {
    await moved(() => page.keyboard.press(key));
  }
  await page.keyboard.press('Home');
  await expect(view(page)).toHaveAttribute('data-view-projection', home ?? '');
  const box = await view(page).boundingBox();
  if (box === null) throw new Error('the picture has no box');
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await moved(() => page.mouse.wheel(0, 200));
  await page.mouse.down();
  await moved(() => page.mouse.move(box.x + box.width / 2 + 60, box.y + box.height / 2 + 20, { steps: 2 }));
  await page.mouse.up();
  await page.getByRole('button', { name: 'Back to this view' }).click();
  await expect(view(page)).toHaveAttribute('data-view-projection', home ?? '');
  for (const name of ['Pinion', 'Carrier', 'Square on', 'Whole']) {
    await moved(() => page.getByRole('radio', { name, exact: true }).check({ force: true }));
  }
  await expect(view(page)).toHaveAttribute('data-view-projection', home ?? '');
});

test('a reverse-cut set is the mirror image: the pinion points the other way', async ({ page }) => {
  const pinionSide = async (axle: string) => {
    await open(page, `axle=${axle}`);
    const middle = async (label: string) => {
      const box = await view(page).locator(`[data-label="${label}"]`).locator('span').boundingBox();
      if (box === null) throw new Error(`${label} has no box`);
      return box.x + box.width / 2;
    };
    return Math.sign((await middle('push pinion-shim')) - (await middle('carrier')));
  };
  const standard = await pinionSide('borrin');
  expect(await pinionSide('dornet')).toBe(-standard);
});

for (const size of [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
]) {
  test(`labels never overlap, nothing is cut: ${size.width} × ${size.height}`, async ({ page }) => {
    await page.setViewportSize(size);
    for (const [axle, theme] of [
      ['elspar', 'projector'],
      ['dornet', 'workshop'],
    ] as const) {
      await open(page, `axle=${axle}`, { theme });
      for (const name of ['Whole', 'Pinion', 'Carrier', 'Square on']) {
        await page.getByRole('radio', { name, exact: true }).check({ force: true });
        await expect(view(page)).toHaveAttribute('data-settled', 'true');
        const frame = await view(page).boundingBox();
        const boxes: { name: string; x: number; y: number; width: number; height: number }[] = [];
        for (const label of await view(page).locator('[data-label] > span').all()) {
          if (!(await label.isVisible())) continue;
          const box = await label.boundingBox();
          if (box !== null) boxes.push({ name: (await label.textContent()) ?? '', ...box });
        }
        expect(boxes.length).toBeGreaterThan(3);
        for (const [i, a] of boxes.entries()) {
          if (frame !== null) {
            expect(a.x, a.name).toBeGreaterThanOrEqual(frame.x);
            expect(a.x + a.width, a.name).toBeLessThanOrEqual(frame.x + frame.width);
            expect(a.y, a.name).toBeGreaterThanOrEqual(frame.y);
            expect(a.y + a.height, a.name).toBeLessThanOrEqual(frame.y + frame.height);
          }
          for (const b of boxes.slice(i + 1)) {
            const over =
              a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
            expect(over, `${axle} ${name}: ${a.name} over ${b.name}`).toBe(false);
          }
        }
      }
      const wide = await page
        .getByRole('region', { name: 'Housing cut open' })
        .evaluate((element) => element.scrollWidth - element.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
    }
  });
}

test('full detail stays within the triangles and draw calls a slow device manages', async ({ page }) => {
  await open(page, 'axle=elspar', { detail: 'full' });
  await part(page, /^Ring-side adjuster/).click();
  await expect(view(page)).toHaveAttribute('data-chosen', 'ring-side');
  await expect(view(page)).toHaveAttribute('data-settled', 'true');
  const triangles = Number(await view(page).getAttribute('data-triangles'));
  expect(triangles).toBeGreaterThan(90_000);
  expect(triangles).toBeLessThanOrEqual(120_000);
  expect(Number(await view(page).getAttribute('data-calls'))).toBeLessThanOrEqual(40);
});

for (const theme of ['workshop', 'projector'] as const) {
  test(`is clean of accessibility faults: ${theme}`, async ({ page }) => {
    await open(page, 'axle=cavel', { theme });
    await part(page, /^Pinion shim/).click();
    const found = await new AxeBuilder({ page }).include('section[aria-label="Housing cut open"]').analyze();
    expect(found.violations).toEqual([]);
  });
}
