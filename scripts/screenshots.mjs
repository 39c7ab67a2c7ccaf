/**
 * `npm run screenshots [-- NAME …]`: takes the pictures of the user guide (scripts/guide/shots.mjs) in the built app.
 * Without names all of them.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { SHOTS } from './guide/shots.mjs';
import { DIST, ensureBuild } from './lib/build.mjs';
import { CHROMIUM_ARGS, ensureChromium } from './lib/chromium.mjs';
import { ensurePackages } from './lib/packages.mjs';
import { fail, PlainError, ROOT } from './lib/run.mjs';
import { createStaticServer, freePort, listen } from './lib/server.mjs';

const FOLDER = resolve(ROOT, 'docs/guide/images');
const PATIENCE_MS = 60_000;
const PAUSE_MS = 400;

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** The picture once the page has come to rest: two in a row that are equal. */
async function pictureAtRest(page) {
  const until = Date.now() + PATIENCE_MS;
  let last = await page.screenshot();
  while (Date.now() < until) {
    await pause(PAUSE_MS);
    const next = await page.screenshot();
    if (next.equals(last)) return next;
    last = next;
  }
  throw new PlainError(`the page did not come to rest within ${PATIENCE_MS / 1000} s.`);
}

/** Answers the one question of the first visit, so that it does not stand in every picture. */
async function answerFirstQuestion(page) {
  const answer = page
    .getByRole('group', { name: /marking compound/ })
    .getByRole('button', { name: 'Yellow', exact: true });
  await answer.click();
  await answer.waitFor({ state: 'detached' });
}

async function takeShot(browser, origin, shot) {
  const context = await browser.newContext({
    baseURL: origin,
    viewport: shot.size,
    deviceScaleFactor: shot.scale ?? 1,
    // until a theme is chosen the app follows the system
    colorScheme: shot.theme === 'projector' ? 'light' : 'dark',
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(30_000);
    await page.goto(`./${shot.hash ? `#${shot.hash}` : ''}`);
    await page.locator('canvas').first().waitFor();
    await page.waitForLoadState('networkidle');
    await page.evaluate(() => document.fonts.ready);
    if (!shot.firstVisit) await answerFirstQuestion(page);
    await shot.prepare?.(page);
    // a pointer left on a control would show its hover state
    await page.mouse.move(0, 0);
    writeFileSync(resolve(FOLDER, `${shot.name}.png`), await pictureAtRest(page));
    console.log(`docs/guide/images/${shot.name}.png`);
  } catch (error) {
    throw new PlainError(`${shot.name}: ${error.message.split('\n')[0]}`);
  } finally {
    await context.close();
  }
}

async function main() {
  const names = process.argv.slice(2);
  const unknown = names.find((name) => !SHOTS.some((shot) => shot.name === name));
  if (unknown !== undefined) {
    throw new PlainError(
      `no such picture: ${unknown}. Allowed: ${SHOTS.map((shot) => shot.name).join(', ')}.`,
    );
  }
  await ensurePackages();
  await ensureBuild();
  const executablePath = await ensureChromium();
  mkdirSync(FOLDER, { recursive: true });

  // loaded here: on a fresh machine the package is not there before ensurePackages
  const { chromium } = await import('@playwright/test');
  const server = createStaticServer(DIST);
  const port = await listen(server, { port: await freePort(), host: '127.0.0.1' });
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  try {
    const wanted = names.length > 0 ? SHOTS.filter((shot) => names.includes(shot.name)) : SHOTS;
    for (const shot of wanted) await takeShot(browser, `http://localhost:${port}/`, shot);
  } finally {
    await browser.close();
    server.close();
    server.closeAllConnections();
  }
}

main().catch(fail);
