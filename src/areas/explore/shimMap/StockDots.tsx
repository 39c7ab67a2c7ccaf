import { memo, useMemo } from 'react';
import { type Combination, type Combinations, pointOf } from './combinations.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';

/** px between dots at least: nearer ones run together to a grey. */
const ROOM = 8;
/** Steps from the pointer within which every dot is drawn, and larger. */
const NEAR = 3;

export interface StockDotsProps {
  readonly combinations: Combinations;
  readonly scales: Scales;
}

/** A dot for every combination of real parts; where they are too many, every second or third of them. */
export const StockDots = memo(function StockDots({ combinations, scales }: StockDotsProps) {
  const path = useMemo(() => {
    const { shims, rings } = combinations;
    const { box } = scales;
    const everyShim = Math.max(1, Math.ceil((ROOM * shims.length) / box.width));
    const everyRing = Math.max(1, Math.ceil((ROOM * rings.length) / box.height));
    const some = (count: number, every: number) =>
      Array.from({ length: Math.ceil(count / every) }, (_, k) => k * every);
    return dotsPath(combinations, some(shims.length, everyShim), some(rings.length, everyRing), scales);
  }, [combinations, scales]);
  return (
    <>
      <path className={styles.dotsHalo} d={path} />
      <path className={styles.dots} d={path} />
    </>
  );
});

export interface NearDotsProps extends StockDotsProps {
  readonly near: Combination;
}

/** The combinations round the pointer. */
export const NearDots = memo(function NearDots({ combinations, scales, near }: NearDotsProps) {
  const { shims, rings } = combinations;
  const round = (index: number, count: number) => {
    const first = Math.max(0, index - NEAR);
    return Array.from({ length: Math.min(count - 1, index + NEAR) - first + 1 }, (_, k) => first + k);
  };
  const path = dotsPath(combinations, round(near.shim, shims.length), round(near.ring, rings.length), scales);
  return (
    <>
      <path className={styles.dotsHalo} data-near="" d={path} />
      <path className={styles.dots} data-near="" d={path} />
    </>
  );
});

/** Strokes without length: with round ends they are dots. */
function dotsPath(
  combinations: Combinations,
  shims: readonly number[],
  rings: readonly number[],
  scales: Scales,
): string {
  return shims
    .flatMap((shim) =>
      rings.map((ring) => {
        const { x, y } = scales.toScreen(pointOf(combinations, { shim, ring }));
        return `M${x.toFixed(1)} ${y.toFixed(1)}h0`;
      }),
    )
    .join('');
}
