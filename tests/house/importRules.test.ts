import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');

/** A house of its own with the real rules in it, so that nothing is planted into the tree others work on. */
let house: string;

/** What the planted files lean on: every folder the rules speak of, one harmless module each. */
const FURNITURE: Record<string, string> = {
  'sim/math/vec3.ts': 'export const x = 1;\nexport type X = number;\n',
  'sim/gearset/blank.ts': "import { x } from '../math/vec3.ts';\nexport const blank = x;\n",
  'sim/contact/pose.ts':
    "import { blank } from '../gearset/blank.ts';\nexport const pose = blank;\nexport type Pose = number;\n",
  'sim/assembly/shims.ts': "import { pose } from '../contact/pose.ts';\nexport const shims = pose;\n",
  'sim/diagnose/rank.ts': "import { shims } from '../assembly/shims.ts';\nexport const rank = shims;\n",
  'sim/worker/client.ts':
    "import { wrap } from 'comlink';\nimport { rank } from '../diagnose/rank.ts';\nexport const client = [wrap, rank];\n",
  'sim/worker/longCore.ts': "import { pose } from '../contact/pose.ts';\nexport const longCore = pose;\n",
  'sim/worker/longEntry.ts': "import { longCore } from './longCore.ts';\nexport const entry = longCore;\n",
  'models/axle.ts':
    "import { z } from 'zod/mini';\nimport type { Pose } from '../sim/contact/pose.ts';\nexport const axle: Pose = z ? 1 : 0;\n",
  'src/state/store.ts':
    "import type { Pose } from '../../sim/contact/pose.ts';\nimport { client } from '../../sim/worker/client.ts';\nexport const store: [Pose, unknown] = [1, client];\n",
  'src/flank/FlankMap.ts': "import { store } from '../state/store.ts';\nexport const map = store;\n",
  'src/stage/Stage.ts':
    "import { Mesh } from 'three';\nimport { Canvas } from '@react-three/fiber';\nexport const stage = [Mesh, Canvas];\n",
  'src/areas/explore/Explore.ts':
    "import { map } from '../../flank/FlankMap.ts';\nexport const explore = map;\n",
  'src/app/ui/Button.ts': 'export const button = 1;\n',
  'src/areas/match/Match.ts':
    "import { button } from '../../app/ui/Button.ts';\nexport const match = button;\n",
  'src/app/shell.ts':
    "import { explore } from '../areas/explore/Explore.ts';\nexport const shell = [explore, () => import('../stage/Stage.ts')];\n",
  'src/cli/mesh.ts':
    "import { readFileSync } from 'node:fs';\nimport { pose } from '../../sim/contact/pose.ts';\nexport const mesh = [readFileSync, pose];\n",
  'tests/some.test.ts':
    "import { Mesh } from 'three';\nimport { pose } from '../sim/contact/pose.ts';\nexport const t = [Mesh, pose];\n",
};

const DIRECTION = 'house(import-direction)';

/** Each line of the rules, broken once: where, how, and what the linter must say. */
const PLANTS: { title: string; file: string; code: string; says: string[] }[] = [
  {
    title: 'sim imports from src',
    file: 'sim/math/planted.ts',
    code: "export { store } from '../../src/state/store.ts';",
    says: [DIRECTION, 'it imports only sim'],
  },
  {
    title: 'sim imports from models',
    file: 'sim/gearset/planted.ts',
    code: "import { axle } from '../../models/axle.ts';\nexport const a = axle;",
    says: [DIRECTION, 'it imports only sim'],
  },
  {
    title: 'sim imports a package',
    file: 'sim/contact/planted.ts',
    code: "import { useState } from 'react';\nexport const a = useState;",
    says: [DIRECTION, 'it imports only sim'],
  },
  {
    title: 'sim imports a Node module',
    file: 'sim/contact/planted.ts',
    code: "import { readFileSync } from 'fs';\nexport const a = readFileSync;",
    says: [DIRECTION, 'it imports only sim'],
  },
  {
    title: 'sim imports only a type from src',
    file: 'sim/worker/planted.ts',
    code: "import type { store } from '../../src/state/store.ts';\nexport type A = typeof store;",
    says: [DIRECTION, 'it imports only sim'],
  },
  {
    title: 'comlink outside sim/worker',
    file: 'sim/contact/planted.ts',
    code: "import { wrap } from 'comlink';\nexport const a = wrap;",
    says: [DIRECTION, 'only sim/worker'],
  },
  ...(
    [
      ['math', '../gearset/blank.ts'],
      ['gearset', '../contact/pose.ts'],
      ['contact', '../assembly/shims.ts'],
      ['assembly', '../diagnose/rank.ts'],
      ['diagnose', '../worker/client.ts'],
    ] as const
  ).map(([folder, target]) => ({
    title: `sim/${folder} imports from a later folder of the core`,
    file: `sim/${folder}/planted.ts`,
    code: `import type * as later from '${target}';\nexport type A = typeof later;`,
    says: [DIRECTION, `sim/${folder} may import only`],
  })),
  {
    title: 'models imports from src',
    file: 'models/planted.ts',
    code: "import type { store } from '../src/state/store.ts';\nexport type A = typeof store;",
    says: [DIRECTION, 'models is plain data'],
  },
  {
    title: 'models imports code from sim',
    file: 'models/planted.ts',
    code: "import { pose } from '../sim/contact/pose.ts';\nexport const a = pose;",
    says: [DIRECTION, 'models is plain data'],
  },
  {
    title: 'src imports code from the core beside the worker',
    file: 'src/areas/explore/planted.ts',
    code: "import { pose } from '../../../sim/contact/pose.ts';\nexport const a = pose;",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'src imports code from the core under the cloak of an inline type',
    file: 'src/state/planted.ts',
    code: "import { type Pose, pose } from '../../sim/contact/pose.ts';\nexport const a: Pose = pose;",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'src loads code from the core on demand',
    file: 'src/state/planted.ts',
    code: "export const a = () => import('../../sim/contact/pose.ts');",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'src starts a worker of its own inside the core',
    file: 'src/state/planted.ts',
    code: "export const a = new URL('../../sim/contact/pose.ts', import.meta.url);",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'src gathers files of the core by pattern',
    file: 'src/state/planted.ts',
    code: "export const a = import.meta.glob(['../../sim/contact/*.ts']);",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'the page runs a worker’s core in its own thread',
    file: 'src/state/planted.ts',
    code: "import { longCore } from '../../sim/worker/longCore.ts';\nexport const a = longCore;",
    says: [DIRECTION, 'run inside the workers'],
  },
  {
    title: 'the page starts a worker past its client',
    file: 'src/areas/match/planted.ts',
    code: "export const a = new URL('../../../sim/worker/longEntry.ts', import.meta.url);",
    says: [DIRECTION, 'run inside the workers'],
  },
  {
    title: 'three outside the stage',
    file: 'src/flank/planted.ts',
    code: "import { Vector3 } from 'three';\nexport const a = Vector3;",
    says: [DIRECTION, 'only src/stage imports three'],
  },
  {
    title: 'a part of three outside the stage, type only',
    file: 'src/app/planted.ts',
    code: "import type { OrbitControls } from 'three/addons/controls/OrbitControls.js';\nexport type A = OrbitControls;",
    says: [DIRECTION, 'only src/stage imports three'],
  },
  {
    title: '@react-three outside the stage, on demand',
    file: 'src/areas/explore/planted.ts',
    code: "export const a = () => import('@react-three/drei');",
    says: [DIRECTION, 'only src/stage imports three'],
  },
  {
    title: 'the stage imports a work area',
    file: 'src/stage/planted.ts',
    code: "import { explore } from '../areas/explore/Explore.ts';\nexport const a = explore;",
    says: [DIRECTION, 'src/stage must not import a work area'],
  },
  {
    title: 'a work area imports the stage',
    file: 'src/areas/match/planted.ts',
    code: "import { stage } from '../../stage/Stage.ts';\nexport const a = stage;",
    says: [DIRECTION, 'a work area must not import src/stage'],
  },
  {
    title: 'a work area loads the stage on demand',
    file: 'src/areas/match/planted.ts',
    code: 'export const a = () => import(`../../stage/Stage.ts`);',
    says: [DIRECTION, 'a work area must not import src/stage'],
  },
  {
    title: 'a work area imports another',
    file: 'src/areas/explore/planted.ts',
    code: "import { match } from '../match/Match.ts';\nexport const a = match;",
    says: [DIRECTION, 'src/areas/explore must not import another work area'],
  },
  {
    title: 'a work area imports another, type only',
    file: 'src/areas/match/planted.ts',
    code: "import type { explore } from '../explore/Explore.ts';\nexport type A = typeof explore;",
    says: [DIRECTION, 'src/areas/match must not import another work area'],
  },
  {
    title: 'a work area imports the shell',
    file: 'src/areas/match/planted.ts',
    code: "import { frame } from '../../app/frame.ts';\nexport const a = frame;\n//--- src/app/frame.ts\nexport const frame = 1;",
    says: [DIRECTION, 'a work area must not import the shell'],
  },
  {
    title: 'the flank maps import a work area',
    file: 'src/flank/planted.ts',
    code: "import { match } from '../areas/match/Match.ts';\nexport const a = match;",
    says: [DIRECTION, 'src/flank must not import'],
  },
  {
    title: 'the shim map imports a work area',
    file: 'src/shimMap/planted.ts',
    code: "import { match } from '../areas/match/Match.ts';\nexport const a = match;",
    says: [DIRECTION, 'src/shimMap must not import'],
  },
  {
    title: 'a shared control imports a work area',
    file: 'src/app/ui/planted.ts',
    code: "import { match } from '../../areas/match/Match.ts';\nexport const a = match;",
    says: [DIRECTION, 'src/app/ui holds controls for every screen'],
  },
  {
    title: 'a store imports a screen',
    file: 'src/state/planted.ts',
    code: "import { shell } from '../app/shell.ts';\nexport const a = shell;",
    says: [DIRECTION, 'the foundations of the app'],
  },
  {
    title: 'a screen imports a Node module',
    file: 'src/app/planted.ts',
    code: "import { join } from 'node:path';\nexport const a = join;",
    says: [DIRECTION, 'Node modules belong to src/cli'],
  },
  {
    title: 'the app imports from tests',
    file: 'src/app/planted.ts',
    code: "import { t } from '../../tests/some.test.ts';\nexport const a = t;",
    says: [DIRECTION, 'nothing that ships imports tests'],
  },
  {
    title: 'a detour through another folder',
    file: 'src/areas/explore/planted.ts',
    code: "import { pose } from '../../flank/../../sim/contact/pose.ts';\nexport const a = pose;",
    says: [DIRECTION, 'through sim/worker'],
  },
  {
    title: 'a cycle',
    file: 'src/areas/match/planted.ts',
    code: "import { b } from './planted2.ts';\nexport const a = b;\n//--- src/areas/match/planted2.ts\nimport { a } from './planted.ts';\nexport const b = a;",
    says: ['import(no-cycle)'],
  },
  {
    title: 'a cycle of types',
    file: 'sim/math/planted.ts',
    code: "import type { B } from './planted2.ts';\nexport type A = B | 1;\n//--- sim/math/planted2.ts\nimport type { A } from './planted.ts';\nexport type B = A | 2;",
    says: ['import(no-cycle)'],
  },
  {
    title: 'a type imported as a value',
    file: 'src/units/planted.ts',
    code: "import { X } from './x.ts';\nexport const a: X = 1;\n//--- src/units/x.ts\nexport type X = number;",
    says: ['typescript(consistent-type-imports)'],
  },
  {
    title: 'chance inside the core',
    file: 'sim/math/planted.ts',
    code: "export const a = Math['random']();",
    says: ['house(pure-core)'],
  },
];

function write(file: string, code: string): void {
  mkdirSync(dirname(join(house, file)), { recursive: true });
  writeFileSync(join(house, file), code);
}

/** One code block may hold several files, parted by `//--- path`. */
function filesOf(plant: { file: string; code: string }): [file: string, code: string][] {
  const [first, ...others] = plant.code.split('//--- ');
  return [
    [plant.file, first],
    ...others.map((part): [string, string] => {
      const end = part.indexOf('\n');
      return [part.slice(0, end), part.slice(end + 1)];
    }),
  ];
}

function lint(): { code: number | null; text: string } {
  // the same words as `npm run check:imports`
  const binary = resolve(ROOT, 'node_modules/oxlint/bin/oxlint');
  const { status, stdout, stderr } = spawnSync(process.execPath, [binary, '--deny-warnings'], {
    cwd: house,
    encoding: 'utf8',
  });
  return { code: status, text: stdout + stderr };
}

beforeAll(() => {
  house = realpathSync(mkdtempSync(join(tmpdir(), 'meshwitness-house-')));
  for (const part of ['.oxlintrc.json', 'tsconfig.json', 'package.json', 'scripts/lint']) {
    cpSync(join(ROOT, part), join(house, part), { recursive: true });
  }
  for (const [file, code] of Object.entries(FURNITURE)) write(file, code);
});

afterAll(() => rmSync(house, { recursive: true, force: true }));

describe('import rules', () => {
  it('let every allowed direction pass', () => {
    const { code, text } = lint();
    expect(text).toContain('Found 0 warnings and 0 errors.');
    expect(code).toBe(0);
  });

  it.each(PLANTS)('catch: $title', (plant) => {
    const files = filesOf(plant);
    for (const [file, code] of files) write(file, code);
    try {
      const { code, text } = lint();
      expect(code).toBe(1);
      for (const words of plant.says) expect(text).toContain(words);
      expect(text).toContain(plant.file);
    } finally {
      for (const [file] of files) rmSync(join(house, file));
    }
  });

  it('look at the files of the real tree', () => {
    const binary = resolve(ROOT, 'node_modules/oxlint/bin/oxlint');
    const { stdout } = spawnSync(process.execPath, [binary, '--debug=files'], {
      cwd: ROOT,
      encoding: 'utf8',
    });
    const files = stdout.split('\n');
    expect(files).toEqual(
      expect.arrayContaining(['sim/contact/pose.ts', 'sim/worker/protocol.ts', 'scripts/lint/house.js']),
    );
  });
});
