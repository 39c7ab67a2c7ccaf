import { drawChart } from './chart.ts';
import { dialReadingChart } from './dialReading.ts';
import { filmLengthChart } from './filmLength.ts';
import { patchPathChart } from './patchPath.ts';
import { transmissionErrorChart } from './transmissionError.ts';

const CHARTS = {
  'film-length.svg': filmLengthChart,
  'patch-path.svg': patchPathChart,
  'dial-reading.svg': dialReadingChart,
  'transmission-error.svg': transmissionErrorChart,
};

/** Every plot by its file name in docs/images/validation/. */
export const drawPlots = (): ReadonlyMap<string, string> =>
  new Map(Object.entries(CHARTS).map(([name, chart]) => [name, drawChart(chart())]));
