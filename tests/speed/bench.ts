import { type BrowserBench, benchBrowser } from './browserBench.ts';
import { benchDiagnose, type DiagnoseBench } from './diagnoseBench.ts';
import { benchShimMap, type ShimMapBench } from './shimMapBench.ts';
import { benchHeap, benchSolver, type HeapBench, type SolverBench } from './solverBench.ts';

/**
 * `npm run bench [-- --json] [-- --no-browser]`: speed of the core and of the app, as times and as ratios between
 * times of the same run. Nothing here is asserted: the promises are in the issue, the judgement is the reader's.
 */
type Report = SolverBench & HeapBench & DiagnoseBench & Partial<BrowserBench & ShimMapBench>;

const PROMISES: ReadonlyArray<readonly [keyof Report, string, (value: number) => boolean]> = [
  ['floorRatio', '≤ 2', (x) => x <= 2],
  ['bruteForceRatio', '≥ 500', (x) => x >= 500],
  ['allocatedBytesPerSolve', '≈ 0', (x) => x < 16],
  ['heapGrowthBytes', '≈ 0', (x) => x < 65_536],
  ['diagnoseKnownMs', '≤ 100', (x) => x <= 100],
  ['diagnoseUnknownMs', '≤ 100', (x) => x <= 100],
  ['diagnoseRegionsMs', '≤ 300', (x) => x <= 300],
  ['inputToPatchP95Ms', '≤ 33', (x) => x <= 33],
  ['mainThreadWithBrowserP95Ms', '≤ 6', (x) => x <= 6],
  ['shimMapInputToPatchP95Ms', '≤ 33', (x) => x <= 33],
  ['shimMapFirstShare', '≤ 0.1', (x) => x <= 0.1],
  ['triangles', '≤ 120000', (x) => x <= 120_000],
  ['drawCalls', '≤ 40', (x) => x <= 40],
];

const print = (report: Report): void => {
  for (const [name, value] of Object.entries(report)) {
    if (typeof value === 'object') {
      console.log(`${name.padEnd(26)} ${JSON.stringify(value)}`);
      continue;
    }
    const promise = PROMISES.find(([field]) => field === name);
    const judged = promise ? `  promised ${promise[1]}${promise[2](value) ? '' : '  NOT KEPT'}` : '';
    console.log(`${name.padEnd(26)} ${String(Number(value.toPrecision(4))).padStart(10)}${judged}`);
  }
};

const main = async (): Promise<void> => {
  const options = process.argv.slice(2);
  const unknown = options.find((option) => option !== '--json' && option !== '--no-browser');
  if (unknown !== undefined) {
    console.error(`${unknown}: not an option of bench; allowed: --json, --no-browser`);
    process.exit(2);
  }
  const solver = benchSolver();
  const heap = await benchHeap();
  const diagnosis = benchDiagnose();
  const browser = options.includes('--no-browser')
    ? {}
    : { ...(await benchBrowser()), ...(await benchShimMap()) };
  const report: Report = { ...solver, ...heap, ...diagnosis, ...browser };
  if (options.includes('--json')) console.log(JSON.stringify(report));
  else print(report);
};

await main();
