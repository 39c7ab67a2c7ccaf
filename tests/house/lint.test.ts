import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
let house: string;

/** House rules that Biome keeps, each broken once. */
const PLANTS = [
  { title: 'any', file: 'src/app/p.ts', code: 'export const a = (b: any) => b;\n', says: 'noExplicitAny' },
  { title: 'a default export', file: 'src/app/p.ts', code: 'export default 1;\n', says: 'noDefaultExport' },
  {
    title: 'an import without its extension',
    file: 'src/app/p.ts',
    code: "import { fine } from './fine';\n\nexport const a = fine;\n",
    says: 'useImportExtensions',
  },
  {
    title: 'a type imported as a value',
    file: 'src/app/p.ts',
    code: "import { B } from './q.ts';\n\nexport type A = B;\n",
    says: 'useImportType',
  },
  { title: 'a forgotten console line', file: 'src/app/p.ts', code: "console.log('x');\n", says: 'noConsole' },
  {
    title: 'a picture without a description',
    file: 'src/app/p.tsx',
    code: 'export const A = () => <img src="a.png" />;\n',
    says: 'useAltText',
  },
  {
    title: 'a click that no key can make',
    file: 'src/app/p.tsx',
    code: 'export const A = () => <div onClick={() => undefined}>x</div>;\n',
    says: 'useKeyWithClickEvents',
  },
  {
    title: 'a barrel inside sim',
    file: 'sim/math/p.ts',
    code: "export { a } from './q.ts';\n",
    says: 'noBarrelFile',
  },
  {
    title: 'a clock inside sim',
    file: 'sim/math/p.ts',
    code: 'export const a = Date.now();\n',
    says: 'noRestrictedGlobals',
  },
  {
    title: 'the document inside sim',
    file: 'sim/math/p.ts',
    code: 'export const a = document.title;\n',
    says: 'noRestrictedGlobals',
  },
  { title: 'a foreign format', file: 'src/app/p.ts', code: 'export const a = "b"\n', says: 'format' },
];

const biome = () => {
  // the same words as `npm run check:lint`
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [resolve(ROOT, 'node_modules/@biomejs/biome/bin/biome'), 'check', '--error-on-warnings', '.'],
    { cwd: house, encoding: 'utf8' },
  );
  return { code: status, text: stdout + stderr };
};

beforeAll(() => {
  house = realpathSync(mkdtempSync(join(tmpdir(), 'meshwitness-lint-')));
  for (const file of ['biome.json', '.gitignore']) cpSync(join(ROOT, file), join(house, file));
  mkdirSync(join(house, 'src/app'), { recursive: true });
  writeFileSync(join(house, 'src/app/fine.ts'), 'export const fine = 1;\n');
});

afterAll(() => rmSync(house, { recursive: true, force: true }));

describe('lint and format', () => {
  it('let clean code pass', () => {
    const { code, text } = biome();
    expect(text).toContain('No fixes applied');
    expect(code).toBe(0);
  });

  it.each(PLANTS)('catch: $title', ({ file, code: planted, says }) => {
    mkdirSync(dirname(join(house, file)), { recursive: true });
    writeFileSync(join(house, file), planted);
    try {
      const { code, text } = biome();
      expect(code).toBe(1);
      expect(text).toMatch(new RegExp(`${file}.*${says}`));
    } finally {
      rmSync(join(house, file));
    }
  });
});
