import { readFileSync, rmSync } from 'node:fs';

/** How many tests passed and failed. */
const none = { passed: 0, failed: 0 };

export const addCounts = (a, b) => ({ passed: a.passed + b.passed, failed: a.failed + b.failed });

/** From vitest's JSON report. A file that could not even be loaded counts as one failure. */
export function vitestCounts(report) {
  const unloaded = report.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.length === 0,
  ).length;
  return { passed: report.numPassedTests, failed: report.numFailedTests + unloaded };
}

/** From Playwright's JSON report. A test that passed only on a second try has failed once: it counts as failed. */
export function playwrightCounts(report) {
  return {
    passed: report.stats.expected,
    failed: report.stats.unexpected + report.stats.flaky + report.errors.length,
  };
}

/** Reads a report and counts it; nothing when the run ended before writing one. */
export function countReport(path, count) {
  try {
    return count(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return none;
  }
}

export const dropReport = (path) => rmSync(path, { force: true });

/** A stage that ended badly never leaves "0 failed" behind, even when its report says so or is absent. */
export const withExitCode = (counts, code) =>
  code !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts;

export const summaryLine = ({ passed, failed }) => `${passed} passed, ${failed} failed`;
