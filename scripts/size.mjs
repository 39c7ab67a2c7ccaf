/** `npm run size`: what the bundle weighs, file by file. The browser tests measure what a first visit really fetches. */
import { DIST, ensureBuild } from './lib/build.mjs';
import { fail } from './lib/run.mjs';
import { BUDGET_KB, bundleFiles, kB, startFiles, sum } from './lib/size.mjs';

const row = (cells) =>
  `${cells[0].padEnd(64)} ${cells[1].padStart(9)} ${cells[2].padStart(9)}  ${cells[3]}`.trimEnd();
const amount = (bytes) => kB(bytes).toFixed(1);

async function main() {
  await ensureBuild();
  const atStart = startFiles(DIST);
  const files = bundleFiles(DIST).sort((a, b) => b.sent - a.sent);
  console.log(row(['file', 'kB', 'kB gzip', 'loaded']));
  for (const { path, raw, sent } of files) {
    console.log(row([path, amount(raw), amount(sent), atStart.has(path) ? 'at start' : 'when needed']));
  }
  const start = files.filter(({ path }) => atStart.has(path));
  console.log(`\nAt start ${amount(sum(start))} kB gzip; the whole bundle ${amount(sum(files))} kB gzip.`);
  console.log(`A first visit may cost ${BUDGET_KB} kB (measured in tests/browser/house.spec.ts).`);
}

main().catch(fail);
