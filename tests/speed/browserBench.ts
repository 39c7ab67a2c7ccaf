import { type CDPSession, chromium, type Page } from '@playwright/test';
import { DIST, ensureBuild } from '../../scripts/lib/build.mjs';
import { CHROMIUM_ARGS, ensureChromium } from '../../scripts/lib/chromium.mjs';
import { createStaticServer, freePort, listen } from '../../scripts/lib/server.mjs';

/** The production build in Chromium, software-rendered, stage visible and at rest. Times in ms. */
export interface BrowserBench {
  readonly steps: number;
  /** key event to the new patch in the flank map's document, both flanks */
  readonly inputToPatchMedianMs: number;
  readonly inputToPatchP95Ms: number;
  /** main-thread work from one step to the next: all tasks, stage included */
  readonly mainThreadMedianMs: number;
  readonly mainThreadP95Ms: number;
  /** of that, script, style and layout */
  readonly scriptMedianMs: number;
  readonly scriptP95Ms: number;
  readonly triangles: number;
  readonly drawCalls: number;
  readonly reducedTriangles: number;
  readonly reducedDrawCalls: number;
}

const STEPS = 80;
const WARM_UP = 12;
/** long enough for the stage to finish drawing on a slow machine */
const SETTLE_MS = 350;

const share = (values: readonly number[], part: number): number => {
  const sorted = [...values].sort((p, q) => p - q);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
};

/** Records when a key goes down and when each flank map's patch has changed. Runs in the page. */
const watchPatches = () => {
  const record = { pressed: 0, patched: { drive: 0, coast: 0 } as Record<string, number> };
  (globalThis as unknown as { patchTimes: typeof record }).patchTimes = record;
  document.addEventListener(
    'keydown',
    (event) => {
      record.pressed = event.timeStamp;
      record.patched = { drive: 0, coast: 0 };
    },
    { capture: true },
  );
  new MutationObserver((changes) => {
    for (const { target } of changes) {
      const flank = (target as Element).closest?.('figure[data-flank]')?.getAttribute('data-flank');
      if (flank) record.patched[flank] = performance.now();
    }
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['d'] });
};

const taskTimes = async (session: CDPSession): Promise<{ all: number; script: number }> => {
  const { metrics } = await session.send('Performance.getMetrics');
  const of = (name: string) => (metrics.find((metric) => metric.name === name)?.value ?? 0) * 1000;
  return {
    all: of('TaskDuration'),
    script: of('ScriptDuration') + of('LayoutDuration') + of('RecalcStyleDuration'),
  };
};

const openAt = async (page: Page, address: string, detail: 'full' | 'reduced'): Promise<void> => {
  await page.addInitScript((chosen) => {
    const content = { theme: 'workshop', compound: 'yellow', detail: chosen, units: 'mm' };
    localStorage.setItem('meshwitness.preferences', JSON.stringify({ version: 1, content }));
  }, detail);
  await page.goto(address);
  await page.locator('[data-settled="true"]').waitFor({ timeout: 60_000 });
};

const stageCounts = async (page: Page): Promise<{ triangles: number; calls: number }> => {
  const stage = page.locator('[data-triangles]').first();
  return {
    triangles: Number(await stage.getAttribute('data-triangles')),
    calls: Number(await stage.getAttribute('data-calls')),
  };
};

/** Steps the pinion shim by key, as a person does, and measures each step. */
const benchSteps = async (page: Page, session: CDPSession) => {
  const slider = page.getByRole('slider', { name: /Pinion shim/ }).first();
  await slider.focus();
  const latency: number[] = [];
  const main: number[] = [];
  const script: number[] = [];
  for (let step = 0; step < WARM_UP + STEPS; step++) {
    const before = await taskTimes(session);
    // Back and forth within the slider's travel.
    await page.keyboard.press(step % 8 < 4 ? 'ArrowRight' : 'ArrowLeft');
    await page.waitForTimeout(SETTLE_MS);
    const after = await taskTimes(session);
    const { pressed, patched } = await page.evaluate(
      () =>
        (globalThis as unknown as { patchTimes: { pressed: number; patched: Record<string, number> } })
          .patchTimes,
    );
    if (step < WARM_UP) continue;
    const last = Math.max(...Object.values(patched));
    if (Math.min(...Object.values(patched)) === 0) throw new Error(`step ${step} changed no patch`);
    latency.push(last - pressed);
    main.push(after.all - before.all);
    script.push(after.script - before.script);
  }
  return { latency, main, script };
};

export const benchBrowser = async (): Promise<BrowserBench> => {
  await ensureBuild();
  const server = createStaticServer(DIST);
  const port = await freePort();
  await listen(server, { port, host: '127.0.0.1' });
  const address = `http://127.0.0.1:${port}/`;
  const browser = await chromium.launch({ executablePath: await ensureChromium(), args: CHROMIUM_ARGS });
  try {
    const open = async (detail: 'full' | 'reduced') => {
      const context = await browser.newContext({
        viewport: { width: 1366, height: 768 },
        reducedMotion: 'reduce',
        serviceWorkers: 'block',
      });
      const page = await context.newPage();
      await page.addInitScript(watchPatches);
      await openAt(page, address, detail);
      return { context, page };
    };
    const reduced = await open('reduced');
    const reducedCounts = await stageCounts(reduced.page);
    await reduced.context.close();
    const { page, context } = await open('full');
    const counts = await stageCounts(page);
    const session = await context.newCDPSession(page);
    await session.send('Performance.enable');
    const { latency, main, script } = await benchSteps(page, session);
    return {
      steps: latency.length,
      inputToPatchMedianMs: share(latency, 0.5),
      inputToPatchP95Ms: share(latency, 0.95),
      mainThreadMedianMs: share(main, 0.5),
      mainThreadP95Ms: share(main, 0.95),
      scriptMedianMs: share(script, 0.5),
      scriptP95Ms: share(script, 0.95),
      triangles: counts.triangles,
      drawCalls: counts.calls,
      reducedTriangles: reducedCounts.triangles,
      reducedDrawCalls: reducedCounts.calls,
    };
  } finally {
    await browser.close();
    server.close();
  }
};
