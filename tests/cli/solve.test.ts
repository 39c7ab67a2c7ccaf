import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { runMesh } from './runMesh.ts';
import { spawnMesh, spawnNpm } from './spawnMesh.ts';
import { useFolder } from './useFolder.ts';

const path = (name: string): string =>
  fileURLToPath(new URL(`../fixtures/reference/${name}.json`, import.meta.url));

interface Patch {
  toeHeel: number;
  rootFace: number;
  length: number;
  height: number;
  area: number;
  transmissionError: number;
  edges: string[];
}
interface Expected {
  geometry: Record<string, number | number[]>;
  poses: {
    pose: Partial<Record<keyof typeof OPTION, number>>;
    drive: Patch;
    coast: Patch;
    backlash: Record<string, number>;
  }[];
}

const OPTION = {
  pinionIn: 'pinion-in',
  ringAway: 'ring-away',
  offsetError: 'offset-error',
  shaftAngleError: 'shaft-angle-error',
} as const;

/** docs/model.md §8 */
const TOLERANCE = { toeHeel: 0.02, rootFace: 0.02, length: 0.03, height: 0.03, area: 0.015 } as const;
const FLANKS = ['drive', 'coast'] as const;

describe.each(['set-a', 'set-b'])('%s', (name) => {
  const expected: Expected = JSON.parse(readFileSync(path(`${name}.expected`), 'utf8'));

  test.each(expected.poses)('$pose: the printed numbers are the worked numbers', ({ pose, ...worked }) => {
    const options = (Object.keys(pose) as (keyof typeof OPTION)[]).map(
      (key) => `--${OPTION[key]}=${pose[key]}`,
    );
    const { code, stdout, stderr } = runMesh(['solve', '--gearset', path(name), ...options]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const answer = JSON.parse(stdout);

    for (const [key, value] of Object.entries(expected.geometry)) {
      const tolerance = 0.01 + 1e-4;
      [answer.geometry[key]].flat().forEach((found: number, i: number) => {
        expect(Math.abs(found - [value].flat()[i]), key).toBeLessThanOrEqual(tolerance);
      });
    }
    for (const flank of FLANKS) {
      const found: Patch = answer[flank];
      const want = worked[flank];
      for (const key of Object.keys(TOLERANCE) as (keyof typeof TOLERANCE)[]) {
        expect(Math.abs(found[key] - want[key]), `${flank} ${key}`).toBeLessThanOrEqual(TOLERANCE[key]);
      }
      expect(
        Math.abs(found.transmissionError - want.transmissionError),
        `${flank} transmissionError`,
      ).toBeLessThanOrEqual(Math.max(6, 0.05 * want.transmissionError));
      expect(found.edges, `${flank} edges`).toEqual(want.edges);
    }
    for (const [key, value] of Object.entries(worked.backlash)) {
      const tolerance = key === 'angle' ? 0.01 : 0.002;
      expect(Math.abs(answer.backlash[key] - value), `backlash ${key}`).toBeLessThanOrEqual(tolerance);
    }
    expect(answer.film).toBe(0.00635);
  });
});

test('npm run mesh prints one JSON object and nothing else', () => {
  const typed = ['solve', '--axle', 'Borrin', '--pinion-in=-0.05', '--film=0.02'];
  const { code, stdout, stderr } = spawnNpm(typed);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  // what all the tests in one process rest on
  expect(stdout).toBe(runMesh(typed).stdout);
  const answer = JSON.parse(stdout);
  expect(Object.keys(answer)).toEqual(
    expect.arrayContaining(['name', 'pose', 'film', 'geometry', 'drive', 'coast', 'backlash', 'warnings']),
  );
  expect(answer).toMatchObject({ name: 'Borrin', pose: { pinionIn: -0.05, ringAway: 0 }, film: 0.02 });
});

describe('in one process', () => {
  const folder = useFolder();

  test.each(AXLE_IDS)('%s: by name, from its own file and as a bare gear set give one answer', (id) => {
    const byName = JSON.parse(runMesh(['solve', `--axle=${id}`]).stdout);
    const whole = folder.write('axle.json', JSON.stringify(AXLES[id]));
    expect(JSON.parse(runMesh(['solve', `--gearset=${whole}`]).stdout)).toEqual(byName);
    expect(byName.film).toBe(AXLES[id].film_mm);
    const bare = folder.write('gearset.json', JSON.stringify(AXLES[id].gearset));
    const { name, ...rest } = byName;
    expect(name).toBe(AXLES[id].name);
    const film = `--film=${AXLES[id].film_mm}`;
    expect(JSON.parse(runMesh(['solve', `--gearset=${bare}`, film]).stdout)).toEqual(rest);
  });

  test('a byte order mark does no harm', () => {
    const file = folder.write('bom.json', `\ufeff${readFileSync(path('set-a'), 'utf8')}`);
    expect(runMesh(['solve', '--gearset', file])).toMatchObject({ code: 0, stderr: '' });
  });

  test('a pose far from the design position is answered, with a warning', () => {
    const near = JSON.parse(runMesh(['solve', '--axle=cavel', '--pinion-in=0.35']).stdout);
    expect(near.warnings).toEqual([]);
    for (const options of [
      ['--pinion-in=1', '--ring-away=-1'],
      ['--pinion-in=-1', '--ring-away=1', '--offset-error=1', '--shaft-angle-error=0.5'],
      ['--offset-error=-1', '--shaft-angle-error=-0.5'],
    ]) {
      const { code, stdout, stderr } = runMesh(['solve', '--axle=cavel', ...options]);
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      const { warnings } = JSON.parse(stdout);
      expect(warnings.map((w: { field: string }) => w.field)).toHaveLength(options.length);
    }
  });

  test('more ring-away is more backlash, until it binds the other way', () => {
    const lash = (mm: number) =>
      JSON.parse(runMesh(['solve', '--axle=aldra', `--ring-away=${mm}`]).stdout).backlash;
    expect(lash(0.1).normal).toBeGreaterThan(lash(0).normal);
    expect(lash(-0.3)).toMatchObject({ binding: true });
    expect(lash(0)).toMatchObject({ binding: false });
  });

  test('--help is the whole usage', () => {
    for (const args of [['--help'], ['-h'], ['solve', '--help'], ['plate', '-h']]) {
      const { code, stdout, stderr } = runMesh(args);
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      for (const word of ['solve', 'plate', 'axles', '--gearset', '--axle', '--film', '--out']) {
        expect(stdout).toContain(word);
      }
    }
  });

  test('axles lists every axle, one a line', () => {
    const lines = runMesh(['axles']).stdout.trimEnd().split('\n');
    expect(lines.map((line) => line.split('\t')[0])).toEqual([...AXLE_IDS]);
  });
});

describe('plate', () => {
  const folder = useFolder();

  test('both flank maps as one SVG file, to stdout or to --out', () => {
    const out = folder.path('plate.svg');
    const toFile = spawnMesh(['plate', '--axle=dornet', '--pinion-in=0.05', `--out=${out}`]);
    expect(toFile).toEqual({ code: 0, stdout: '', stderr: '' });
    const svg = readFileSync(out, 'utf8');
    expect(svg).toMatch(/^<\?xml[^>]*>\s*<svg [^>]*>/);
    expect(svg.trimEnd()).toMatch(/<\/svg>$/);
    for (const flank of ['drive', 'coast']) expect(svg).toContain(`data-flank="${flank}"`);
    expect(svg).toContain('Dornet');
    expect(svg.match(/data-part="patch"/g)).toHaveLength(2);
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
    expect(runMesh(['plate', '--axle=dornet', '--pinion-in=0.05']).stdout).toBe(svg);
  });

  test('another pose draws another mark', () => {
    const plate = (mm: number) => runMesh(['plate', '--axle=borrin', `--pinion-in=${mm}`]).stdout;
    const marks = (svg: string) =>
      [...svg.matchAll(/<path d="([^"]*)"[^>]*data-part="patch"/g)].map((m) => m[1]);
    expect(marks(plate(0))).toHaveLength(2);
    expect(marks(plate(0.1))).not.toEqual(marks(plate(0)));
    expect(marks(plate(0))).toEqual(marks(plate(0)));
  });

  test('a reverse-cut axle is drawn as the mirror image of its standard-cut twin', () => {
    const file = folder.path('twin.json');
    writeFileSync(file, JSON.stringify({ ...AXLES.dornet, hand: 'standard-cut' }));
    const first = (svg: string) => /<path d="M(-?[\d.]+) /.exec(svg)?.[1];
    const reverse = runMesh(['plate', '--axle=dornet']).stdout;
    const standard = runMesh(['plate', `--gearset=${file}`]).stdout;
    expect(Number(first(reverse))).toBeCloseTo(-Number(first(standard)), 6);
  });
});
