import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bundleFiles, startFiles, sum } from '../../scripts/lib/size.mjs';

let dist: string;

beforeAll(() => {
  dist = mkdtempSync(join(tmpdir(), 'meshwitness-size-'));
  const files: Record<string, string | Buffer> = {
    'index.html':
      '<link rel="icon" href="./icon.svg"><script src="./assets/a.js"></script><link href="./assets/a.css" rel="stylesheet">',
    'icon.svg': '<svg/>',
    'assets/a.css': 'a{}',
    'assets/a.js': 'import"./b.js";import{c}from"./c.js";import("./later.js");export{d}from"./d.js"',
    'assets/a.js.map': '{}',
    'assets/b.js': 'import { a } from "./a.js"',
    'assets/c.js': '1',
    'assets/d.js': 'import * as e from "../e.js"',
    'e.js': '2',
    'assets/later.js': 'x'.repeat(1000),
    'assets/f.woff2': Buffer.alloc(500),
  };
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(dist, path)), { recursive: true });
    writeFileSync(join(dist, path), content);
  }
});

afterAll(() => rmSync(dist, { recursive: true, force: true }));

it('what loads at the start follows imports, not what is loaded on demand', () => {
  expect([...startFiles(dist)].sort()).toEqual([
    'assets/a.css',
    'assets/a.js',
    'assets/b.js',
    'assets/c.js',
    'assets/d.js',
    'e.js',
    'icon.svg',
    'index.html',
  ]);
});

it('the bundle is weighed as it is sent, without source maps', () => {
  const files = bundleFiles(dist);
  const paths = files.map(({ path }) => path);
  expect(paths).not.toContain('assets/a.js.map');
  expect(paths).toHaveLength(10);
  const later = files.find(({ path }) => path === 'assets/later.js');
  expect(later?.raw).toBe(1000);
  expect(later?.sent).toBeLessThan(100);
  expect(files.find(({ path }) => path === 'assets/f.woff2')?.sent).toBe(500);
  expect(sum(files)).toBe(files.reduce((total, { sent }) => total + sent, 0));
});
