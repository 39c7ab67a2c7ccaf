import { execFile } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { AXLE_IDS } from '../../models/index.ts';
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

/** The longest part of the report by far: a process per core, all started at once. */
const runClosedLoops = async (): Promise<ReadonlyArray<readonly string[]>> => {
  const job = fileURLToPath(new URL('closedLoopJob.ts', import.meta.url));
  const cores = Math.min(AXLE_IDS.length, Math.max(1, availableParallelism()));
  const answers = await Promise.all(
    Array.from({ length: cores }, async (_, core) => {
      const ids = AXLE_IDS.filter((__, k) => k % cores === core);
      const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', job, ...ids]);
      return JSON.parse(stdout) as Readonly<Record<string, readonly string[]>>;
    }),
  );
  const rows = Object.assign({}, ...answers) as Readonly<Record<string, readonly string[]>>;
  return AXLE_IDS.map((id) => rows[id]);
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
