import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGS, findChromium } from './scripts/lib/chromium.mjs';

// `npm test` hands over a free port; runs by hand get one of their own each, so that two do not meet
process.env.MESHWITNESS_TEST_PORT ??= String(4300 + (process.pid % 700));
const port = process.env.MESHWITNESS_TEST_PORT;

// workers of the same run inherit the answer
process.env.MESHWITNESS_CHROMIUM ??= (await findChromium()) ?? '';

export default defineConfig({
  testDir: 'tests/browser',
  testMatch: '**/*.spec.ts',
  outputDir: 'test-results',
  fullyParallel: false,
  // half of a test is waiting for things to come to rest; no test measures time, so two share the processor
  workers: 2,
  retries: 0,
  forbidOnly: Boolean(process.env.CI),
  timeout: 120_000,
  expect: { timeout: 20_000 },
  reporter: [['list']],
  use: {
    baseURL: `http://localhost:${port}/`,
    browserName: 'chromium',
    viewport: { width: 1366, height: 768 },
    serviceWorkers: 'allow',
    actionTimeout: 20_000,
    navigationTimeout: 60_000,
    trace: 'off',
    launchOptions: {
      executablePath: process.env.MESHWITNESS_CHROMIUM || undefined,
      // without a graphics card pages cost less painted by the processor itself; the 3D pictures are drawn as before
      args: [...CHROMIUM_ARGS, '--disable-gpu-rasterization'],
    },
  },
  webServer: {
    command: `node scripts/start.mjs --port=${port}`,
    url: `http://localhost:${port}/`,
    timeout: 180_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 5_000 },
  },
});
