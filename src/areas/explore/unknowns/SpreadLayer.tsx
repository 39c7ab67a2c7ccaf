import type { SpreadSample } from '../../../../sim/contact/spread.ts';
import type { Distribution } from '../../../../sim/worker/longProtocol.ts';
import { ArrowLayer } from '../../../flank/ArrowLayer.tsx';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { useSpread } from '../../../state/spread.ts';
import { drawnSpread } from './drawnSpread.ts';
import styles from './spread.module.css';

/** Points along each side of a band: its sides follow the tooth. */
const PIECES = 8;

/** Where the middle of the mark may lie, and where one step may take it: nine of ten sets within the outer band, half within the inner. */
export function SpreadLayer({ frame }: { readonly frame: MapFrame }) {
  const shown = useSpread((state) => state.shown);
  if (shown === null) return null;
  const { flanks, times } = drawnSpread(shown);
  const { centre, steps } = flanks[frame.flank];
  const { toeHeel, rootFace } = shown.spread[frame.flank];
  if (centre === null) return null;
  const dots = dotsPath(frame, shown.samples);
  return (
    <g data-layer="spread">
      <path
        className={styles.halo}
        d={bandPath(frame, [toeHeel.low, toeHeel.high], [rootFace.low, rootFace.high])}
      />
      <path
        className={styles.outer}
        d={bandPath(frame, [toeHeel.low, toeHeel.high], [rootFace.low, rootFace.high])}
        data-part="outer"
      />
      <path
        className={styles.inner}
        d={bandPath(
          frame,
          [toeHeel.quarter, toeHeel.threeQuarters],
          [rootFace.quarter, rootFace.threeQuarters],
        )}
        data-part="inner"
      />
      <path className={styles.setsRim} d={dots} />
      <path className={styles.sets} d={dots} data-part="sets" />
      {steps.map(({ name, along, up }) => (
        <path
          key={name}
          className={styles.tips}
          data-step={name}
          d={bandPath(frame, reach(centre.toeHeel, along, times), reach(centre.rootFace, up, times))}
        />
      ))}
      <ArrowLayer frame={frame} centre={centre} moves={steps} times={times} />
    </g>
  );
}

const reach = (from: number, { low, high }: Distribution, times: number): readonly [number, number] => [
  from + times * low,
  from + times * high,
];

function bandPath(
  { place }: MapFrame,
  [u0, u1]: readonly [number, number],
  [v0, v1]: readonly [number, number],
): string {
  const side = (v: number, from: number, to: number) =>
    Array.from({ length: PIECES + 1 }, (_, i) => place(from + ((to - from) * i) / PIECES, v));
  return `M${[...side(v0, u0, u1), ...side(v1, u1, u0)].map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
}

/** A dot for the middle of the mark of every set: lines without length, drawn round. */
function dotsPath({ flank, place }: MapFrame, samples: readonly SpreadSample[]): string {
  return samples
    .flatMap((sample) => (sample.made ? (sample[flank] ?? []) : []))
    .map(({ toeHeel, rootFace }) => {
      const [x, y] = place(toeHeel, rootFace);
      return `M${x.toFixed(1)} ${y.toFixed(1)}h0`;
    })
    .join('');
}
