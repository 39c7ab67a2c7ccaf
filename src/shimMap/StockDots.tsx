import { memo, useCallback } from 'react';
import { type Combination, type Combinations, pointOf } from './combinations.ts';
import styles from './ShimMap.module.css';
import type { Scales } from './scales.ts';
import { type Draw, useBitmap } from './useBitmap.ts';
import type { BoxSize } from './useBoxSize.ts';

/** px between dots at least: nearer ones run together to a grey. */
const ROOM = 8;
/** Steps from the pointer within which every dot is drawn, and larger. */
const NEAR = 3;

interface DotsProps {
  readonly combinations: Combinations;
  readonly scales: Scales;
}

export interface StockDotsProps extends DotsProps {
  readonly size: BoxSize;
}

/** A dot for every combination of real parts; where they are too many, every second or third of them. */
export const StockDots = memo(function StockDots({ combinations, scales, size }: StockDotsProps) {
  const draw = useCallback<Draw>(
    (context, canvas) => {
      const { shims, rings } = combinations;
      const { box } = scales;
      const everyShim = Math.max(1, Math.ceil((ROOM * shims.length) / box.width));
      const everyRing = Math.max(1, Math.ceil((ROOM * rings.length) / box.height));
      const path = new Path2D(
        dotsPath(combinations, everyOf(shims, everyShim), everyOf(rings, everyRing), scales),
      );
      const colours = getComputedStyle(canvas);
      context.lineCap = 'round';
      for (const [colour, width] of STROKES) {
        context.strokeStyle = colours.getPropertyValue(colour);
        context.lineWidth = width;
        context.stroke(path);
      }
    },
    [combinations, scales],
  );
  const { width, height } = size;
  return <canvas ref={useBitmap(size, draw)} className={styles.drawing} style={{ width, height }} />;
});

/** Colour and px of the dots, what lies beneath first. */
const STROKES = [
  ['--paper', 4],
  ['--paper-ink', 2.4],
] as const;

const everyOf = (parts: readonly unknown[], every: number): readonly number[] =>
  Array.from({ length: Math.ceil(parts.length / every) }, (_, k) => k * every);

export interface NearDotsProps extends DotsProps {
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
