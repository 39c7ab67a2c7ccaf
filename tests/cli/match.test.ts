import { describe, expect, test } from 'vitest';
import { AXLES } from '../../models/index.ts';
import { runMesh } from './runMesh.ts';
import { spawnMesh } from './spawnMesh.ts';
import { useFolder } from './useFolder.ts';

const POSE = { pinionIn: 0.08, ringAway: -0.05, offsetError: 0, shaftAngleError: 0 };

/** What `mesh solve` says of a pose, as an observation. */
const solved = (axle: string): { drive: object; coast: object; backlash_mm: number[] } => {
  const answer = JSON.parse(
    runMesh(['solve', `--axle=${axle}`, `--pinion-in=${POSE.pinionIn}`, `--ring-away=${POSE.ringAway}`])
      .stdout,
  );
  const mark = ({ toeHeel, rootFace, length, height }: Record<string, number>) => ({
    toeHeel,
    rootFace,
    length,
    height,
  });
  return { drive: mark(answer.drive), coast: mark(answer.coast), backlash_mm: [answer.backlash.normal] };
};

describe('match', () => {
  const folder = useFolder();
  const file = (text: string): string => folder.write('observed.json', text);
  const lines = (stdout: string) =>
    stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));

  test('one object: what solve printed is found again, with advice for an axle', () => {
    const observed = file(JSON.stringify(solved('borrin'), null, 2));
    const { code, stdout, stderr } = spawnMesh(['match', '--axle=borrin', `--observed=${observed}`]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const [answer, ...more] = lines(stdout);
    expect(more).toEqual([]);
    expect(Object.keys(answer)).toEqual(
      expect.arrayContaining(['pose', 'shimmable', 'alternatives', 'nearest', 'nextReading', 'advice']),
    );
    for (const field of ['pinionIn', 'ringAway', 'offsetError', 'shaftAngleError'] as const) {
      const { mean, sd } = answer.pose[field];
      expect(sd).toBeGreaterThan(0);
      expect(Math.abs(mean - POSE[field]), field).toBeLessThan(1.5 * sd);
    }
    expect(answer.shimmable).toBe(true);
    expect(answer.contradiction).toBeNull();
    expect(answer.advice.kind).toMatch(/^(change|leave)$/);
    expect(answer.advice.present).toEqual({
      pinionShim: AXLES.borrin.pinionShim.fitted,
      ringSide: AXLES.borrin.sides.ringSide.fitted,
      oppositeSide: AXLES.borrin.sides.oppositeSide.fitted,
    });
  });

  test('JSON lines: one answer a line, in order; a bad line answers with its error', () => {
    const good = solved('cavel');
    const observed = file(
      [
        JSON.stringify(good),
        '{"drive":{"toeHeel":0.1}}',
        'nonsense',
        JSON.stringify({ drive: { toeHeel: 7, rootFace: 0 } }),
        JSON.stringify({ ...good, speed: 3 }),
        '42',
        JSON.stringify({ coast: good.coast }),
      ].join('\n'),
    );
    const { code, stdout, stderr } = runMesh(['match', '--axle=cavel', `--observed=${observed}`]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const answers = lines(stdout);
    expect(answers).toHaveLength(7);
    expect(answers[0].pose.pinionIn.mean).toBeTypeOf('number');
    expect(answers[1]).toEqual({ error: expect.stringMatching(/^drive\.rootFace: missing; allowed/) });
    expect(answers[2]).toEqual({ error: expect.stringMatching(/^observation: damaged/) });
    expect(answers[3]).toEqual({
      error: expect.stringMatching(/^drive\.toeHeel: 7; allowed: .*-1\.05 to 1\.05/),
    });
    expect(answers[4]).toEqual({ error: expect.stringMatching(/^speed: unknown field/) });
    expect(answers[5]).toEqual({ error: expect.stringMatching(/^observation: 42/) });
    expect(answers[6].pose.pinionIn.sd).toBeGreaterThan(answers[0].pose.pinionIn.sd);
  });

  test('an outline and a mask of one rectangle say the same; data as text, list or rows', () => {
    const [left, right, low, high] = [-0.6, 0.4, -0.5, 0.625];
    const columns = 40;
    const rows = 32;
    const cells = Array.from({ length: rows }, (_, j) =>
      Array.from({ length: columns }, (__, i) => {
        const u = -1 + (2 * i + 1) / columns;
        const v = -1 + (2 * j + 1) / rows;
        return u > left && u < right && v > low && v < high ? 1 : 0;
      }),
    );
    const mask = (data: unknown) => ({ drive: { mask: { columns, rows, data } } });
    const outline = [
      [left, low],
      [right, low],
      [right, high],
      [left, high],
    ];
    const observed = file(
      [
        { drive: { outline } },
        mask(cells.flat()),
        mask(cells.flat().join('')),
        mask(cells.map((row) => row.join(''))),
      ]
        .map((one) => JSON.stringify(one))
        .join('\n'),
    );
    const [first, second, ...same] = lines(
      runMesh(['match', '--axle=dornet', `--observed=${observed}`]).stdout,
    );
    expect(second.pose.pinionIn.mean).toBeCloseTo(first.pose.pinionIn.mean, 1);
    expect(second.pose.ringAway.mean).toBeCloseTo(first.pose.ringAway.mean, 1);
    for (const other of same) expect(other).toEqual(second);
  });

  test('an unknown set is less sure, and a gear set from a file gets no advice', () => {
    const observed = file(JSON.stringify(solved('aldra')));
    const gearset = folder.write('gearset.json', JSON.stringify(AXLES.aldra.gearset));
    const answer = (...more: string[]) =>
      lines(runMesh(['match', `--observed=${observed}`, ...more]).stdout)[0];
    const known = answer(`--gearset=${gearset}`);
    const unknown = answer(`--gearset=${gearset}`, '--set=unknown');
    expect(known.advice).toBeUndefined();
    expect(known).toMatchObject({ regime: 'known', nearest: { set: null } });
    expect(unknown.regime).toBe('unknown');
    expect(unknown.pose.pinionIn.sd).toBeGreaterThan(2 * known.pose.pinionIn.sd);
  });

  test.each([
    [['match', '--axle=borrin'], /^--observed: missing; allowed: --observed=FILE$/],
    [['match', '--axle=borrin', '--observed=/nowhere/at/all'], /^--observed: .*there is none of this name$/],
    [
      ['match', '--axle=borrin', '--observed=$FILE', '--set=maybe'],
      /^--set: "maybe"; allowed: known or unknown$/,
    ],
    [['match', '--observed=$FILE'], /^--gearset: missing/],
    [['match', '--axle=borrin', '--observed=$FILE'], /^--observed: .*this one is damaged/],
  ])('%j is refused in one line', (args, words) => {
    const damaged = file('{\n  "drive": oops\n}\n');
    const { code, stdout, stderr } = runMesh(args.map((arg) => arg.replace('$FILE', damaged)));
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr.trimEnd()).toMatch(words);
    expect(stderr.trimEnd()).not.toContain('\n');
  });

  test.each([
    ['{}', /^drive: missing/],
    ['[1]', /^observation: \[1\]/],
    ['{"drive":{"toeHeel":"left","rootFace":0}}', /^drive\.toeHeel: "left"; allowed: a number$/],
    ['{"drive":{"outline":[[0,0],[1,1]]}}', /^drive\.outline: 2 corners; allowed: 3 to/],
    ['{"coast":{"mask":{"columns":4,"rows":4,"data":"0000"}}}', /^coast\.mask\.data: 4 cells; allowed: .*16/],
    [
      '{"coast":{"mask":{"columns":4,"rows":4,"data":"0000000000000000"}}}',
      /^coast\.mask\.data: nothing marked/,
    ],
    ['{"drive":{"toeHeel":0,"rootFace":0},"backlash_mm":0.1}', /^backlash_mm: 0\.1; allowed: a list/],
    ['{"drive":{"toeHeel":0,"rootFace":0},"backlash_mm":[9]}', /^backlash_mm\[0\]: 9; allowed: .* mm$/],
    ['{"drive":{"toeHeel":0,"rootFace":0},"uncertainty":{"patch":0}}', /^uncertainty\.patch: 0; allowed/],
    ['{"drive":{"toeHeel":0,"rootFace":0},"film_mm":1}', /^film_mm: 1; allowed: .* mm$/],
  ])('the observation %s is refused in one line', (json, words) => {
    const { code, stdout, stderr } = runMesh(['match', '--axle=borrin', `--observed=${file(json)}`]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr.trimEnd()).toMatch(words);
  });
});
