import { chromium, type Page } from '@playwright/test';
import { DIST, ensureBuild } from '../../scripts/lib/build.mjs';
import { CHROMIUM_ARGS, ensureChromium } from '../../scripts/lib/chromium.mjs';
import { createStaticServer, freePort, listen } from '../../scripts/lib/server.mjs';
import { SUBJECT_REST_MS } from '../../src/state/shimMap.ts';
import { share, type Watched, watchSteps } from './browserBench.ts';

/** The shim map in sight and being worked out while a slider moves. Times in ms. */
export interface ShimMapBench {
  /** steps of the pinion shim that fell while the second worker was at a map, the page being at rest otherwise */
  readonly shimMapSteps: number;
  /** key event to the new patch in the flank maps' document, both flanks */
  readonly shimMapInputToPatchMedianMs: number;
  readonly shimMapInputToPatchP95Ms: number;
  /** the same for steps that fall soon after a change of the film, while the page still draws what that one changed */
  readonly shimMapAfterFilmInputToPatchMedianMs: number;
  readonly shimMapAfterFilmInputToPatchP95Ms: number;
  /** the same steps on the same page once the map is finished: what the map adds is the difference */
  readonly shimMapRestedInputToPatchMedianMs: number;
  readonly shimMapRestedInputToPatchP95Ms: number;
  /** from the change of the film to the first map, and to the whole of it; both with the rest before it begins */
  readonly shimMapFirstMs: number;
  readonly shimMapWholeMs: number;
  /** solved cells of the first map out of all */
  readonly shimMapFirstShare: number;
}

/** As many changes as the film has room for. */
const STEPS = 24;
const WARM_UP = 4;
/** The map, its drawing and the page come to rest before the next step. */
const REST_MS = 500;
/** What a change of the film leaves to be drawn is drawn by then. */
const PAGE_REST_MS = 1000;
/** mm of film per press; each step takes another one, so that no finished map serves again */
const FIRST_FILM = 0.002;
/** The steps fall early and late in the work: on the first drawing of a map, between two, on a later one. */
const SPREAD_MS = 120;
const AFTER_FILM_SPREAD_MS = 30;
const SPREAD = 6;
const CELLS = { first: 81, all: 3721 };

type MapTimes = { film: number; covered: Record<string, number>; busy: boolean };
type MapWatched = Watched & { mapTimes: MapTimes };

/** Notes when a map is asked for and when its passes are drawn. Runs in the page, before its own scripts. */
const watchMap = () => {
  const times: MapTimes = { film: 0, covered: {}, busy: false };
  (globalThis as MapWatched).mapTimes = times;
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'x') {
        times.film = event.timeStamp;
        times.covered = {};
      } else times.busy = document.querySelector('progress') !== null;
    },
    { capture: true },
  );
  new MutationObserver(() => {
    const pass = document.querySelector('[data-covered]')?.getAttribute('data-covered');
    if (pass && times.covered[pass] === undefined) times.covered[pass] = performance.now();
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-covered'] });
};

const mapTimes = (page: Page): Promise<MapTimes> => page.evaluate(() => (globalThis as MapWatched).mapTimes);

/** ms from the last key to its patch on both flanks. */
const latencyOf = async (page: Page, step: number): Promise<number> => {
  const { key, patched } = await page.evaluate(() => (globalThis as MapWatched).stepTimes);
  const ends = Object.values(patched);
  if (Math.min(...ends) === 0) throw new Error(`step ${step} changed no patch`);
  return Math.max(...ends) - key;
};

/** Presses one of the map's own buttons without moving the focus from the slider. */
const pressOnMap = (page: Page, name: string): Promise<void> =>
  page.getByRole('button', { name, exact: true }).evaluate((button) => (button as HTMLElement).click());

/** Stopped as soon as it is begun, the map is worked out anew when told to go on: on a page that is at rest. */
const mapOnRestedPage = async (page: Page, spread: number): Promise<void> => {
  await page.keyboard.press('x');
  await pressOnMap(page, 'Stop');
  await page.waitForTimeout(PAGE_REST_MS);
  await pressOnMap(page, 'Go on');
  await page.waitForTimeout(SPREAD_MS * spread);
};

const mapAfterFilm = async (page: Page, spread: number): Promise<void> => {
  await page.keyboard.press('x');
  // past the rest before a map begins: from here on the second worker is at it
  await page.waitForTimeout(SUBJECT_REST_MS + AFTER_FILM_SPREAD_MS * spread);
};

const benchSteps = async (page: Page, beginMap: typeof mapAfterFilm) => {
  await page.getByRole('slider', { name: 'Pinion shim', exact: true }).focus();
  const latency: number[] = [];
  const rested: number[] = [];
  const first: number[] = [];
  const whole: number[] = [];
  for (let step = 0; step < WARM_UP + STEPS; step++) {
    await beginMap(page, step % SPREAD);
    await page.keyboard.press(step % 8 < 4 ? 'ArrowRight' : 'ArrowLeft');
    await page.locator('[data-covered="1"]').waitFor();
    await page.waitForTimeout(REST_MS);
    const times = await mapTimes(page);
    const busy = await latencyOf(page, step);
    await page.keyboard.press(step % 8 < 4 ? 'ArrowLeft' : 'ArrowRight');
    await page.waitForTimeout(REST_MS);
    if (step < WARM_UP || !times.busy) continue;
    rested.push(await latencyOf(page, step));
    latency.push(busy);
    first.push(Math.min(...Object.values(times.covered)) - times.film);
    whole.push(times.covered['1'] - times.film);
  }
  if (latency.length < STEPS / 2) {
    throw new Error(`only ${latency.length} of ${STEPS} steps fell while a map was worked out`);
  }
  return { latency, rested, first, whole };
};

export const benchShimMap = async (): Promise<ShimMapBench> => {
  await ensureBuild();
  const server = createStaticServer(DIST);
  const port = await freePort();
  await listen(server, { port, host: '127.0.0.1' });
  const browser = await chromium.launch({ executablePath: await ensureChromium(), args: CHROMIUM_ARGS });
  try {
    const context = await browser.newContext({
      viewport: { width: 1366, height: 768 },
      reducedMotion: 'reduce',
      serviceWorkers: 'block',
    });
    const page = await context.newPage();
    await page.addInitScript(watchSteps);
    await page.addInitScript(watchMap);
    await page.addInitScript(() => {
      const content = { theme: 'workshop', compound: 'yellow', detail: 'full', units: 'mm' };
      localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
    });
    const open = async () => {
      await page.goto('about:blank');
      await page.goto(
        `http://127.0.0.1:${port}/#/explore?v=1&axle=borrin&film=${FIRST_FILM}&picture=shim-map`,
      );
      await page.locator('[data-covered="1"]').waitFor({ timeout: 60_000 });
    };
    await open();
    const { latency, rested } = await benchSteps(page, mapOnRestedPage);
    await open();
    const { latency: afterFilm, first, whole } = await benchSteps(page, mapAfterFilm);
    return {
      shimMapSteps: latency.length,
      shimMapInputToPatchMedianMs: share(latency, 0.5),
      shimMapInputToPatchP95Ms: share(latency, 0.95),
      shimMapAfterFilmInputToPatchMedianMs: share(afterFilm, 0.5),
      shimMapAfterFilmInputToPatchP95Ms: share(afterFilm, 0.95),
      shimMapRestedInputToPatchMedianMs: share(rested, 0.5),
      shimMapRestedInputToPatchP95Ms: share(rested, 0.95),
      shimMapFirstMs: share(first, 0.5),
      shimMapWholeMs: share(whole, 0.5),
      shimMapFirstShare: CELLS.first / CELLS.all,
    };
  } finally {
    await browser.close();
    server.close();
  }
};
