/**
 * The pictures of the user guide: each a named state of the real app, reached as a user reaches it.
 *
 * `name`     file name in docs/guide/images/, without ending
 * `hash`     what follows the # of the address: any link copied from the app
 * `size`     width × height of the window; `scale` for small windows, so that their pictures are sharp
 * `theme`    'workshop' or 'projector', as kept by the settings; `light`/`dark` is what the system would ask for
 * `firstVisit`  true to leave the question of the first visit standing
 * `prepare`  what the user does before the picture is taken; gets the page
 */
const DESK = { width: 1366, height: 768 };
const PHONE = { width: 390, height: 844 };

/** The whole map, every state solved. */
const openShimMap = async (page) => {
  await page.getByRole('tab', { name: 'Shim map' }).click();
  await page.locator('[data-covered="1"]').waitFor();
};

/** The housing, once it is known how much larger its moves can be drawn. */
const cutOpen = (page) => page.getByRole('slider', { name: 'Show moves larger' }).waitFor();

/** The editor with an axle from a caliper, some of it measured. */
const buildOwn = async (page) => {
  await page.getByRole('combobox', { name: 'Axle' }).click();
  await page.getByRole('option', { name: /^Build your own/ }).click();
  const form = page.getByRole('dialog');
  await form.getByLabel('Name', { exact: true }).fill('Shed axle');
  await form.getByLabel('Pinion teeth').fill('12');
  await form.getByLabel('Ring teeth').fill('43');
  await form.getByLabel('Ring diameter').fill('201.3');
  await form.getByLabel('Face width').fill('30.2');
  await form.getByLabel('Offset').fill('29.6');
  await page.getByRole('button', { name: 'Keep and put on the bench', disabled: false }).waitFor();
};

/** Match with a pattern picked as if it had been painted. */
const lookAtPattern = async (page, story) => {
  await page.getByRole('button', { name: 'Match', exact: true }).click();
  await page.getByRole('button', { name: 'Pick a pattern' }).click();
  await page.getByRole('button', { name: story }).click();
};

/** The same, and the dial read at three places; the map of the answer worked out. */
const lookAndRead = async (page) => {
  await lookAtPattern(page, /^Pinion 0\.14\smm too deep, ring right/);
  for (const [place, reads] of ['0.17', '0.19', '0.18'].entries()) {
    await page.getByRole('button', { name: place === 0 ? 'Add a reading' : 'Add a place' }).click();
    const reading = page.getByRole('textbox', { name: `Reading at place ${place + 1}` });
    await reading.fill(reads);
    await reading.press('Enter');
  }
  await page.locator('[data-part="next"]').waitFor();
  await page.locator('[data-part="shim-map"][data-covered="1"]').waitFor();
};

export const SHOTS = [
  { name: 'explore', size: DESK, theme: 'workshop' },
  {
    name: 'explore-shim-changed',
    size: DESK,
    theme: 'workshop',
    prepare: async (page) => {
      const thicker = page.getByRole('button', { name: /^Pinion shim .* thicker$/ });
      for (let press = 0; press < 4; press++) await thicker.click();
    },
  },
  {
    name: 'explore-projector',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    prepare: (page) => page.getByRole('button', { name: 'Gap lines' }).click(),
  },
  {
    name: 'explore-drive-flank',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&camera=drive',
  },
  { name: 'explore-whole-set', size: DESK, theme: 'workshop', hash: '/explore?v=1&axle=dornet&camera=whole' },
  { name: 'explore-tablet', size: { width: 768, height: 1024 }, theme: 'workshop' },
  { name: 'explore-phone', size: PHONE, scale: 2, theme: 'workshop' },
  {
    name: 'cut-away',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&picture=housing',
    prepare: cutOpen,
  },
  {
    name: 'cut-away-cartridge',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=elspar&pinion=1.3&picture=housing',
    prepare: async (page) => {
      await cutOpen(page);
      await page.getByRole('radio', { name: 'Pinion', exact: true }).check({ force: true });
    },
  },
  {
    name: 'cut-away-mixed',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    hash: '/explore?v=1&axle=dornet&pinion=1.03&picture=housing',
    prepare: async (page) => {
      await cutOpen(page);
      await page.getByRole('radio', { name: 'Square on', exact: true }).check({ force: true });
      await page
        .getByRole('list', { name: 'Parts' })
        .getByRole('button', { name: /^Pinion shim/ })
        .click();
    },
  },
  {
    name: 'dial',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&picture=dial',
    prepare: async (page) => {
      const runout = page.getByRole('textbox', { name: 'full reading at the back face' });
      await runout.fill('0.08');
      await runout.press('Enter');
      await page.getByRole('radio', { name: /^Place 4,/ }).check({ force: true });
      await page.getByRole('slider', { name: 'Ring, rocked by hand' }).press('End');
    },
  },
  {
    name: 'dial-turning-direction',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    hash: '/explore?v=1&axle=borrin&picture=dial',
    prepare: async (page) => {
      await page.getByRole('radio', { name: 'Turning direction' }).check({ force: true });
      await page.getByRole('button', { name: 'Plunger' }).click();
      await page.getByRole('slider', { name: 'Ring, rocked by hand' }).press('End');
    },
  },
  {
    name: 'curves',
    size: { width: 1920, height: 1080 },
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin',
    prepare: async (page) => {
      await page.getByRole('tab', { name: 'Curves' }).click();
      const place = page.getByRole('slider', { name: 'Place in the pitch' });
      await place.focus();
      for (let press = 0; press < 24; press++) await place.press('ArrowRight');
      await place.blur();
    },
  },
  {
    name: 'curves-numbers',
    size: { width: 1366, height: 1024 },
    theme: 'projector',
    hash: '/explore?v=1&axle=cavel&pinion=1.5',
    prepare: async (page) => {
      await page.getByRole('tab', { name: 'Curves' }).click();
      await page.getByText('Numbers behind the marks').click();
      await page.getByRole('row', { name: 'Film of compound' }).scrollIntoViewIfNeeded();
    },
  },
  {
    name: 'side-by-side',
    size: { width: 1920, height: 1080 },
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&pinion=1.45&camera=drive&picture=side-by-side',
  },
  {
    name: 'side-by-side-two-axles',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    hash: '/explore?v=1&axle=borrin&pinion=1.25&picture=side-by-side&left=alike&left.axle=elspar&camera=coast',
  },
  {
    name: 'shim-map',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    hash: '/explore?v=1&axle=borrin',
    prepare: openShimMap,
  },
  {
    name: 'shim-map-way',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&pinion=1.5',
    prepare: async (page) => {
      await openShimMap(page);
      await page.getByRole('application', { name: /^Shim map/ }).press('End');
    },
  },
  {
    name: 'own-axle-editor',
    size: DESK,
    theme: 'workshop',
    prepare: async (page) => {
      await buildOwn(page);
      const middle = page.getByRole('slider', { name: 'Drive flank: middle of the wanted pattern' });
      await middle.focus();
      for (let press = 0; press < 5; press++) await middle.press('ArrowRight');
      await page.locator('[data-wish="drive"][data-empty]').waitFor();
    },
  },
  {
    name: 'own-axle-unmakeable',
    size: DESK,
    theme: 'projector',
    prepare: async (page) => {
      await buildOwn(page);
      await page.getByRole('dialog').getByLabel('Face width').fill('92');
      await page.getByRole('button', { name: /^Use the nearest makeable/ }).waitFor();
    },
  },
  {
    name: 'own-axle-unknowns',
    size: DESK,
    theme: 'workshop',
    prepare: async (page) => {
      await buildOwn(page);
      await page.getByRole('button', { name: 'Keep and put on the bench' }).click();
      await page.getByRole('button', { name: 'What we do not know' }).click();
      await page.getByText(/^96 sets tried/).waitFor({ timeout: 180_000 });
    },
  },
  {
    name: 'match',
    size: { width: 1920, height: 1080 },
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin',
    prepare: async (page) => {
      await lookAndRead(page);
      await page.locator('#controls').evaluate((side) => side.scrollTo(0, 0));
    },
  },
  {
    name: 'match-map',
    size: { width: 1920, height: 1080 },
    theme: 'projector',
    hash: '/explore?v=1&axle=borrin',
    prepare: async (page) => {
      await lookAndRead(page);
      await page.locator('[data-part="shim-map"]').scrollIntoViewIfNeeded();
    },
  },
  {
    name: 'match-photo',
    size: DESK,
    theme: 'workshop',
    hash: '/explore?v=1&axle=borrin&pinion=1.45&camera=drive',
    prepare: async (page) => {
      // the stage square on the flank stands in for a photo of it
      const buffer = await page.locator('canvas').first().screenshot();
      await page.getByRole('button', { name: 'Match', exact: true }).click();
      await page.getByRole('button', { name: 'Photo: Drive flank' }).click();
      const sheet = page.getByRole('dialog', { name: 'Photo: Drive flank' });
      await sheet
        .locator('input[type="file"]')
        .first()
        .setInputFiles({ name: 'tooth.png', mimeType: 'image/png', buffer });
      await sheet.getByRole('button', { name: 'Move: toe, root' }).waitFor();
      // shares of the photo's width and height; the corners first, since the edge points go with them
      const places = {
        toeRoot: [0.07, 0.915],
        toeFace: [0.081, 0.454],
        heelFace: [0.929, 0.385],
        heelRoot: [0.919, 0.985],
        midFace: [0.508, 0.404],
        midRoot: [0.478, 0.98],
      };
      const photo = await sheet
        .getByRole('group', { name: 'Where the tooth lies in the photo' })
        .boundingBox();
      for (const [point, [x, y]] of Object.entries(places)) {
        await sheet.locator(`[data-point="${point}"]`).hover();
        await page.mouse.down();
        await page.mouse.move(photo.x + x * photo.width, photo.y + y * photo.height, { steps: 4 });
        await page.mouse.up();
      }
    },
  },
  { name: 'first-visit', size: DESK, theme: 'workshop', firstVisit: true },
  {
    name: 'link-damaged',
    size: DESK,
    theme: 'projector',
    hash: '/explore?v=1&axle=borrin&pinion=thick',
  },
];
