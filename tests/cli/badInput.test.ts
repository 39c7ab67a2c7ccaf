import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { listFields } from '../../models/field.ts';
import { GEAR_SET_FIELDS } from '../../models/gearSetFields.ts';
import { runMesh } from './runMesh.ts';
import { type Spoken, spawnMesh } from './spawnMesh.ts';
import { useFolder } from './useFolder.ts';

const SEED = 20265;
const RUNS = 200;

const setFile = (name: 'set-a' | 'set-b'): string =>
  fileURLToPath(new URL(`../fixtures/reference/${name}.json`, import.meta.url));
const SETS = {
  'set-a': JSON.parse(readFileSync(setFile('set-a'), 'utf8')),
  'set-b': JSON.parse(readFileSync(setFile('set-b'), 'utf8')),
};

/** One line, the name, the value, what is allowed; nothing on stdout; no stack. */
function expectRefusal(spoken: Spoken, name: string, more: RegExp = /./): void {
  expect(spoken.stderr).not.toMatch(/\n\s+at |Error|node_modules|\.ts:/);
  expect({ code: spoken.code, stdout: spoken.stdout, stderr: spoken.stderr }).toMatchObject({
    code: 2,
    stdout: '',
  });
  expect(spoken.stderr).toMatch(/^[^\n\r]+\n$/);
  expect(spoken.stderr.startsWith(`${name}: `), spoken.stderr).toBe(true);
  expect(spoken.stderr).toContain('; allowed: ');
  expect(spoken.stderr).toMatch(more);
}

type Json = Record<string, unknown>;
function changed(json: Json, path: string, value: unknown): Json {
  const copy = structuredClone(json);
  const keys = path.split('.');
  let node = copy;
  for (const key of keys.slice(0, -1)) node = node[key] as Json;
  const last = keys[keys.length - 1];
  if (value === undefined) delete node[last];
  else node[last] = value;
  return copy;
}

describe('options', () => {
  const a = setFile('set-a');
  test.each([
    [[], 'command', /missing.*solve, plate, match, axles/],
    [['melt'], 'command', /"melt"/],
    [['Solve', '--axle=aldra'], 'command', /"Solve"/],
    [['solve'], '--gearset', /missing.*aldra, borrin, cavel, dornet, elspar/],
    [['plate'], '--gearset', /missing/],
    [['solve', '--axle=aldra', `--gearset=${a}`], '--axle', /not together with --gearset/],
    [['solve', '--axle=zorro'], '--axle', /"zorro".*one of aldra/],
    [['solve', '--axle=constructor'], '--axle', /one of aldra/],
    [['solve', '--axle='], '--axle', /""/],
    [['solve', '--axle'], '--axle', /missing/],
    [['solve', '--axle', '--film=0.01'], '--axle', /missing/],
    [['solve', '--axle=aldra', '--axle=borrin'], '--axle', /given twice/],
    [['solve', '--axle=aldra', '--film=0.01', '--film=0.01'], '--film', /given twice/],
    [['solve', '--axle=aldra', '--depth=1'], '--depth', /unknown option.*--pinion-in/],
    [['solve', '--axle=aldra', '-x'], '-x', /unknown option/],
    [['solve', '--axle=aldra', '--pinion-in=-2.001'], '--pinion-in', /"-2.001".*from -1 to 1 mm/],
    [['solve', '--axle=aldra', '--ring-away=3'], '--ring-away', /"3".*from -1 to 1 mm/],
    [['solve', '--axle=aldra', '--offset-error=x'], '--offset-error', /"x"/],
    [['solve', '--axle=aldra', '--shaft-angle-error=9'], '--shaft-angle-error', /from -0.5 to 0.5 degrees/],
    [['solve', '--axle=aldra', '--film=0'], '--film', /from 0.001 to 0.1 mm/],
    [['solve', '--axle=aldra', '--film='], '--film', /""/],
    [['solve', '--axle=aldra', '--film=NaN'], '--film', /"NaN"/],
    [['solve', '--axle=aldra', '--film=Infinity'], '--film', /"Infinity"/],
    [['solve', '--axle=aldra', '--film=0x1'], '--film', /"0x1"/],
    [['solve', '--axle=aldra', '--film=0,012'], '--film', /point as decimal mark/],
    [['solve', '--axle=aldra', '--film=0.012mm'], '--film', /"0.012mm"/],
    [['solve', '--axle=aldra', '--film=1\n2'], '--film', /"1\\n2"/],
    [['solve', '--axle=aldra', '--out=x.svg'], '--out', /not an option of solve/],
    [['solve', '--axle=aldra', 'borrin'], 'solve', /"borrin"/],
    [['axles', '--film=0.01'], '--film', /not an option of axles/],
    [['axles', 'more'], 'axles', /"more"/],
    [['plate', '--axle=aldra', '--out='], '--out', /""/],
    [['solve', '--help=yes'], '--help', /"yes"/],
  ] as [string[], string, RegExp][])('%j is refused', (args, name, more) => {
    expectRefusal(runMesh(args), name, more);
  });

  test('a minus value may follow after a space too', () => {
    const spaced = runMesh(['solve', '--axle=aldra', '--pinion-in', '-0.05']);
    expect(JSON.parse(spaced.stdout).pose.pinionIn).toBe(-0.05);
  });
});

describe('files', () => {
  const folder = useFolder();
  const good = readFileSync(setFile('set-a'), 'utf8');
  mkdirSync(folder.path('a folder'));
  symlinkSync(folder.path('loop'), folder.path('loop'));

  test.each([
    ['none', folder.path('none.json'), /there is none of this name/],
    ['a folder', folder.path('a folder'), /this is a folder/],
    ['a loop of links', folder.path('loop'), /circle/],
    ['below a file', folder.path('none.json') && `${folder.write('file.json', good)}/x`, /not a folder/],
    ['a NUL in the name', 'a\0b', /refused|says/],
    ['empty', folder.write('empty.json', ''), /empty/],
    ['blank', folder.write('blank.json', ' \n\t '), /empty/],
    ['cut short', folder.write('cut.json', good.slice(0, 200)), /damaged/],
    [
      'a comma too many',
      folder.write('comma.json', good.replace('"backlash"', ',"backlash"')),
      /damaged at line \d+, column \d+/,
    ],
    ['not UTF-8', folder.write('latin.json', new Uint8Array([0x7b, 0x22, 0xff, 0xfe, 0x22, 0x7d])), /UTF-8/],
    ['too large', folder.write('large.json', `${good}${' '.repeat(1_000_001)}`), /at most/],
    ['null', folder.write('null.json', 'null'), /object with the fields/],
    ['a number', folder.write('number.json', '7'), /object with the fields/],
    ['a list', folder.write('list.json', '[]'), /object with the fields/],
  ])('%s is refused', (_, file, more) => {
    expectRefusal(runMesh(['solve', '--gearset', file]), '--gearset', more);
  });

  test('a plate that cannot be written is refused by the real command', () => {
    const spoken = spawnMesh(['plate', '--axle=aldra', `--out=${folder.path('no such folder/plate.svg')}`]);
    expectRefusal(spoken, '--out', /none of this name/);
  });

  test('the real command speaks the same way', () => {
    expectRefusal(spawnMesh(['solve', '--gearset', folder.path('cut.json')]), '--gearset', /damaged/);
    expectRefusal(spawnMesh(['solve', '--axle=aldra', '--film=thick']), '--film', /"thick"/);
  });
});

describe('gear sets that cannot be', () => {
  const folder = useFolder();
  const spoken = (json: unknown) =>
    runMesh(['solve', '--gearset', folder.write('set.json', JSON.stringify(json))]);

  test.each([
    ['set-a', 'tooth.pressureAngle', undefined, 'tooth.pressureAngle', /missing.*degrees/],
    ['set-a', 'tooth.pressureAngle', 'steep', 'tooth.pressureAngle', /"steep"/],
    ['set-a', 'ringOuterDiameter', 1e9, 'ringOuterDiameter', /1000000000.*from 60 to 1000 mm/],
    ['set-a', 'offset', 0, 'offset', /0;/],
    ['set-a', 'cut', undefined, 'cut', /missing/],
    ['set-a', 'cut.method', 'cast', 'cut.method', /"cast"/],
    ['set-a', 'cut.cutterRadius', 15, 'cut.cutterRadius', /./],
    ['set-a', 'easeOff.drive.bias', 200, 'easeOff.drive.bias', /./],
    ['set-a', 'tooth.slotFactor', 0.35, 'tooth.slotFactor', /./],
    ['set-a', 'colour', 'red', 'colour', /no field of this name/],
    ['set-b', 'cut.ringPitchAngle', undefined, 'cut.ringPitchAngle', /missing/],
    ['set-b', 'cut.bladeGroups', 13.5, 'cut.bladeGroups', /whole number/],
    ['set-b', 'tooth.depthTaper', 0.8, 'tooth.depthTaper', /uniform depth/],
  ] as const)('%s with %s = %j', (set, path, value, name, more) => {
    expectRefusal(spoken(changed(SETS[set], path, value)), name, more);
  });

  test('in an axle file the field is named where it stands', () => {
    expectRefusal(spoken({ gearset: changed(SETS['set-a'], 'backlash', 'x') }), 'gearset.backlash');
    expectRefusal(
      spoken({ gearset: changed(SETS['set-a'], 'easeOff.drive.bias', 200) }),
      'gearset.easeOff.drive.bias',
    );
    expectRefusal(spoken({ gearset: SETS['set-a'], film_mm: 3 }), 'film_mm');
  });

  test('further problems are counted, on the same line', () => {
    const three = changed(changed(changed(SETS['set-a'], 'backlash', 'x'), 'offset', 'y'), 'faceWidth', 'z');
    expectRefusal(spoken(three), 'offset', /\(and 2 more problems\)\n$/);
  });

  test(`${RUNS} damaged gear sets: an answer or one line that names a field (seed ${SEED})`, () => {
    const paths = [
      ...new Set(listFields(GEAR_SET_FIELDS).map(({ path }) => path)),
      'cut',
      'tooth',
      'easeOff',
      'easeOff.coast',
      'extra',
    ];
    const known = (name: string) =>
      paths.some((path) => path === name || name.startsWith(`${path}.`) || path.startsWith(`${name}.`));
    const scaled = (json: Json, path: string, factor: number): unknown => {
      const found = path.split('.').reduce<unknown>((node, key) => (node as Json | undefined)?.[key], json);
      return typeof found === 'number' ? found * factor : found;
    };
    let answers = 0;
    let refusals = 0;
    fc.assert(
      fc.property(
        fc.constantFrom('set-a', 'set-b'),
        fc.constantFrom(...paths),
        fc.oneof(
          fc.record({
            way: fc.constant('scale'),
            by: fc.constantFrom(-1, 0, 0.2, 0.5, 0.8, 0.95, 1.05, 1.3, 2, 5, 1e6),
          }),
          fc.record({ way: fc.constant('scale'), by: fc.double({ min: 0.85, max: 1.2, noNaN: true }) }),
          fc.record({ way: fc.constant('put'), by: fc.jsonValue({ maxDepth: 1 }) }),
          fc.record({ way: fc.constant('delete'), by: fc.constant(null) }),
        ),
        (name, path, { way, by }) => {
          const set = SETS[name];
          const value = way === 'delete' ? undefined : way === 'scale' ? scaled(set, path, Number(by)) : by;
          const { code, stdout, stderr } = spoken(changed(set, path, value));
          if (code === 0) {
            answers++;
            expect(stderr).toBe('');
            expect(JSON.parse(stdout)).toMatchObject({ geometry: {}, drive: {}, coast: {}, backlash: {} });
            return;
          }
          refusals++;
          const field = stderr.slice(0, stderr.indexOf(': '));
          expectRefusal({ code, stdout, stderr }, field);
          expect(known(field), stderr).toBe(true);
        },
      ),
      { seed: SEED, numRuns: RUNS },
    );
    // the fuzz reaches both sides
    expect(answers).toBeGreaterThan(RUNS / 10);
    expect(refusals).toBeGreaterThan(0.3 * RUNS);
    // whole commands: long on a busy machine
  }, 300_000);
});
