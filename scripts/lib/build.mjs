import { readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { PlainError, ROOT, runNode } from './run.mjs';

export const DIST = resolve(ROOT, 'dist');

/** What the bundle is made of. */
const SOURCES = [
  'src',
  'sim',
  'models',
  'public',
  'index.html',
  'vite.config.ts',
  'tsconfig.json',
  'package-lock.json',
  'scripts/csp.mjs',
];

/** Time of the latest change in a file or folder, ms; folders count too, since a deletion touches only them. */
function newest(path) {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) return 0;
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
}

/** True when dist/ is absent, half written or older than a source. The service worker is written last. */
export function isStale() {
  const built = statSync(resolve(DIST, 'sw.js'), { throwIfNoEntry: false });
  return !built || SOURCES.some((source) => newest(resolve(ROOT, source)) > built.mtimeMs);
}

export async function build() {
  const code = await runNode('node_modules/vite/bin/vite.js', ['build', '--logLevel', 'warn']);
  if (code !== 0) throw new PlainError('the build failed (see above).');
}

export async function ensureBuild() {
  if (!isStale()) return;
  // progress is no result: `npm run bench -- --json` prints one object and nothing else
  console.error('Building …');
  await build();
}
