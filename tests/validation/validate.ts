import { execFile } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { AXLE_IDS, type AxleId } from '../../models/index.ts';
import { IMAGES, REPORT } from './files.ts';
import { drawPlots } from './plots/index.ts';
import { backlashRatiosSection } from './sections/backlashRatios.ts';
import { diagnoseClosedLoopSection } from './sections/diagnoseClosedLoop.ts';
import { diagnoseKnownSection } from './sections/diagnoseKnown.ts';
import { diagnoseUnknownSection } from './sections/diagnoseUnknown.ts';
import { directionsSection } from './sections/directions.ts';
import { filmSensitivitySection } from './sections/filmSensitivity.ts';
import { gridConvergenceSection } from './sections/gridConvergence.ts';
import { interpolationSection } from './sections/interpolation.ts';
import { introduction } from './sections/introduction.ts';
import { invariantsSection } from './sections/invariants.ts';
import { limitsSection } from './sections/limits.ts';
import { oracleAgreementSection } from './sections/oracleAgreement.ts';
import { ownAxleSection, readingsSection } from './sections/ownAxle.ts';
import { plotsSection } from './sections/plots.ts';
import { workedNumbersSection } from './sections/workedNumbers.ts';
import { blocks } from './text.ts';

/** The longest part of the report by far: as many processes as cores, each taking the next axle when it has done one. */
const runClosedLoops = async (): Promise<ReadonlyArray<readonly string[]>> => {
  const job = fileURLToPath(new URL('closedLoopJob.ts', import.meta.url));
  const rows = new Map<AxleId, readonly string[]>();
  const waiting = [...AXLE_IDS];
  const work = async (): Promise<void> => {
    for (let id = waiting.shift(); id !== undefined; id = waiting.shift()) {
      const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', job, id]);
      rows.set(id, JSON.parse(stdout) as readonly string[]);
      progress(`closed loops of ${id} done`);
    }
  };
  await Promise.all(Array.from({ length: Math.max(1, availableParallelism()) }, work));
  return AXLE_IDS.map((id) => rows.get(id) ?? []);
};

const progress = (what: string): void => {
  process.stderr.write(`${what} …\n`);
};

progress('closed loops, beside all that follows');
const closedLoops = runClosedLoops();
progress('worked numbers');
const report = blocks([
  introduction(),
  workedNumbersSection(),
  oracleAgreementSection(progress),
  invariantsSection(progress),
  directionsSection(progress),
  backlashRatiosSection(),
  interpolationSection(progress),
  gridConvergenceSection(progress),
  filmSensitivitySection(),
  readingsSection(),
  ownAxleSection(progress),
  diagnoseKnownSection(progress),
  diagnoseUnknownSection(progress),
  diagnoseClosedLoopSection(await closedLoops),
  plotsSection(),
  limitsSection(),
]);
progress('plots');
mkdirSync(IMAGES, { recursive: true });
for (const [name, svg] of drawPlots()) writeFileSync(new URL(name, IMAGES), svg);
writeFileSync(REPORT, `${report}\n`);
progress('docs/validation.md written');
