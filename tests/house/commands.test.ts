import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { findChromium } from '../../scripts/lib/chromium.mjs';
import {
  addCounts,
  countReport,
  playwrightCounts,
  summaryLine,
  vitestCounts,
  withExitCode,
} from '../../scripts/lib/counts.mjs';
import { checkNode, missingPackages } from '../../scripts/lib/packages.mjs';
import { readStartOptions } from '../../scripts/lib/startOptions.mjs';

describe('npm start options', () => {
  it('are read', () => {
    expect(readStartOptions([])).toEqual({ host: false, port: undefined, help: false });
    expect(readStartOptions(['--host', '--port=8080'])).toEqual({ host: true, port: 8080, help: false });
  });

  it.each([
    [['--port=0'], '--port=0: a whole number from 1 to 65535 is allowed.'],
    [['--port=65536'], '--port=65536: a whole number'],
    [['--port=8e3.5'], '--port=8e3.5: a whole number'],
    [['--prt=1'], "Unknown option '--prt'"],
    [['here'], "Unexpected argument 'here'"],
  ])('are refused in one line: %j', (args, message) => {
    expect(() => readStartOptions(args)).toThrow(message);
    try {
      readStartOptions(args);
    } catch (error) {
      expect((error as Error).message).not.toContain('\n');
    }
  });
});

describe('the Node version', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('%s is new enough', (version) => {
    expect(() => checkNode(version)).not.toThrow();
  });
  it.each(['18.20.0', '20.18.3'])('%s is too old', (version) => {
    expect(() => checkNode(version)).toThrow(`Node ${version} is too old: install Node 20.19 or newer.`);
  });
});

describe('missing packages', () => {
  let folder: string;
  const lock = (path: string, packages: object) =>
    writeFileSync(join(folder, path), JSON.stringify({ packages }));

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'meshwitness-packages-'));
    mkdirSync(join(folder, 'node_modules'));
    lock('package-lock.json', {
      '': { name: 'x' },
      'node_modules/a': { version: '1.0.0' },
      'node_modules/@s/b': { version: '2.0.0', dev: true },
      'node_modules/for-another-system': { version: '1.0.0', optional: true },
    });
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('are none when all is in place, whatever belongs to other systems', () => {
    lock('node_modules/.package-lock.json', {
      'node_modules/a': { version: '1.0.0' },
      'node_modules/@s/b': { version: '2.0.0' },
    });
    expect(missingPackages(folder)).toEqual([]);
  });

  it('are those absent or of another version', () => {
    lock('node_modules/.package-lock.json', { 'node_modules/a': { version: '0.9.0' } });
    expect(missingPackages(folder)).toEqual(['a', '@s/b']);
  });

  it('are all of them on a fresh machine', () => {
    expect(missingPackages(folder)).toEqual(['node_modules']);
  });

  it('cannot be told without the lock file', () => {
    rmSync(join(folder, 'package-lock.json'));
    expect(() => missingPackages(folder)).toThrow('package-lock.json is missing or damaged');
  });
});

describe('the count of tests', () => {
  it('sums both runners', () => {
    const unit = vitestCounts({
      numPassedTests: 7,
      numFailedTests: 1,
      testResults: [
        { status: 'failed', assertionResults: [{}] },
        { status: 'failed', assertionResults: [] },
        { status: 'passed', assertionResults: [{}] },
      ],
    });
    // one failed test, one file that did not load
    expect(unit).toEqual({ passed: 7, failed: 2 });
    const browser = playwrightCounts({
      stats: { expected: 3, unexpected: 1, flaky: 1, skipped: 4 },
      errors: [{}],
    });
    expect(browser).toEqual({ passed: 3, failed: 3 });
    expect(summaryLine(addCounts(unit, browser))).toBe('10 passed, 5 failed');
  });

  it('never reports success for a run that ended badly', () => {
    const nothing = countReport('/no/such/report.json', vitestCounts);
    expect(nothing).toEqual({ passed: 0, failed: 0 });
    expect(withExitCode(nothing, 1)).toEqual({ passed: 0, failed: 1 });
    expect(withExitCode({ passed: 4, failed: 0 }, 1)).toEqual({ passed: 4, failed: 1 });
    expect(withExitCode({ passed: 4, failed: 0 }, 0)).toEqual({ passed: 4, failed: 0 });
    expect(withExitCode({ passed: 4, failed: 2 }, 1)).toEqual({ passed: 4, failed: 2 });
  });
});

describe('the browser for the tests', () => {
  afterEach(() => vi.unstubAllEnvs());

  it('is the one the environment names, whatever else there is', async () => {
    vi.stubEnv('MESHWITNESS_CHROMIUM', process.execPath);
    expect(await findChromium()).toBe(process.execPath);
  });

  it('named but absent is told, not replaced by another', async () => {
    vi.stubEnv('MESHWITNESS_CHROMIUM', '/no/such/chromium');
    await expect(findChromium()).rejects.toThrow('MESHWITNESS_CHROMIUM=/no/such/chromium: no such file.');
  });
});
