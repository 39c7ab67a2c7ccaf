import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react';
import { useThemeInForce } from '../app/ui/useThemeInForce.ts';
import type { BoxSize } from './useBoxSize.ts';

/** Draws in CSS px; colours come from the style of `canvas`. */
export type Draw = (context: CanvasRenderingContext2D, canvas: HTMLCanvasElement) => void;

/**
 * A canvas with what `draw` draws, kept as a bitmap: hundreds of dots would otherwise be drawn
 * again in every frame that changes something near them. `draw` again when it or the size changes.
 */
export function useBitmap(size: BoxSize, draw: Draw): RefObject<HTMLCanvasElement | null> {
  const ref = useRef<HTMLCanvasElement>(null);
  const theme = useThemeInForce();
  const drawnIn = useRef(theme);
  useLayoutEffect(() => paint(ref.current, size, draw), [size, draw]);
  useEffect(() => {
    // the page has its new colours only now
    if (drawnIn.current !== theme) paint(ref.current, size, draw);
    drawnIn.current = theme;
  }, [theme, size, draw]);
  return ref;
}

function paint(canvas: HTMLCanvasElement | null, { width, height, pixelRatio }: BoxSize, draw: Draw): void {
  // a canvas that is read often is drawn by the processor: without a graphics card the other way takes every core for
  // a quarter of a second
  const context = canvas?.getContext('2d', { willReadFrequently: true });
  if (!canvas || !context) return;
  canvas.width = Math.round(width * pixelRatio);
  canvas.height = Math.round(height * pixelRatio);
  context.scale(canvas.width / width, canvas.height / height);
  draw(context, canvas);
}
