import { expect, type Page, test } from '@playwright/test';
import { FLANKS } from '../../sim/gearset/definition.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';
import { reportOutline } from '../../sim/gearset/geometryReport.ts';
import { projectFlank } from '../../src/flank/flankGeometry.ts';
import { axleOf } from '../../src/state/axles.ts';
import { measureRings, pathPoints } from '../flank/outlineMeasures.ts';
import { asUsedBefore, expectSolved, slide, solveHere } from './support/explore.ts';
import { openApp } from './support/watch.ts';

/** What the drawn patch may differ by from the solver's numbers, in flank coordinates and shares. */
const DRAWN = 0.01;

/** The paths on the screen, taken back to flank coordinates, measure what the solver says to the set-up on screen. */
async function expectDrawn(page: Page): Promise<void> {
  const setup = await expectSolved(page);
  const { axle } = axleOf(setup.axleId);
  const outline = reportOutline(buildGearMesh(axle.gearset));
  const solved = solveHere(setup);
  for (const flank of FLANKS) {
    const path = page.locator(`figure[data-flank="${flank}"] [data-part="patch"]`);
    const projection = projectFlank(outline, flank, axle.hand);
    const rings = pathPoints((await path.getAttribute('d')) ?? '').map(({ x, y }) => {
      const places = x.map((_, i) => projection.toFlank(x[i], y[i]));
      // the map may be a mirror image: keep the sense in which the area counts
      if (!projection.heelOnRight) places.reverse();
      return { u: Float64Array.from(places, ([u]) => u), v: Float64Array.from(places, ([, v]) => v) };
    });
    const drawn = measureRings(rings);
    const said = solved[flank];
    expect(Math.abs(Math.abs(drawn.area) - said.area), `${flank} area`).toBeLessThan(DRAWN);
    expect(Math.abs(drawn.length - said.length), `${flank} length`).toBeLessThan(DRAWN);
    expect(Math.abs(drawn.height - said.height), `${flank} height`).toBeLessThan(DRAWN);
    expect(Math.abs(drawn.toeHeel - (said.toeHeel ?? Number.NaN)), `${flank} toe-heel`).toBeLessThan(DRAWN);
    expect(Math.abs(drawn.rootFace - (said.rootFace ?? Number.NaN)), `${flank} root-face`).toBeLessThan(
      DRAWN,
    );
    const touched = page.locator(`figure[data-flank="${flank}"] [data-contact]`);
    const edges = await touched.evaluateAll((parts) =>
      parts.map((part) => part.getAttribute('data-contact')),
    );
    expect([...new Set(edges)].sort(), `${flank} edges`).toEqual([...said.edges].sort());
  }
}

test.beforeEach(({ page }) => asUsedBefore(page));

for (const name of ['Borrin', 'Cavel', 'Dornet']) {
  test(`${name}: the patches drawn are the solver’s, as found, moved, and reaching an edge`, async ({
    page,
  }) => {
    await openApp(page);
    if (name !== 'Borrin') {
      await page.getByRole('combobox', { name: 'Axle' }).click();
      await page.getByRole('option', { name }).click();
    }
    await expectDrawn(page);
    await slide(page.getByRole('slider', { name: 'Pinion shim', exact: true }), 'ArrowRight', 3);
    await expectDrawn(page);
    await slide(page.getByRole('slider', { name: 'Pinion shim', exact: true }), 'Home');
    await expectDrawn(page);
    await expect(page.locator('[data-contact]').first()).toBeAttached();
  });
}
