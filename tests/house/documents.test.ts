import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');

const tracked = (pattern: string) =>
  execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', pattern], {
    cwd: ROOT,
    encoding: 'utf8',
  })
    .split('\n')
    .filter(Boolean);

/** Targets of links and pictures that lie in this repository. */
function localTargets(markdown: string): string[] {
  const withoutCode = markdown.replace(/```[\s\S]*?```|`[^`]*`/g, '');
  return [...withoutCode.matchAll(/\]\(([^)\s]+)\)/g)]
    .map((match) => match[1])
    .filter((target) => !/^(https?:|mailto:|#)/.test(target))
    .map((target) => target.replace(/#.*$/, ''));
}

it('links and pictures in the documents lead somewhere', () => {
  const documents = tracked('*.md').filter((path) => existsSync(resolve(ROOT, path)));
  expect(documents).toContain('README.md');
  const dead = documents.flatMap((path) =>
    localTargets(readFileSync(resolve(ROOT, path), 'utf8'))
      .filter((target) => !existsSync(resolve(ROOT, dirname(path), target)))
      .map((target) => `${path}: ${target}`),
  );
  expect(dead).toEqual([]);
});

it('finds dead links', () => {
  expect(localTargets('[a](b.md#c) ![d](e.png) [f](https://g) `[h](i)` [j](#k)')).toEqual(['b.md', 'e.png']);
});
