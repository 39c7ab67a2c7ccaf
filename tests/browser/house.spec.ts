import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { createStaticServer, freePort, listen } from '../../scripts/lib/server.mjs';
import { BUDGET_KB, bundleFiles, kB, sum } from '../../scripts/lib/size.mjs';
import { openApp, untilSettled, watch } from './support/watch.ts';

const DIST = resolve(import.meta.dirname, '../../dist');

/** Addresses that are not below `origin`; what the page makes itself (data:, blob:) never leaves it. */
const foreign = (addresses: readonly string[], origin: string) =>
  addresses.filter((address) => !/^(data|blob):/.test(address) && new URL(address).origin !== origin);

/** The text of the screen once it no longer changes: the words for screen readers come a moment after the maps. */
async function textAtRest(page: Page): Promise<string> {
  let last = '';
  await expect
    .poll(
      async () => {
        const before = last;
        last = (await page.getByRole('main').textContent()) ?? '';
        return last !== '' && last === before;
      },
      { intervals: [1500] },
    )
    .toBe(true);
  return last;
}

test('the production build loads without complaint, and nothing leaves the origin', async ({
  page,
  context,
  baseURL,
}) => {
  const seen = watch(context);
  await openApp(page);
  // the service worker now fetches all the rest: its requests count too
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForLoadState('networkidle');
  await page.reload();
  await untilSettled(page);
  expect(seen.addresses.length).toBeGreaterThan(5);
  expect(foreign(seen.addresses, new URL(baseURL ?? '').origin)).toEqual([]);
  expect(seen.failures).toEqual([]);
  expect(seen.complaints).toEqual([]);
});

test('the policy holds: foreign addresses, inline code, inline styles and eval are refused', async ({
  page,
  context,
}) => {
  const seen = watch(context);
  await openApp(page);
  const refused = await page.evaluate(async () => {
    const violations: string[] = [];
    document.addEventListener('securitypolicyviolation', (event) =>
      violations.push(event.effectiveDirective),
    );
    const fetched = await fetch('https://example.invalid/').catch((error: Error) => error.name);
    const script = document.createElement('script');
    script.textContent = 'window.planted = true';
    document.head.append(script);
    const style = document.createElement('style');
    style.textContent = 'body { opacity: 0.5 }';
    document.head.append(style);
    const image = new Image();
    image.src = 'https://example.invalid/a.png';
    await new Promise((done) => setTimeout(done, 200));
    return {
      violations: [...new Set(violations)].sort(),
      fetched,
      planted: 'planted' in window,
      opacity: getComputedStyle(document.body).opacity,
    };
  });
  expect(refused).toEqual({
    violations: ['connect-src', 'img-src', 'script-src-elem', 'style-src-elem'],
    fetched: 'TypeError',
    planted: false,
    opacity: '1',
  });
  // the browser hands page.evaluate its own way past the policy, so eval is tried from a script of the page's own
  const evaluated = await page.evaluate(
    () =>
      new Promise((done) => {
        document.addEventListener('securitypolicyviolation', (event) => done(event.blockedURI), {
          once: true,
        });
        setTimeout("window.planted = 'by text'", 0);
        setTimeout(() => done('nothing was refused'), 2000);
      }),
  );
  expect(evaluated).toBe('eval');
  // and the watch that the other tests rely on has seen all this
  expect(seen.complaints.join('\n')).toContain('Content Security Policy');
});

test('the app opens offline after the first visit', async ({ page, context }) => {
  const seen = watch(context);
  await openApp(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  const online = await textAtRest(page);
  // numbers that the solver has worked out: the comparison below is one of computed text
  expect(online).toMatch(/Least|least/);
  expect(online).toMatch(/0\.\d\d/);
  await page.close();

  await context.setOffline(true);
  const again = await context.newPage();
  await again.goto('./');
  await untilSettled(again);
  // truly cut off: what is not kept on the device cannot be had
  const reached = await again.evaluate(() =>
    fetch('./not-kept.json', { cache: 'no-store' }).then(
      () => true,
      () => false,
    ),
  );
  expect(reached).toBe(false);
  // the same screen, the computed numbers among it
  expect(await textAtRest(again)).toBe(online);
  const unexpected = seen.complaints.filter((text) => !text.includes('net::ERR_INTERNET_DISCONNECTED'));
  expect(unexpected).toEqual([]);
});

test(`a first visit costs at most ${BUDGET_KB} kB`, async ({ browser, baseURL }) => {
  // without the service worker, which fetches the rest of the bundle in the background
  const context = await browser.newContext({ baseURL, serviceWorkers: 'block' });
  const seen = watch(context);
  const page = await context.newPage();
  await openApp(page);
  await page.evaluate(() => document.fonts.ready);
  await context.close();

  const fetched = new Set(
    seen.addresses
      .filter((address) => address.startsWith(baseURL ?? ''))
      .map((address) => new URL(address).pathname.slice(1) || 'index.html'),
  );
  const files = bundleFiles(DIST).filter(({ path }) => fetched.has(path));
  const total = kB(sum(files));
  console.log(`first visit: ${total.toFixed(1)} kB gzip in ${files.length} files`);
  // the page, its script, style and font at the least, and the 3D part: else this measured too little
  expect(files.map(({ path }) => path)).toContainEqual(expect.stringMatching(/^assets\/three-/));
  for (const ending of ['.html', '.js', '.css', '.woff2']) {
    expect(files.map(({ path }) => path)).toContainEqual(expect.stringMatching(`\\${ending}$`));
  }
  expect(total).toBeLessThanOrEqual(BUDGET_KB);
});

test('the bundle works from a folder of any host', async ({ browser }) => {
  const folder = mkdtempSync(join(tmpdir(), 'meshwitness-subfolder-'));
  cpSync(DIST, join(folder, 'some/where'), { recursive: true });
  const server = createStaticServer(folder);
  const port = await listen(server, { port: await freePort(), host: '127.0.0.1' });
  const context = await browser.newContext();
  try {
    const seen = watch(context);
    const page = await context.newPage();
    await openApp(page, `http://localhost:${port}/some/where/`);
    await page.evaluate(() => navigator.serviceWorker.ready);
    expect(foreign(seen.addresses, `http://localhost:${port}`)).toEqual([]);
    expect(seen.addresses.filter((address) => !/^(data|blob):|\/some\/where\//.test(address))).toEqual([]);
    expect(seen.failures).toEqual([]);
    expect(seen.complaints).toEqual([]);
  } finally {
    await context.close();
    server.close();
    server.closeAllConnections();
    rmSync(folder, { recursive: true, force: true });
  }
});
