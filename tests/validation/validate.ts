import { mkdirSync, writeFileSync } from 'node:fs';
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

const progress = (what: string): void => {
  process.stderr.write(`${what} …\n`);
};

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
  diagnoseClosedLoopSection(progress),
  plotsSection(),
  limitsSection(),
]);
progress('plots');
mkdirSync(IMAGES, { recursive: true });
for (const [name, svg] of drawPlots()) writeFileSync(new URL(name, IMAGES), svg);
writeFileSync(REPORT, `${report}\n`);
progress('docs/validation.md written');
