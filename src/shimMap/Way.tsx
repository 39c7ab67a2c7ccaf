import styles from './ShimMap.module.css';
import type { PlotBox, ScreenPoint } from './scales.ts';

/** The point, or the one nearest to it on the border of the plot. */
export function inBox({ x, y }: ScreenPoint, { left, top, width, height }: PlotBox): ScreenPoint {
  return { x: Math.min(Math.max(x, left), left + width), y: Math.min(Math.max(y, top), top + height) };
}

/** px below which a leg is too short for its number */
const SHORT = 26;

/** The way in two legs, each with the number it has in the words: the pinion shim first, then the sides. */
export function Way({ from, to }: { readonly from: ScreenPoint; readonly to: ScreenPoint }) {
  const across = Math.abs(to.x - from.x) > 0.5;
  const up = Math.abs(to.y - from.y) > 0.5;
  if (!across && !up) return null;
  const corner = { x: to.x, y: from.y };
  const d = `M${from.x} ${from.y}H${corner.x}V${to.y}`;
  const numbers = [
    ...(across ? [{ x: (from.x + corner.x) / 2, y: from.y, room: Math.abs(to.x - from.x) }] : []),
    ...(up ? [{ x: corner.x, y: (corner.y + to.y) / 2, room: Math.abs(to.y - from.y) }] : []),
  ];
  return (
    <>
      <path className={styles.wayHalo} d={d} />
      <path className={styles.way} d={d} />
      {numbers.map(
        ({ x, y, room }, leg) =>
          room >= SHORT && (
            // biome-ignore lint/suspicious/noArrayIndexKey: a leg is its place in the way
            <g key={leg} transform={`translate(${x} ${y})`}>
              <circle className={styles.legDisc} r={9.5} />
              <text className={styles.legNumber}>{leg + 1}</text>
            </g>
          ),
      )}
    </>
  );
}
