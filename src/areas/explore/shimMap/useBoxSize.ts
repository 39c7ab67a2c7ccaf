import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export interface BoxSize {
  readonly width: number;
  readonly height: number;
  /** px of the page's text size, which the theme and the screen decide */
  readonly em: number;
}

/** Inner size of an element: the map is laid out one to one in screen pixels, so that strokes and texts keep their size. */
export function useBoxSize(): readonly [RefObject<HTMLDivElement | null>, BoxSize | null] {
  const ref = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<BoxSize | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = element;
      const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      if (width > 0 && height > 0) {
        setSize((last) =>
          last !== null && last.width === width && last.height === height && last.em === em
            ? last
            : { width, height, em },
        );
      }
    };
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
