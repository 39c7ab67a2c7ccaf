import { type CDPSession, chromium, type Page } from '@playwright/test';
import { DIST, ensureBuild } from '../../scripts/lib/build.mjs';
import { CHROMIUM_ARGS, ensureChromium } from '../../scripts/lib/chromium.mjs';
import { createStaticServer, freePort, listen } from '../../scripts/lib/server.mjs';

/** The production build in Chromium, software-rendered, stage in sight and at rest. Times in ms. */
export interface BrowserBench {
  readonly steps: number;
  /** key event to the new patch in the flank maps' document, both flanks */
  readonly inputToPatchMedianMs: number;
  readonly inputToPatchP95Ms: number;
  /** processor time of the app's own work on the main thread in between: handlers, worker messages, React */
  readonly mainThreadMedianMs: number;
  readonly mainThreadP95Ms: number;
  /** that and the browser's own: style, layout and paint of any frame in between */
  readonly mainThreadWithBrowserMedianMs: number;
  readonly mainThreadWithBrowserP95Ms: number;
  /** that and the frame that brings the new patch, maps, readings and slider to the screen */
  readonly mainThreadToScreenMedianMs: number;
  readonly mainThreadToScreenP95Ms: number;
  /** all tasks of the main thread from one step to the next: also the browser's layout and paint, the stage's new paint, the address */
  readonly allTasksMedianMs: number;
  readonly triangles: number;
  readonly drawCalls: number;
  readonly reducedTriangles: number;
  readonly reducedDrawCalls: number;
}

const STEPS = 60;
const WARM_UP = 10;
/** Drawn by the processor, the stage takes most of a second to come to rest after a step. */
const REST_MS = 1000;

export const share = (values: readonly number[], part: number): number => {
  const sorted = [...values].sort((p, q) => p - q);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
};

interface StepTimes {
  /** ms: the key, its first handler, the last change of either patch */
  key: number;
  handling: number;
  patched: Record<string, number>;
}

export type Watched = typeof globalThis & { stepTimes: StepTimes };

/** Notes the times of a step. Runs in the page, before its own scripts. */
export const watchSteps = () => {
  const times: StepTimes = { key: 0, handling: 0, patched: {} };
  (globalThis as Watched).stepTimes = times;
  window.addEventListener(
    'keydown',
    (event) => {
      times.key = event.timeStamp;
      times.handling = performance.now();
      times.patched = { drive: 0, coast: 0 };
    },
    { capture: true },
  );
  new MutationObserver((changes) => {
    for (const { target } of changes) {
      // what the last change left behind is drawn later, over the patch
      const patch = (target as Element).closest?.('[data-layer="patch"]');
      const flank = patch?.closest('figure[data-flank]')?.getAttribute('data-flank');
      if (flank) times.patched[flank] = performance.now();
    }
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['d'] });
};

const allTasks = async (session: CDPSession): Promise<number> => {
  const { metrics } = await session.send('Performance.getMetrics');
  return (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0) * 1000;
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

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** µs: start, length, and processor time of the thread within it */
  readonly ts: number;
  readonly dur: number;
  readonly tdur?: number;
  readonly args: { readonly data?: { readonly type?: string } };
}

/** Records the main thread while `work` runs. */
const trace = async (session: CDPSession, work: () => Promise<void>): Promise<TraceEvent[]> => {
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => {
    events.push(...(value as unknown as TraceEvent[]));
  });
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['devtools.timeline', 'disabled-by-default-devtools.timeline'] },
  });
  await work();
  await session.send('Tracing.end');
  await complete;
  return events;
};

/** What the app itself does on the main thread; one may hold another. */
const SCRIPT = new Set([
  'EventDispatch',
  'FunctionCall',
  'HandlePostMessage',
  'FireAnimationFrame',
  'TimerFire',
]);

const outermost = (events: readonly TraceEvent[]): TraceEvent[] => {
  const sorted = [...events].sort((p, q) => p.ts - q.ts || q.dur - p.dur);
  let end = Number.NEGATIVE_INFINITY;
  return sorted.filter(({ ts, dur }) => {
    const outer = ts >= end;
    if (outer) end = ts + dur;
    return outer;
  });
};

/** µs, end of the first frame committed after `time`. */
const frameAfter = (tasks: readonly TraceEvent[], commits: readonly TraceEvent[], time: number): number => {
  const commit = commits.find(({ ts }) => ts >= time);
  const task = commit && tasks.find(({ ts, dur }) => ts <= commit.ts && commit.ts < ts + dur);
  if (task === undefined) throw new Error('no frame was drawn after a new patch');
  return task.ts + task.dur;
};

/**
 * Processor time, ms, from each key to its patch: of the app's own work and of all tasks; and of all tasks to the end of
 * the frame that shows it. `spans` in ms from the key's first handler, in order.
 */
const workWithin = (
  events: readonly TraceEvent[],
  spans: readonly number[],
): { app: number[]; tasks: number[]; toScreen: number[] } => {
  const keys = events
    .filter(({ name, args }) => name === 'EventDispatch' && args.data?.type === 'keydown')
    .sort((p, q) => p.ts - q.ts);
  if (keys.length !== spans.length) throw new Error(`${keys.length} keys traced, ${spans.length} pressed`);
  const thread = events.filter(
    ({ ph, pid, tid }) => ph === 'X' && pid === keys[0].pid && tid === keys[0].tid,
  );
  const runs = thread.filter(({ name }) => name === 'RunTask').sort((p, q) => p.ts - q.ts);
  const commits = thread.filter(({ name }) => name === 'Commit').sort((p, q) => p.ts - q.ts);
  const patched = keys.map(({ ts }, k) => ts + spans[k] * 1000);
  const shown = patched.map((time) => frameAfter(runs, commits, time));
  const within = (pieces: readonly TraceEvent[], ends: readonly number[]): number[] =>
    keys.map(({ ts }, k) => {
      const end = ends[k];
      let work = 0;
      for (const piece of pieces) {
        const shared = Math.min(end, piece.ts + piece.dur) - Math.max(ts, piece.ts);
        if (shared > 0) work += ((piece.tdur ?? piece.dur) * shared) / piece.dur;
      }
      return work / 1000;
    });
  return {
    app: within(outermost(thread.filter(({ name }) => SCRIPT.has(name))), patched),
    tasks: within(runs, patched),
    toScreen: within(runs, shown),
  };
};

/** Steps the pinion shim by key, as a person does, and measures each step. */
const benchSteps = async (page: Page, session: CDPSession) => {
  const slider = page.getByRole('slider', { name: /Pinion shim/ }).first();
  await slider.focus();
  const latency: number[] = [];
  const spans: number[] = [];
  const all: number[] = [];
  const press = async (step: number): Promise<void> => {
    // Back and forth within the slider's travel.
    await page.keyboard.press(step % 8 < 4 ? 'ArrowRight' : 'ArrowLeft');
    await page.waitForTimeout(REST_MS);
  };
  for (let step = 0; step < WARM_UP; step++) await press(step);
  const events = await trace(session, async () => {
    for (let step = 0; step < STEPS; step++) {
      const before = await allTasks(session);
      await press(step);
      all.push((await allTasks(session)) - before);
      const times = await page.evaluate(() => (globalThis as Watched).stepTimes);
      const ends = Object.values(times.patched);
      if (Math.min(...ends) === 0) throw new Error(`step ${step} changed no patch`);
      latency.push(Math.max(...ends) - times.key);
      spans.push(Math.max(...ends) - times.handling);
    }
  });
  return { latency, all, ...workWithin(events, spans) };
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
      await page.addInitScript(watchSteps);
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
    const { latency, app, tasks, toScreen, all } = await benchSteps(page, session);
    return {
      steps: latency.length,
      inputToPatchMedianMs: share(latency, 0.5),
      inputToPatchP95Ms: share(latency, 0.95),
      mainThreadMedianMs: share(app, 0.5),
      mainThreadP95Ms: share(app, 0.95),
      mainThreadWithBrowserMedianMs: share(tasks, 0.5),
      mainThreadWithBrowserP95Ms: share(tasks, 0.95),
      mainThreadToScreenMedianMs: share(toScreen, 0.5),
      mainThreadToScreenP95Ms: share(toScreen, 0.95),
      allTasksMedianMs: share(all, 0.5),
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
