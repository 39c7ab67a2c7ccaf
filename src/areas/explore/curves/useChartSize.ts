import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export interface ChartSize {
  /** px inside the element */
  readonly width: number;
  /** px of the text size in force: a projector writes larger */
  readonly rem: number;
}

/** Before the first measurement, and outside a browser. */
const UNMEASURED: ChartSize = { width: 480, rem: 15 };

/** Charts are laid out one to one in screen pixels: lines and texts keep their size while the chart fills what there is. */
export function useChartSize(): readonly [RefObject<HTMLDivElement | null>, ChartSize] {
  const ref = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState(UNMEASURED);
  // before the first picture, so that none is drawn at a width that was guessed
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = () => {
      const width = Math.round(element.clientWidth);
      const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      if (width > 0) setSize((last) => (last.width === width && last.rem === rem ? last : { width, rem }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
