import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { MeshCore } from '../../sim/worker/core.ts';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import { poseWithRunout, runoutFrame } from '../../sim/worker/runout.ts';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { patchScene } from '../../src/flank/patchScene.ts';
import { axleOf } from '../../src/state/axles.ts';
import { teethAt } from '../../src/state/dial.ts';
import { poseOfSetup } from '../../src/state/mesh.ts';
import type { Setup } from '../../src/state/setup.ts';
import { formatNumber } from '../../src/units/format.ts';
import { mmToInch } from '../../src/units/length.ts';
import { asUsedBefore, expectSolved, setupOf, slide, solveHere } from './support/explore.ts';
import { watch } from './support/watch.ts';

const mm = (value: number | null) => formatNumber(value ?? Number.NaN, 3);
const inch = (value: number | null) => formatNumber(mmToInch(value ?? Number.NaN), 4);

const panel = (page: Page) => page.getByRole('region', { name: 'Reading', exact: true });
const reading = (page: Page) => panel(page).getByLabel('Dial', { exact: true });
const byHand = (page: Page) => page.getByRole('slider', { name: 'Ring, rocked by hand' });
const view = (page: Page) => page.getByRole('group', { name: 'Ring, pinion and dial in three dimensions' });
const round = (page: Page) => page.getByRole('region', { name: 'Round the ring' });
const verdict = (page: Page) => round(page).locator('p[role="status"]');
const runout = (page: Page) => page.getByRole('region', { name: 'Ring runout' });

async function open(page: Page, query = 'axle=borrin'): Promise<Setup> {
  await asUsedBefore(page);
  await page.goto(`./#/explore?v=1&${query}&picture=dial`);
  await expect(reading(page)).toHaveText(/^0\.000/);
  return setupOf(page);
}

/** Numbers the stage publishes about the instrument it draws. */
const drawn = async (page: Page) => {
  await expect(view(page)).toHaveAttribute('data-settled', 'true');
  const attribute = async (name: string) => Number(await view(page).getAttribute(name));
  return { out: await attribute('data-out'), rocked: await attribute('data-rocked') };
};

/** deg clockwise from the top */
const needle = async (page: Page): Promise<number> => {
  const transform = await panel(page).locator('[data-part="needle"]').getAttribute('transform');
  return Number(/rotate\((-?[\d.]+)/.exec(transform ?? '')?.[1]);
};

const enter = async (field: Locator, text: string) => {
  await field.fill(text);
  await field.press('Enter');
};

const core = new MeshCore();

/** The mesh at each place of a ring with runout, worked out here. */
function solveRound(setup: Setup, count: number, full: number, farthestAt: number): SolveResult[] {
  const { axle } = axleOf(setup.axleId);
  const loaded = core.load(setup.axleId, axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const frame = runoutFrame(axle.gearset, loaded.value.geometry.meanPoint);
  const tilt = { amplitude: full / 2, highAt: (-farthestAt * Math.PI) / 180 };
  return teethAt(count, axle.gearset.ringTeeth).map((tooth) => {
    const turned = (-2 * Math.PI * tooth) / axle.gearset.ringTeeth;
    const solved = core.solve(
      setup.axleId,
      poseWithRunout(frame, poseOfSetup(setup), tilt, turned),
      setup.film,
    );
    if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
    return solved.value;
  });
}

test('needle, figure, plunger and ring move together from drive contact to the solver’s play', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  const { backlash } = solveHere(await open(page));
  const play = backlash.normal ?? 0;
  expect(await needle(page)).toBeCloseTo(0, 6);
  expect(Math.abs((await drawn(page)).out)).toBe(0);

  await slide(byHand(page), 'End');
  await expect(reading(page)).toHaveText(`${mm(play)}\u202fmm`);
  await expect(byHand(page)).toHaveAttribute('aria-valuetext', /^On coast contact, dial 0\.17/);
  // one turn is 1 mm; the plunger follows the tooth out, so the needle goes back
  expect(await needle(page)).toBeCloseTo(-360 * play, 2);
  await expect.poll(async () => (await drawn(page)).out).toBeCloseTo(play, 9);
  expect(Math.abs((await drawn(page)).rocked)).toBeCloseTo(((backlash.angle ?? 0) * Math.PI) / 180, 9);
  await expect(panel(page)).toContainText(`square to the flank: ${mm(play)}\u202fmm`);

  await slide(byHand(page), 'Home');
  await slide(byHand(page), 'ArrowRight', 3);
  await expect(reading(page)).toHaveText(`${mm(0.03 * play)}\u202fmm`);
  await expect.poll(async () => (await drawn(page)).out).toBeCloseTo(0.03 * play, 9);

  // in inches the same play is read on another face
  await page.getByRole('radio', { name: 'Inches' }).check({ force: true });
  await slide(byHand(page), 'End');
  await expect(reading(page)).toHaveText(`${inch(play)}\u202fin`);
  expect(await needle(page)).toBeCloseTo((-360 * mmToInch(play)) / 0.04, 2);

  // a shim changes the play under the needle
  await page.getByRole('radio', { name: 'Millimetres' }).check({ force: true });
  await page.getByRole('button', { name: 'Pinion shim 0.025 mm thicker' }).click();
  const after = solveHere(await expectSolved(page)).backlash.normal;
  await expect(reading(page)).toHaveText(`${mm(after)}\u202fmm`);
  expect(after).not.toBe(play);
  expect(seen.complaints).toEqual([]);
});

test('held along the turning direction it reads more, and says not to hold that against the limits', async ({
  page,
}) => {
  const { backlash } = solveHere(await open(page));
  await page.getByRole('radio', { name: 'Turning direction' }).check({ force: true });
  await slide(byHand(page), 'End');
  await expect(reading(page)).toHaveText(`${mm(backlash.tangential)}\u202fmm`);
  await expect.poll(async () => (await drawn(page)).out).toBeCloseTo(backlash.tangential ?? 0, 9);
  const more = Math.round(((backlash.tangential ?? 0) / (backlash.normal ?? 1) - 1) * 100);
  await expect(panel(page)).toContainText(`reads ${more} % more`);
  await expect(panel(page).locator('[data-part="limits"]')).toHaveCount(0);
  await expect(round(page)).toContainText('Judged square to the flank');
  await page.getByRole('radio', { name: 'Square to flank' }).check({ force: true });
  await expect(panel(page).locator('[data-part="limits"]')).toHaveCount(1);
});

test('rocks by itself until stopped, by button and by key; in steps where motion is reduced', async ({
  page,
}) => {
  const { backlash } = solveHere(await open(page));
  const figures = async (count: number) => {
    const read = new Set<string>();
    for (let look = 0; look < count; look++) {
      read.add((await reading(page).textContent()) ?? '');
      await page.waitForTimeout(120);
    }
    return read;
  };
  await page.getByRole('button', { name: 'Rock', exact: true }).click();
  expect((await figures(20)).size).toBeGreaterThan(4);
  await page.keyboard.press('j');
  await expect(page.getByRole('button', { name: 'Rock', exact: true })).toBeVisible();
  expect((await figures(6)).size).toBe(1);

  await slide(byHand(page), 'Home');
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await view(page).focus();
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: 'Stop', exact: true })).toBeVisible();
  const steps = await figures(40);
  const play = backlash.normal ?? 0;
  expect([...steps].sort()).toEqual([0, play / 2, play].map((value) => `${mm(value)}\u202fmm`));
});

test('readings round a ring with runout are the solver’s at each tooth, with what they come to', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  const setup = await open(page);
  await expect(round(page)).toContainText('The ring runs true');
  await enter(runout(page).getByRole('textbox', { name: 'full reading at the back face' }), '0,08');
  await enter(runout(page).getByRole('textbox', { name: 'degrees from tooth 1' }), '120');
  for (let press = 0; press < 2; press++) await page.getByRole('button', { name: 'One place more' }).click();
  const results = solveRound(setup, 8, 0.08, 120);
  const teeth = teethAt(8, axleOf(setup.axleId).axle.gearset.ringTeeth);
  for (const [index, { backlash }] of results.entries()) {
    const name = `Place ${index + 1}, tooth ${teeth[index] + 1}: ${mm(backlash.normal)}\u202fmm`;
    await expect(round(page).getByRole('radio', { name, exact: true })).toBeAttached();
  }
  const normals = results.map(({ backlash }) => backlash.normal ?? Number.NaN);
  const figure = (name: string) => round(page).locator(`[data-extreme="${name}"]`);
  const [least, greatest] = [Math.min(...normals), Math.max(...normals)];
  await expect(figure('least')).toContainText(mm(least));
  await expect(figure('least')).toContainText(`place ${normals.indexOf(least) + 1}`);
  await expect(figure('greatest')).toContainText(mm(greatest));
  await expect(figure('variation')).toContainText(mm(greatest - least));
  const { variation } = axleOf(setup.axleId).axle.limits.backlash;
  expect(greatest - least).toBeGreaterThan(variation);
  await expect(verdict(page)).toContainText(
    `Varies ${mm(greatest - least - variation)}\u202fmm more than allowed`,
  );
  await expect(round(page)).toContainText('One reading alone could have been any of');
  await expect(runout(page)).toContainText('over this axle’s limit of 0.06');

  // what cannot be read stays in the field with the reason
  await enter(runout(page).getByRole('textbox', { name: 'full reading at the back face' }), '3');
  await expect(runout(page).getByRole('alert')).toContainText('outside 0.000');
  await page.keyboard.press('Escape');

  // as few and as many places as allowed
  for (let press = 0; press < 4; press++) await page.getByRole('button', { name: 'One place more' }).click();
  await expect(page.getByRole('button', { name: 'One place more' })).toBeDisabled();
  await expect(round(page).getByRole('radio')).toHaveCount(13);
  for (let press = 0; press < 9; press++) await page.getByRole('button', { name: 'One place fewer' }).click();
  await expect(page.getByRole('button', { name: 'One place fewer' })).toBeDisabled();
  await expect(round(page).getByRole('radio')).toHaveCount(4);
  expect(seen.complaints).toEqual([]);
});

test('a place chosen by keys is read by the dial and outlined on the maps, as the solver has it there', async ({
  page,
}) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const setup = await open(page);
  // the slider by keys alone: 0.06 mm in steps of 0.005
  await slide(page.getByRole('slider', { name: 'Runout', exact: true }), 'ArrowRight', 12);
  await expect(runout(page).getByRole('textbox', { name: 'full reading' })).toHaveValue('0.06');
  const results = solveRound(setup, 6, 0.06, 0);
  await expect(round(page).getByRole('radio', { name: /^Place 1,/ })).toHaveAccessibleName(
    new RegExp(mm(results[0].backlash.normal)),
  );
  await round(page).getByRole('radio', { name: 'Ring as if it ran true' }).focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await expect(round(page).getByRole('radio', { name: /^Place 3,/ })).toBeChecked();

  await slide(byHand(page), 'End');
  await expect(reading(page)).toHaveText(`${mm(results[2].backlash.normal)}\u202fmm`);
  const { axle } = axleOf(setup.axleId);
  const loaded = core.load(setup.axleId, axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  for (const flank of ['drive', 'coast'] as const) {
    const map = page.locator(`figure[data-flank="${flank}"]`);
    const outline = map.locator('[data-part="place-patch"]');
    const projection = projectFlank(loaded.value.outline, flank, axle.hand);
    const { [flank]: there, grid, film } = results[2];
    await expect(outline).toHaveAttribute('d', patchScene(there, grid, film, projection).patch);
    await expect(map).toContainText('at place 3, tooth 17');
    // the set-up's own mark is still the map's
    const own = await map.locator('[data-part="patch"]').getAttribute('d');
    expect(own).toBe(patchScene(solveHere(setup)[flank], grid, film, projection).patch);
    expect(own).not.toBe(await outline.getAttribute('d'));
  }
  await expect(round(page)).toContainText('marks at place 3 (tooth 17)');

  await page.getByRole('button', { name: 'Back to the mean' }).click();
  await expect(page.locator('[data-part="place-patch"]')).toHaveCount(0);
  await expect(round(page).getByRole('radio', { name: 'Ring as if it ran true' })).toBeChecked();

  // leaving the dial leaves the maps with one mark
  await round(page)
    .getByRole('radio', { name: /^Place 2,/ })
    .check({ force: true });
  await expect(page.locator('[data-part="place-patch"]')).toHaveCount(2);
  await page.getByRole('tab', { name: 'Gears' }).click();
  await expect(page.locator('[data-part="place-patch"]')).toHaveCount(0);
});

test('where the teeth bind there is nothing to rock, and it says so', async ({ page }) => {
  await asUsedBefore(page);
  await page.goto('./#/explore?v=1&axle=borrin&pinion=1.7&ring=6.2&opposite=5.8&picture=dial');
  const { backlash } = solveHere(await setupOf(page));
  expect(backlash.binding).toBe(true);
  await expect(panel(page)).toContainText('The teeth bind here');
  await expect(page.getByRole('button', { name: 'Rock', exact: true })).toBeDisabled();
  await expect(byHand(page)).toBeDisabled();
  await expect(verdict(page)).toContainText('The teeth bind at place');
  await page.keyboard.press('j');
  await expect(reading(page)).toHaveText(/^0\.000/);
});

const SIZES = [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
] as const;

for (const theme of ['workshop', 'projector'] as const) {
  test(`${theme}: fits every size and reads well to a screen reader`, async ({ page }) => {
    await asUsedBefore(page, theme);
    await page.goto('./#/explore?v=1&axle=borrin&picture=dial');
    await expect(reading(page)).toHaveText(/^0\.000/);
    await enter(runout(page).getByRole('textbox', { name: 'full reading at the back face' }), '0.08');
    await round(page)
      .getByRole('radio', { name: /^Place 4,/ })
      .check({ force: true });
    for (const size of SIZES) {
      await page.setViewportSize(size);
      // nothing sticks out of the picture sideways, and the places keep apart
      const picture = page.getByRole('tabpanel', { name: 'Dial' });
      const over = await picture.evaluate((element) => {
        const { right } = element.getBoundingClientRect();
        return [...element.querySelectorAll<HTMLElement>('button, input, p, dl, figure, output, h3, svg')]
          .filter((inner) => inner.closest('.visually-hidden') === null)
          .filter((inner) => inner.getBoundingClientRect().right > right + 1)
          .map((inner) => inner.textContent ?? inner.tagName);
      });
      expect(over).toEqual([]);
      const panelBox = await picture.boundingBox();
      const chips = await round(page).getByRole('radio').all();
      const boxes = [];
      for (const chip of chips) boxes.push(await chip.boundingBox());
      for (const [index, box] of boxes.entries()) {
        if (box === null || panelBox === null) throw new Error('a place has no box');
        expect(box.width).toBeGreaterThanOrEqual(42);
        expect(box.x).toBeGreaterThanOrEqual(panelBox.x);
        expect(box.x + box.width).toBeLessThanOrEqual(panelBox.x + panelBox.width);
        for (const other of boxes.slice(index + 1)) {
          if (other === null) continue;
          const apart = Math.hypot(box.x - other.x, box.y - other.y);
          expect(apart).toBeGreaterThanOrEqual(box.width);
        }
      }
    }
    await page.setViewportSize(SIZES[0]);
    const { violations } = await new AxeBuilder({ page }).include('main').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
}
