/**
 * `npm test`: installs what is missing, then checks, unit tests, production build and browser tests, one after another;
 * the first that fails ends it. `npm test -- unit` (check, unit, house, browser) runs one of them.
 */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { build } from './lib/build.mjs';
import { ensureChromium } from './lib/chromium.mjs';
import {
  addCounts,
  countReport,
  dropReport,
  playwrightCounts,
  summaryLine,
  vitestCounts,
  withExitCode,
} from './lib/counts.mjs';
import { ensurePackages } from './lib/packages.mjs';
import { fail, PlainError, ROOT, run, runNode } from './lib/run.mjs';
import { freePort } from './lib/server.mjs';

const REPORTS = resolve(ROOT, 'node_modules/.cache/meshwitness');

async function check() {
  const code = await run('npm', ['run', '-s', 'check']);
  return withExitCode({ passed: 0, failed: 0 }, code);
}

async function vitest(more) {
  const report = resolve(REPORTS, 'vitest.json');
  dropReport(report);
  const code = await runNode('node_modules/vitest/vitest.mjs', [
    'run',
    ...more,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  return withExitCode(countReport(report, vitestCounts), code);
}

async function browser() {
  const chromium = await ensureChromium();
  await build();
  const report = resolve(REPORTS, 'playwright.json');
  dropReport(report);
  const code = await runNode('node_modules/@playwright/test/cli.js', ['test', '--reporter=list,json'], {
    env: {
      MESHWITNESS_CHROMIUM: chromium,
      MESHWITNESS_TEST_PORT: String(await freePort()),
      PLAYWRIGHT_JSON_OUTPUT_NAME: report,
    },
  });
  return withExitCode(countReport(report, playwrightCounts), code);
}

const STAGES = {
  check: { title: 'Types, lint, format, import rules', run: check },
  house: { title: 'The house’s own rules', run: () => vitest(['tests/house']) },
  unit: { title: 'Unit tests', run: () => vitest([]) },
  browser: { title: 'Production build and browser tests', run: browser },
};
/** `house` is part of `unit`. */
const ALL = ['check', 'unit', 'browser'];

async function main() {
  const asked = process.argv.slice(2);
  const unknown = asked.find((name) => !(name in STAGES));
  if (unknown !== undefined) {
    throw new PlainError(`no such stage: ${unknown}. Allowed: ${Object.keys(STAGES).join(', ')}.`);
  }
  await ensurePackages();
  // asked for early: a missing browser should not cost ten minutes of waiting first
  const stages = asked.length > 0 ? asked : ALL;
  if (stages.includes('browser')) await ensureChromium();
  mkdirSync(REPORTS, { recursive: true });

  let total = { passed: 0, failed: 0 };
  for (const name of stages) {
    console.log(`\n== ${STAGES[name].title}`);
    const counts = await STAGES[name].run();
    total = addCounts(total, counts);
    if (counts.failed > 0) {
      console.error(`\nStopped at: ${STAGES[name].title.toLowerCase()} (npm test -- ${name})`);
      break;
    }
  }
  console.log(`\n${summaryLine(total)}`);
  process.exitCode = total.failed > 0 ? 1 : 0;
}

main().catch(fail);
