import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

/** What the first visit may cost (gzip, source maps excluded). */
export const BUDGET_KB = 500;

const walk = (folder) =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? walk(join(folder, entry.name)) : [join(folder, entry.name)],
  );

/** Fonts and pictures are squeezed already: a server sends them as they are. */
const isSqueezed = (path) => /\.(woff2|png|jpg|webp)$/.test(path);

/**
 * Every file of the bundle but source maps.
 * @returns {{ path: string, raw: number, sent: number }[]} path from `dist` with forward slashes; bytes; bytes with gzip
 */
export function bundleFiles(dist) {
  return walk(dist)
    .filter((path) => !path.endsWith('.map'))
    .map((path) => {
      const content = readFileSync(path);
      const sent = isSqueezed(path) ? content.length : gzipSync(content).length;
      return { path: relative(dist, path).split(sep).join('/'), raw: content.length, sent };
    });
}

/** The scripts that a built script imports at once; `import(…)` loads later and does not match. */
const importsOf = (code, from) =>
  [...code.matchAll(/\b(?:from|import)\s*["'`](\.{1,2}\/[^"'`]+\.js)["'`]/g)].map((match) =>
    posix.join(posix.dirname(from), match[1]),
  );

/** What index.html makes a browser load before anything is computed: the page, its scripts and all they import. */
export function startFiles(dist) {
  const page = readFileSync(join(dist, 'index.html'), 'utf8');
  const named = [...page.matchAll(/(?:src|href)="\.\/([^"]+)"/g)].map((match) => match[1]);
  const found = new Set(['index.html']);
  const queue = named.filter((path) => !path.endsWith('.png') && !path.endsWith('.webmanifest'));
  while (queue.length > 0) {
    const path = queue.pop();
    if (found.has(path) || !existsSync(join(dist, path))) continue;
    found.add(path);
    if (path.endsWith('.js')) queue.push(...importsOf(readFileSync(join(dist, path), 'utf8'), path));
  }
  return found;
}

export const kB = (bytes) => bytes / 1000;

export const sum = (files) => files.reduce((total, file) => total + file.sent, 0);
